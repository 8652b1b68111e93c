/** The language server itself, the same for every host: what it can do, and what it does when a text changes. */
import {
  DidChangeConfigurationNotification,
  TextDocumentSyncKind,
  TextDocuments,
  type CodeAction,
  type Connection,
  type InitializeResult,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { findings } from '../../language/findings.js';
import type { Finding } from '../../language/source.js';
import type {
  ClientOptions,
  DocumentParams,
  ExpectationItem,
  ExpectationOutcome,
  ServerRequests,
  Settings,
} from '../protocol.js';
import { builtInText } from './built-ins.js';
import { expectationItems, expectationOutcomes } from './expectations.js';
import { createTexts } from './texts.js';
import { toDiagnostic, toQuickFixes } from './to-protocol.js';

/** What a host can do that the service cannot. */
export interface ServiceHost {
  /** Reads a file where the client does not answer for files; absent where there is no disk. */
  readonly readFile?: (uri: string) => Promise<string | undefined>;
}

/** Answers on the connection until it closes. */
export function startService(connection: Connection, host: ServiceHost = {}): void {
  const documents = new TextDocuments(TextDocument);
  const told = new Map<string, readonly Finding[]>();
  let client: Partial<ClientOptions> = {};
  const texts = createTexts(async (uri) => {
    if (client.answersFiles === true)
      return (await connection.sendRequest<string | null>('lugwork/readFile', { uri })) ?? undefined;
    return host.readFile?.(uri);
  });

  connection.onInitialize(({ initializationOptions }): InitializeResult => {
    client = (initializationOptions as Partial<ClientOptions> | undefined) ?? {};
    return {
      serverInfo: { name: 'lugwork' },
      capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental, codeActionProvider: { codeActionKinds: ['quickfix'] } },
    };
  });
  connection.onInitialized(() => {
    void connection.client.register(DidChangeConfigurationNotification.type, { section: 'lugwork' });
    void connection.sendNotification('lugwork/status', { state: 'ready' });
  });

  /** Checks a document and all that use it, and again once files that it uses have come. */
  const check = async (uri: string): Promise<void> => {
    for (const one of new Set([uri, ...texts.project.dependents(uri)])) await checkOne(one);
    if (await texts.settle()) await check(uri);
  };
  const checkOne = async (uri: string): Promise<void> => {
    const document = documents.get(uri);
    const circuit = document === undefined ? undefined : texts.project.circuit(uri);
    if (document === undefined || circuit === undefined) return;
    const { rules } = (await connection.workspace.getConfiguration({ scopeUri: uri, section: 'lugwork' })) as Settings;
    const found = findings(circuit, { severities: rules }).filter(({ range }) => range.uri === uri);
    told.set(uri, found);
    await connection.sendDiagnostics({ uri, version: document.version, diagnostics: found.map(toDiagnostic) });
  };

  documents.onDidChangeContent(({ document }) => {
    texts.project.update(document.uri, document.getText());
    void check(document.uri);
  });
  documents.onDidClose(({ document: { uri } }) => {
    told.delete(uri);
    texts.forget(uri);
    void connection.sendDiagnostics({ uri, diagnostics: [] });
    void check(uri);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) {
      if (documents.get(uri) !== undefined) continue;
      texts.forget(uri);
      void check(uri);
    }
  });
  connection.onDidChangeConfiguration(() => documents.all().forEach(({ uri }) => void check(uri)));

  connection.onCodeAction(({ textDocument: { uri }, range }): CodeAction[] => {
    const touched = (told.get(uri) ?? []).filter(
      (finding) => finding.range.start.line <= range.end.line && finding.range.end.line >= range.start.line,
    );
    return touched.flatMap(toQuickFixes);
  });

  const circuitOf = async (uri: string) => {
    let circuit = texts.project.circuit(uri);
    while (await texts.settle()) circuit = texts.project.circuit(uri);
    return circuit;
  };
  connection.onRequest('lugwork/builtInText', ({ uri }: DocumentParams): string | null => builtInText(uri) ?? null);
  connection.onRequest('lugwork/expectations', async ({ uri }: DocumentParams): Promise<readonly ExpectationItem[]> => {
    const circuit = await circuitOf(uri);
    return circuit === undefined ? [] : expectationItems(circuit, texts.project.text(uri) ?? '');
  });
  connection.onRequest(
    'lugwork/checkExpectations',
    async ({ uri, lines }: ServerRequests['lugwork/checkExpectations']['params']): Promise<readonly ExpectationOutcome[]> => {
      const circuit = await circuitOf(uri);
      return circuit === undefined ? [] : expectationOutcomes(circuit, texts.project.text(uri) ?? '', lines);
    },
  );
  documents.listen(connection);
  connection.listen();
}
