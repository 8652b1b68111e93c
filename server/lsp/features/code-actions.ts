/** Quick fixes of findings, and what can be made of the statements at the cursor. */
import { CodeActionKind, type CodeAction, type CodeActionParams } from 'vscode-languageserver';
import { extractType } from '../actions/extract-type.js';
import { namePositions } from '../actions/name-positions.js';
import { writeExpectations } from '../actions/write-expectations.js';
import { allowFinding } from '../actions/allow-finding.js';
import type { ActionContext, MakeActions } from '../actions/action.js';
import { toQuickFixes } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from './feature.js';

export const codeActions: Feature = {
  capabilities: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite, CodeActionKind.RefactorExtract],
    },
  },
  register(service) {
    service.connection.onCodeAction(
      onDocument(service, 'actions', null, async (at: Snapshot, { range, context: { only } }: CodeActionParams, token) => {
        const isWanted = (kind: string) =>
          only === undefined || only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
        const found = isWanted(CodeActionKind.QuickFix) ? await service.diagnostics.current(at, token) : [];
        const findings = found.filter(
          (finding) =>
            finding.range.uri === at.uri &&
            finding.range.start.line <= range.end.line &&
            finding.range.end.line >= range.start.line,
        );
        const context: ActionContext = { at, range, findings, analysis: service.workspace.analysis };
        return makers.flatMap((make) => make(context)).filter(({ kind }) => isWanted(kind ?? ''));
      }),
    );
  },
};

const fixFindings: MakeActions = ({ findings }): CodeAction[] => findings.flatMap(toQuickFixes);

const makers: readonly MakeActions[] = [fixFindings, allowFinding, namePositions, writeExpectations, extractType];
