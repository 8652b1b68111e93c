/** A client for the tests: it speaks the Language Server Protocol over a stream with the real server, and reads marker texts. */
import { PassThrough } from 'node:stream';
import {
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  type TextDocumentContentChangeEvent,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createConnection } from 'vscode-languageserver/node.js';
import { gateOptions } from '../../server/lsp/messages/gate.js';
import { startService, type ServiceHost } from '../../server/lsp/service.js';
import { afterThisTest } from '../harness/cleanup.js';

/** A text with its marks taken out: `<|>` a place, `<|…|>` a stretch. */
export interface Marked {
  readonly text: string;
  readonly places: readonly Position[];
  readonly ranges: readonly Range[];
}

export function marked(source: string): Marked {
  const marks = /<\|>|<\||\|>/g;
  const text = source.replace(marks, '');
  const document = TextDocument.create('memory:/marks.lug', 'lugwork', 0, text);
  const places: Position[] = [];
  const ranges: Range[] = [];
  const open: Position[] = [];
  let taken = 0;
  for (const { 0: mark, index } of source.matchAll(marks)) {
    const place = document.positionAt(index - taken);
    taken += mark.length;
    if (mark === '<|>') places.push(place);
    else if (mark === '<|') open.push(place);
    else ranges.push({ start: open.pop()!, end: place });
  }
  return { text, places, ranges };
}

/** What the client pretends: files of its folder, settings, and what it can do. */
export interface EditorOptions {
  readonly files?: Readonly<Record<string, string>>;
  readonly settings?: unknown;
  readonly initialize?: Partial<InitializeParams>;
  /** What the server's own host can do. */
  readonly host?: ServiceHost;
}

/** A document open in the editor. */
export interface Opened extends Marked {
  readonly uri: string;
  /** Parameters of a request at one of its marks. */
  at(mark?: number): { readonly textDocument: { readonly uri: string }; readonly position: Position };
  readonly id: { readonly textDocument: { readonly uri: string } };
}

export interface Editor {
  readonly connection: ProtocolConnection;
  readonly initialized: InitializeResult;
  /** What the server wrote to its log. */
  readonly log: readonly string[];
  /** Files that the client answers for; a test may change them. */
  readonly files: Map<string, string>;
  settings: unknown;
  ask<R>(method: string, params: unknown): Promise<R>;
  tell(method: string, params: unknown): Promise<void>;
  /** Opens a document; marks in the text are taken out. A bare name lies in `memory:/`. */
  open(name: string, source: string): Promise<Opened>;
  change(uri: string, changes: readonly TextDocumentContentChangeEvent[]): Promise<void>;
  close(uri: string): Promise<void>;
  /** The text as the client has it now. */
  text(uri: string): string;
  /** Findings of the newest version, once they are all there. */
  diagnostics(uri: string): Promise<readonly Diagnostic[]>;
  /** Resolves when the document has been checked once more. */
  checkedAgain(uri: string): Promise<readonly Diagnostic[]>;
  /** Everything published so far. */
  readonly published: readonly PublishDiagnosticsParams[];
  /** The texts after an edit, by address; nothing is changed. */
  applied(edit: WorkspaceEdit): Readonly<Record<string, string>>;
  /** Makes the edit in the open documents. */
  apply(edit: WorkspaceEdit): Promise<void>;
}

export function uriOf(name: string): string {
  return name.includes(':') ? name : `memory:/${name}`;
}

/** Starts the server and a client, and lets them greet each other. */
export async function startEditor(options: EditorOptions = {}): Promise<Editor> {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const streams = [new StreamMessageReader(toServer), new StreamMessageWriter(toClient)] as const;
  startService(createConnection(...streams, gateOptions()), options.host);
  const connection = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  const files = new Map(Object.entries(options.files ?? {}).map(([name, text]) => [uriOf(name), text]));
  const documents = new Map<string, TextDocument>();
  const published: PublishDiagnosticsParams[] = [];
  const checked = new Map<string, number>();
  const log: string[] = [];
  let wake: (() => void)[] = [];
  connection.onRequest('lugwork/readFile', ({ uri }: { uri: string }) => files.get(uri) ?? null);
  connection.onRequest('lugwork/findFiles', () => [...files.keys()]);
  connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) => items.map(() => editor.settings));
  connection.onRequest('client/registerCapability', () => null);
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => void log.push(message));
  connection.onNotification('lugwork/status', () => undefined);
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => void published.push(params));
  connection.onNotification('lugwork/checked', ({ uri, version }: { uri: string; version: number }) => {
    checked.set(uri, version);
    wake.forEach((one) => one());
    wake = [];
  });
  connection.listen();
  const initialized = await connection.sendRequest<InitializeResult>('initialize', {
    processId: null,
    rootUri: null,
    capabilities: { workspace: { configuration: true, didChangeConfiguration: { dynamicRegistration: true } } },
    workspaceFolders: [{ uri: 'memory:/', name: 'memory' }],
    initializationOptions: { answersFiles: true, hearsChecked: true },
    ...options.initialize,
  });
  await connection.sendNotification('initialized', {});

  const applied = (edit: WorkspaceEdit): Record<string, string> => {
    const texts = Object.entries(edit.changes ?? {}).map(([uri, edits]: [string, TextEdit[]]) => {
      const document = documents.get(uri) ?? TextDocument.create(uri, 'lugwork', 0, files.get(uri) ?? '');
      return [uri, TextDocument.applyEdits(document, edits)];
    });
    return Object.fromEntries(texts) as Record<string, string>;
  };
  const editor: Editor = {
    connection,
    initialized,
    log,
    files,
    published,
    settings: options.settings ?? {},
    ask: (method, params) => connection.sendRequest(method, params),
    tell: (method, params) => connection.sendNotification(method, params),
    async open(name, source) {
      const { text, places, ranges } = marked(source);
      const uri = uriOf(name);
      documents.set(uri, TextDocument.create(uri, 'lugwork', 1, text));
      await connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'lugwork', version: 1, text },
      });
      const id = { textDocument: { uri } };
      return { uri, id, text, places, ranges, at: (mark = 0) => ({ ...id, position: places[mark]! }) };
    },
    async change(uri, changes) {
      const before = documents.get(uri)!;
      const document = TextDocument.update(before, [...changes], before.version + 1);
      documents.set(uri, document);
      await connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version: document.version },
        contentChanges: changes,
      });
    },
    async close(uri) {
      documents.delete(uri);
      checked.delete(uri);
      await connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
    },
    text: (uri) => documents.get(uri)!.getText(),
    async diagnostics(uri) {
      while (checked.get(uri) !== documents.get(uri)?.version) await new Promise<void>((resolve) => wake.push(resolve));
      return published.filter((one) => one.uri === uri).at(-1)!.diagnostics;
    },
    async checkedAgain(uri) {
      checked.delete(uri);
      return editor.diagnostics(uri);
    },
    applied,
    async apply(edit) {
      for (const [uri, text] of Object.entries(applied(edit))) {
        if (documents.has(uri)) await editor.change(uri, [{ text }]);
        else files.set(uri, text);
      }
    },
  };
  afterThisTest(async () => {
    await editor.ask('shutdown', undefined);
    editor.connection.dispose();
  });
  return editor;
}
