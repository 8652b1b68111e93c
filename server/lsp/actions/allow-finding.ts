/** `allow RULE on NAME "why"`: sets a finding aside with room for the reason, behind the `allow` lines that are there already. */
import { CodeActionKind } from 'vscode-languageserver';
import { rulePage } from '../built-ins.js';
import { insertStatements } from '../insertions.js';
import { toDiagnostic } from '../to-protocol.js';
import type { MakeActions } from './action.js';

export const allowFinding: MakeActions = ({ at, findings }) =>
  findings.flatMap((finding) => {
    // A fault of the text, and an `allow` that meets nothing, cannot be set aside.
    if (rulePage(finding.rule) === undefined || finding.rule === 'idle-allow') return [];
    const on = finding.subjects[0];
    const what = `${finding.rule}${on === undefined ? '' : ` on ${on}`}`;
    return [
      {
        title: `allow ${what}, and say why`,
        kind: CodeActionKind.QuickFix,
        diagnostics: [toDiagnostic(finding)],
        edit: { changes: { [at.uri]: [insertStatements(at, [`allow ${what} "say why"`], ['allow'])] } },
      },
    ];
  });
