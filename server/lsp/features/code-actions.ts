/** Quick fixes of findings, and what can be made of the statements at the cursor. */
import { CodeActionKind, type CodeAction, type CodeActionParams, type Position } from 'vscode-languageserver';
import { extractType } from '../actions/extract-type.js';
import { namePositions } from '../actions/name-positions.js';
import { writeExpectations } from '../actions/write-expectations.js';
import { takeReading } from '../actions/take-reading.js';
import { writePattern } from '../actions/write-pattern.js';
import { allowFinding } from '../actions/allow-finding.js';
import type { ActionContext, MakeActions } from '../actions/action.js';
import { withRepairs } from '../../../language/intent/index.js';
import { locatedOf } from '../locating.js';
import { inSlices } from '../pause.js';
import { statementAt } from '../places.js';
import { repairsOf } from '../repairs.js';
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
    const tellStopped = (uri: string) => (text: string) => service.connection.console.info(`${uri}: ${text}`);
    service.connection.onCodeAction(
      onDocument(service, 'actions', null, async (at: Snapshot, { range, context: { only } }: CodeActionParams, token) => {
        const isWanted = (kind: string) =>
          only === undefined || only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
        const found = isWanted(CodeActionKind.QuickFix) ? await service.diagnostics.current(at, token) : [];
        const touched = found.filter(
          (finding) =>
            finding.range.uri === at.uri &&
            finding.range.start.line <= range.end.line &&
            finding.range.end.line >= range.start.line,
        );
        // A fault of the text has its own fixes; what is wrong with the wiring may be mended by another wiring.
        const isWiring = touched.some((finding) => !at.circuit.problems.includes(finding));
        const findings = isWiring ? withRepairs(touched, await repairsOf(at.circuit, token, tellStopped(at.uri))) : touched;
        const isReading = isWanted(CodeActionKind.RefactorRewrite) && statementAt(at.tree, range.start)?.kind === 'measured';
        const located = isReading ? await locatedOf(at.circuit, token) : undefined;
        const { analysis } = service.workspace;
        // What some actions write comes from the table of positions.
        const isTable = isWanted(CodeActionKind.RefactorRewrite) && wantsPositions(at, range.start);
        const table = isTable && (await inSlices(analysis.positionSteps(at.circuit), () => token.isCancellationRequested));
        if (table === undefined) return null;
        const context: ActionContext = { at, range, findings, analysis, ...(located === undefined ? {} : { located }) };
        return makers.flatMap((make) => make(context)).filter(({ kind }) => isWanted(kind ?? ''));
      }),
    );
  },
};

/** True on the statements whose actions name positions or write what they sound like. */
function wantsPositions({ tree }: Snapshot, place: Position): boolean {
  const kind = statementAt(tree, place)?.kind;
  return kind === 'instrument' || kind === 'expect' || kind === 'part';
}

/** The fixes of all findings; one that mends several stands once. */
const fixFindings: MakeActions = ({ findings }): CodeAction[] => {
  const actions = new Map<string, CodeAction>();
  for (const action of findings.flatMap(toQuickFixes)) {
    const key = JSON.stringify([action.title, action.edit]);
    const known = actions.get(key);
    if (known === undefined) actions.set(key, action);
    else {
      known.diagnostics = [...(known.diagnostics ?? []), ...(action.diagnostics ?? [])];
      known.isPreferred = known.isPreferred === true || action.isPreferred === true;
    }
  }
  return [...actions.values()];
};

const makers: readonly MakeActions[] = [
  fixFindings,
  allowFinding,
  takeReading,
  namePositions,
  writeExpectations,
  writePattern,
  extractType,
];
