/** The language server itself, the same for every host: what it can do, and which document it is asked about. */
import { TextDocumentSyncKind, TextDocuments, type Connection, type InitializeResult } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { libraryText } from '../../language/parts/index.js';
import type { DocumentParams, ServerStatus } from '../protocol.js';

/** Answers on the connection until it closes. */
export function startService(connection: Connection): void {
  const documents = new TextDocuments(TextDocument);
  connection.onInitialize((): InitializeResult => ({
    serverInfo: { name: 'lugwork' },
    capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental },
  }));
  connection.onInitialized(() => {
    const status: ServerStatus = { state: 'ready' };
    void connection.sendNotification('lugwork/status', status);
  });
  connection.onRequest('lugwork/builtInText', ({ uri }: DocumentParams): string | null => libraryText(uri) ?? null);
  documents.listen(connection);
  connection.listen();
}
