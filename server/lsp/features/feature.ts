/** What a feature is: what it tells the client, and the handlers that it registers. One file of this folder each. */
import type { CancellationToken, Connection, ServerCapabilities, TextDocumentIdentifier } from 'vscode-languageserver';
import type { Diagnostics } from '../diagnostics.js';
import type { Guard } from '../guard.js';
import type { Snapshot, Workspace } from '../workspace.js';

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
    const snapshot = await service.workspace.snapshot(params.textDocument.uri);
    return snapshot === undefined || token.isCancellationRequested ? instead : answer(snapshot, params, token);
  });
}
