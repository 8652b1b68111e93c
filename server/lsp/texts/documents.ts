/** The open documents, kept by what the client tells of them. A change that comes late or for a document that is not open is passed over. */
import type { Connection } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Guard } from '../messages/guard.js';

export interface Documents {
  get(uri: string): TextDocument | undefined;
  all(): readonly TextDocument[];
}

export interface DocumentEvents {
  changed(document: TextDocument): void;
  closed(uri: string): void;
}

/** Listens on the connection from now on. */
export function createDocuments(connection: Connection, guard: Guard, events: DocumentEvents): Documents {
  const open = new Map<string, TextDocument>();
  connection.onDidOpenTextDocument(
    guard.notification('textDocument/didOpen', ({ textDocument: { uri, languageId, version, text } }) => {
      const document = TextDocument.create(uri, languageId, version, text);
      open.set(uri, document);
      events.changed(document);
    }),
  );
  connection.onDidChangeTextDocument(
    guard.notification('textDocument/didChange', ({ textDocument: { uri, version }, contentChanges }) => {
      const document = open.get(uri);
      // Places in an older text mean nothing in a newer one.
      if (document === undefined || version < document.version) return;
      open.set(uri, TextDocument.update(document, contentChanges, version));
      events.changed(document);
    }),
  );
  connection.onDidCloseTextDocument(
    guard.notification('textDocument/didClose', ({ textDocument: { uri } }) => {
      if (open.delete(uri)) events.closed(uri);
    }),
  );
  return { get: (uri) => open.get(uri), all: () => [...open.values()] };
}
