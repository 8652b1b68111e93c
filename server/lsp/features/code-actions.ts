/** Quick fixes of findings, and what can be made of the statements at the cursor. */
import {
  CodeActionKind,
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type ClientCapabilities,
  type CodeAction,
  type CodeActionParams,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { extractType } from '../actions/extract-type.js';
import { deferredActions, unresolved, type DeferredData, type DeferredName } from '../actions/deferred.js';
import { keepUsual } from '../actions/keep-usual.js';
import { takeReading } from '../actions/take-reading.js';
import { copyKind, copyLugs } from '../actions/copy-lugs.js';
import { allowFinding } from '../actions/allow-finding.js';
import type { ActionContext, MakeActions } from '../actions/action.js';
import { followersOf } from '../../../language/causes.js';
import { usualAtSteps } from '../panels/expectation-choices.js';
import { locatedOf } from '../panels/locating.js';
import { inSlices } from '../messages/pause.js';
import { aligned } from '../texts/aligned.js';
import { statementAt } from '../places.js';
import { explain } from '../repairs.js';
import { toQuickFixes } from '../to-protocol.js';
import type { SourceRange } from '../../../language/source.js';
import type { Snapshot, Workspace } from '../workspace.js';
import { onDocument, type Feature, type Service } from '../feature.js';

export const codeActions: Feature = {
  capabilities: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite, CodeActionKind.RefactorExtract, copyKind],
      resolveProvider: true,
    },
  },
  register(service) {
    const { connection, guard } = service;
    connection.onCodeAction(
      onDocument(service, 'actions', null, (at: Snapshot, params: CodeActionParams, token) =>
        actionsAt(service, at, params, token),
      ),
    );
    connection.onCodeActionResolve(
      guard.request(
        'codeAction/resolve',
        (action: CodeAction) => action,
        (action, token) => resolveAction(service, action, token),
      ),
    );
  },
};

/** The actions that the client wants at a range, with their edits unless it asks for these later. */
async function actionsAt(
  service: Service,
  at: Snapshot,
  { range, context: { only } }: CodeActionParams,
  token: CancellationToken,
): Promise<CodeAction[] | null> {
  const isWanted = (kind: string): boolean =>
    only === undefined || only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
  const found = isWanted(CodeActionKind.QuickFix) ? await findingsIn(service, at, range, token) : noFindings;
  const chosen = isWanted(CodeActionKind.RefactorRewrite) ? statementAt(at.tree, range.start) : undefined;
  const located = chosen?.kind === 'measured' ? await locatedOf(at.circuit, token) : undefined;
  const usual = chosen?.kind === 'part' ? await inSlices(usualAtSteps(at), () => token.isCancellationRequested) : undefined;
  const context: ActionContext = {
    at,
    range,
    copiesLugs: service.workspace.client.copiesLugs === true && isWanted(copyKind),
    ...found,
    ...(located === undefined ? {} : { located }),
    ...(usual === undefined || usual.statement !== chosen ? {} : { usual: usual.usual }),
  };
  const complete = makers.flatMap((make) => make(context)).map((action) => inColumns(at, action));
  const names = Object.keys(deferredActions) as DeferredName[];
  const deferred = names.flatMap((name) => deferredActions[name].offer(context).map((offered) => unresolved(at, name, offered)));
  const wanted = [...complete, ...deferred].filter(({ kind }) => isWanted(kind ?? ''));
  return resolves(service.workspace.capabilities) ? wanted : resolveAll(service, at, wanted, token);
}

type Found = Pick<ActionContext, 'findings' | 'offers' | 'causes'>;

const noFindings: Found = {
  findings: [],
  offers: [],
  causes: { follows: new Map(), followers: new Map() },
};

