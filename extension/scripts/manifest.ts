/** Keeps the manifest true to the rules: each has its place in the setting `lugwork.rules`, so that the editor completes and explains it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { rules } from '../../language/checks/index.js';

const severities = ['error', 'warning', 'info', 'hint', 'off'];
/** Before the name of a rule in `package.nls.json`. */
const prefix = 'rule.';

interface RulesSetting {
  properties: Record<string, unknown>;
  additionalProperties: boolean;
}

/** The manifest and its texts: their paths in the checkout, and what they hold with the rules as they are now. */
export function manifestFiles(root: string): [path: string, text: string][] {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    contributes: { configuration: { properties: Record<string, unknown> }[] };
  };
  const setting = manifest.contributes.configuration
    .map(({ properties }) => properties['lugwork.rules'])
    .find((found) => found !== undefined);
  if (setting === undefined) throw new Error('The manifest has no setting lugwork.rules.');
  const sorted = [...rules].sort((a, b) => a.id.localeCompare(b.id, 'en'));
  (setting as RulesSetting).properties = Object.fromEntries(sorted.map(({ id }) => [id, property(id)]));
  // A name that is no rule is marked in the settings.
  (setting as RulesSetting).additionalProperties = false;
  const texts = JSON.parse(readFileSync(join(root, 'package.nls.json'), 'utf8')) as Record<string, string>;
  const others = Object.entries(texts).filter(([key]) => !key.startsWith(prefix));
  const ofRules = sorted.map(({ id, severity, summary }) => [`${prefix}${id}`, sentence(severity, summary)]);
  return [
    ['package.json', jsonText(manifest)],
    ['package.nls.json', jsonText(Object.fromEntries([...others, ...ofRules]))],
  ];
}

function property(id: string): object {
  return { type: 'string', enum: severities, markdownDescription: `%${prefix}${id}%` };
}

function sentence(severity: string, summary: string): string {
  return `${summary.charAt(0).toUpperCase()}${summary.slice(1)}. By default \`${severity}\`.`;
}

function jsonText(value: unknown): string {
  return `${JSON.stringify(value, undefined, 2)}\n`;
}
