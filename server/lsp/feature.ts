/** What a feature is: what it tells the client, and the handlers that it registers. One file of this folder each. */
import {
  LSPErrorCodes,
  ResponseError,
  type CancellationToken,
  type Connection,
  type ServerCapabilities,
  type TextDocumentIdentifier,
} from 'vscode-languageserver';
import type { Diagnostics } from './diagnostics.js';
import type { Guard } from './messages/guard.js';
import type { Snapshot, Workspace } from './workspace.js';

export interface Service {
  readonly connection: Connection;
  readonly guard: Guard;
  readonly workspace: Workspace;
  readonly diagnostics: Diagnostics;
}

export interface Feature {
  readonly capabilities: Partial<ServerCapabilities>;
  register(service: Service): void;
}

/** A guarded handler of requests about one document, which is read first; `instead` is the answer where there is none. */
export function onDocument<P extends { readonly textDocument: TextDocumentIdentifier }, R>(
  service: Service,
  name: string,
  instead: R,
  answer: (snapshot: Snapshot, params: P, token: CancellationToken) => R | Promise<R>,
) {
  return service.guard.request<P, R>(name, instead, async (params, token) => {
    const { documents } = service.workspace;
    const { uri } = params.textDocument;
    const snapshot = await service.workspace.snapshot(uri, 'interactive');
    if (snapshot === undefined || token.isCancellationRequested) return instead;
    // An answer about an older text is of no use: work on it is given up as if the client had taken the question back.
    let isOld = false;
    const current: CancellationToken = {
      onCancellationRequested: token.onCancellationRequested,
      get isCancellationRequested() {
        isOld ||= (documents.get(uri)?.version ?? 0) !== snapshot.document.version;
        return isOld || token.isCancellationRequested;
      },
    };
    const found = await answer(snapshot, params, current);
    if (isOld) throw new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed since this request.');
    return found;
  });
}
