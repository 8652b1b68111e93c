/** `allow RULE on NAME "why"`: sets a finding aside with room for the reason, behind the `allow` lines that are there already. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Finding } from '../../../language/source.js';
import { rulePage } from '../texts/built-ins.js';
import { insertStatements } from '../insertions.js';
import { toDiagnostic } from '../to-protocol.js';
import type { MakeActions } from './action.js';

export const allowFinding: MakeActions = ({ at, findings, causes }) => {
  // One `allow` sets aside all that its rule finds on a thing, so it is offered once for them.
  const allowed = new Map<string, Finding[]>();
  for (const finding of findings) {
    // A fault of the text, and an `allow` that meets nothing, cannot be set aside.
    if (rulePage(finding.rule) === undefined || finding.rule === 'idle-allow') continue;
    const on = finding.subjects[0];
    const what = `${finding.rule}${on === undefined ? '' : ` on ${on}`}`;
    allowed.set(what, [...(allowed.get(what) ?? []), finding]);
  }
  return [...allowed].map(([what, own]) => ({
    title: `set ${what} aside and give a reason`,
    kind: CodeActionKind.QuickFix,
    diagnostics: own.map((finding) => toDiagnostic(finding, causes)),
    edit: { changes: { [at.uri]: [insertStatements(at, [`allow ${what} "say why"`], ['allow'])] } },
  }));
};