/** The findings on the lines of a range and those that can be fixed there, each with its repairs. */
async function findingsIn(
  { connection, diagnostics, workspace }: Service,
  at: Snapshot,
  range: Range,
  token: CancellationToken,
): Promise<Found> {
  const found = await diagnostics.current(at, token);
  const report = (text: string): void => connection.console.info(`${at.uri}: ${text}`);
  const explained = await explain(at, found, workspace.texts.project, token, report);
  if (explained === undefined) return noFindings;
  const { findings, follows } = explained;
  const isHere = ({ uri, start, end }: SourceRange): boolean =>
    uri === at.uri && start.line <= range.end.line && end.line >= range.start.line;
  const own = findings.filter((finding) => isHere(finding.range));
  const elsewhere = findings.filter((finding) => !isHere(finding.range) && !follows.has(finding));
  return {
    findings: own,
    offers: [
      ...own.map((finding) => ({ finding, fixes: finding.fixes })),
      ...elsewhere.map((finding) => ({
        finding,
        fixes: finding.fixes.filter(({ edits }) => edits.some((edit) => isHere(edit.range))),
      })),
    ],
    causes: { follows, followers: followersOf(findings, follows) },
  };
}

/** Adds the edit to an action that was chosen. */
async function resolveAction({ workspace }: Service, action: CodeAction, token: CancellationToken): Promise<CodeAction> {
  const data = action.data as DeferredData | undefined;
  if (data === undefined || action.edit !== undefined) return action;
  const isOld = (): boolean => (workspace.documents.get(data.uri)?.version ?? 0) !== data.version;
  const at = isOld() ? undefined : await workspace.snapshot(data.uri);
  const edit = at === undefined ? undefined : await editOf(workspace, at, data, () => token.isCancellationRequested || isOld());
  if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
  if (edit === undefined || isOld()) throw refusal('The text has changed since this action was offered. Choose it again.');
  if (typeof edit === 'string') throw refusal(edit);
  return { ...action, edit };
}

/** With their edits, for a client that asks for none later; without those that have none. */
async function resolveAll(
  { workspace }: Service,
  at: Snapshot,
  actions: readonly CodeAction[],
  token: CancellationToken,
): Promise<CodeAction[] | null> {
  const resolved: CodeAction[] = [];
  for (const { data, ...action } of actions) {
    if (action.command !== undefined) {
      resolved.push(action);
      continue;
    }
    const edit = action.edit ?? (await editOf(workspace, at, data as DeferredData, () => token.isCancellationRequested));
    if (token.isCancellationRequested) return null;
    if (typeof edit === 'object') resolved.push({ ...action, edit });
  }
  return resolved;
}

/** The edit of a deferred action, or why there is none; `undefined` where it was given up. */
async function editOf(
  workspace: Workspace,
  at: Snapshot,
  { make, about, uri }: DeferredData,
  isGivenUp: () => boolean,
): Promise<WorkspaceEdit | string | undefined> {
  const { analysis, texts } = workspace;
  const edits = await inSlices(deferredActions[make].edit(at, about, { analysis, project: texts.project }), isGivenUp);
  return typeof edits === 'object' ? { changes: { [uri]: [...edits] } } : edits;
}

/** True where the client asks for an action's edit when it is chosen, and gives its data back. */
function resolves({ textDocument }: ClientCapabilities): boolean {
  const { dataSupport, resolveSupport } = textDocument?.codeAction ?? {};
  return dataSupport === true && resolveSupport?.properties.includes('edit') === true;
}

function refusal(message: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, message);
}

/** The action with the lines of this document in their columns. */
function inColumns({ uri, text }: Snapshot, action: CodeAction): CodeAction {
  const own = action.edit?.changes?.[uri];
  return own === undefined ? action : { ...action, edit: { changes: { ...action.edit?.changes, [uri]: aligned(text, own) } } };
}

/** The fixes of all findings; one that fixes several is listed once. */
const fixFindings: MakeActions = ({ offers, causes }): CodeAction[] => {
  const actions = new Map<string, CodeAction>();
  for (const action of offers.flatMap((offer) => toQuickFixes(offer, causes))) {
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

const makers: readonly MakeActions[] = [fixFindings, allowFinding, takeReading, keepUsual, extractType, copyLugs];
