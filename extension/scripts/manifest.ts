/** Keeps the manifest true to the rules: each has its place in the setting `lugwork.rules`, so that the editor completes and explains it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { rules } from '../../language/checks/index.js';

const severities = ['error', 'warning', 'info', 'hint', 'off'];

interface RulesSetting {
  properties: Record<string, unknown>;
  additionalProperties: boolean;
}

/** The manifest's path in the checkout, and its text with the rules as they are now. */
export function manifestFile(root: string): [path: string, text: string] {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    contributes: { configuration: { properties: Record<string, unknown> }[] };
  };
  const setting = manifest.contributes.configuration
    .map(({ properties }) => properties['lugwork.rules'])
    .find((found) => found !== undefined);
  if (setting === undefined) throw new Error('The manifest has no setting lugwork.rules.');
  (setting as RulesSetting).properties = Object.fromEntries(
    [...rules]
      .sort((a, b) => a.id.localeCompare(b.id, 'en'))
      .map(({ id, severity, summary }) => [id, property(severity, summary)]),
  );
  // A name that is no rule is marked in the settings.
  (setting as RulesSetting).additionalProperties = false;
  return ['package.json', `${JSON.stringify(manifest, undefined, 2)}\n`];
}

function property(severity: string, summary: string): object {
  const sentence = summary.charAt(0).toUpperCase() + summary.slice(1);
  return { type: 'string', enum: severities, markdownDescription: `${sentence}. Usually \`${severity}\`.` };
}
