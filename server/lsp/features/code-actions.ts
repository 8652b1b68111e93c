/** Quick fixes of findings, and what can be made of the statements at the cursor. */
import {
  CodeActionKind,
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type ClientCapabilities,
  type CodeAction,
  type CodeActionParams,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { extractType } from '../actions/extract-type.js';
import { deferredActions, unresolved, type DeferredData, type DeferredName } from '../actions/deferred.js';
import { takeReading } from '../actions/take-reading.js';
import { allowFinding } from '../actions/allow-finding.js';
import type { ActionContext, MakeActions } from '../actions/action.js';
import { withRepairs } from '../../../language/intent/index.js';
import { locatedOf } from '../panels/locating.js';
import { inSlices } from '../messages/pause.js';
import { statementAt } from '../places.js';
import { repairsOf } from '../repairs.js';
import { toQuickFixes } from '../to-protocol.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const codeActions: Feature = {
  capabilities: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite, CodeActionKind.RefactorExtract],
      resolveProvider: true,
    },
  },
  register(service) {
    const { connection, workspace } = service;
    const reportStopped = (uri: string) => (text: string) => connection.console.info(`${uri}: ${text}`);
    connection.onCodeAction(
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
        const findings = isWiring ? withRepairs(touched, await repairsOf(at.circuit, token, reportStopped(at.uri))) : touched;
        const isReading = isWanted(CodeActionKind.RefactorRewrite) && statementAt(at.tree, range.start)?.kind === 'measured';
        const located = isReading ? await locatedOf(at.circuit, token) : undefined;
        const context: ActionContext = { at, range, findings, ...(located === undefined ? {} : { located }) };
        const whole = makers.flatMap((make) => make(context));
        const names = Object.keys(deferredActions) as DeferredName[];
        const deferred = names.flatMap((name) =>
          deferredActions[name].offer(context).map((offered) => unresolved(at, name, offered)),
        );
        const wanted = [...whole, ...deferred].filter(({ kind }) => isWanted(kind ?? ''));
        return resolves(workspace.capabilities) ? wanted : allResolved(at, wanted, token);
      }),
    );
    connection.onCodeActionResolve(
      service.guard.request(
        'codeAction/resolve',
        (action: CodeAction) => action,
        async (action, token) => {
          const data = action.data as DeferredData | undefined;
          if (data === undefined || action.edit !== undefined) return action;
          const isOld = (): boolean => (workspace.documents.get(data.uri)?.version ?? 0) !== data.version;
          const at = isOld() ? undefined : await workspace.snapshot(data.uri);
          const edit = at === undefined ? undefined : await editOf(at, data, () => token.isCancellationRequested || isOld());
          if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
          if (edit === undefined || isOld())
            throw refusal('The text has changed since this action was offered. Choose it again.');
          if (typeof edit === 'string') throw refusal(edit);
          return { ...action, edit };
        },
      ),
    );

    const editOf = async (
      at: Snapshot,
      { make, about, uri }: DeferredData,
      isGivenUp: () => boolean,
    ): Promise<WorkspaceEdit | string | undefined> => {
      const edit = await inSlices(deferredActions[make].edit(at, about, workspace.analysis), isGivenUp);
      return typeof edit === 'object' ? { changes: { [uri]: [edit] } } : edit;
    };
    /** With their edits, for a client that asks for none later; without those that have none. */
    const allResolved = async (
      at: Snapshot,
      actions: readonly CodeAction[],
      token: CancellationToken,
    ): Promise<CodeAction[] | null> => {
      const resolved: CodeAction[] = [];
      for (const { data, ...action } of actions) {
        const edit = action.edit ?? (await editOf(at, data as DeferredData, () => token.isCancellationRequested));
        if (token.isCancellationRequested) return null;
        if (typeof edit === 'object') resolved.push({ ...action, edit });
      }
      return resolved;
    };
  },
};

/** True where the client asks for an action's edit when it is chosen, and gives its data back. */
function resolves({ textDocument }: ClientCapabilities): boolean {
  const { dataSupport, resolveSupport } = textDocument?.codeAction ?? {};
  return dataSupport === true && resolveSupport?.properties.includes('edit') === true;
}

function refusal(message: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, message);
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

const makers: readonly MakeActions[] = [fixFindings, allowFinding, takeReading, extractType];
