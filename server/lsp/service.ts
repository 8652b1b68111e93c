/** The language server itself, the same for every host: what it can do, and how its parts are put together. */
import {
  DidChangeWorkspaceFoldersNotification,
  TextDocumentSyncKind,
  type Connection,
  type InitializeResult,
  type ServerCapabilities,
} from 'vscode-languageserver';
import type { ClientOptions } from '../protocol.js';
import { registerCompare } from './panels/compare.js';
import { createDiagnostics } from './diagnostics.js';
import { features } from './features/index.js';
import { registerGate } from './messages/gate.js';
import { createGuard } from './messages/guard.js';
import { registerPreview } from './panels/preview.js';
import { registerSheetReadings } from './panels/sheet-readings.js';
import { registerSheet } from './panels/sheet.js';
import { warmUp } from './panels/warm-up.js';
import { registerWiring } from './panels/wiring.js';
import { createWorkspace, type ServiceHost } from './workspace.js';

export type { ServiceHost } from './workspace.js';

/** Answers on the connection until it closes. The connection is created with `gateOptions`, so that handlers see only well-formed messages. */
export function startService(connection: Connection, host: ServiceHost = {}): void {
  registerGate(connection);
  const guard = createGuard(connection);
  const workspace = createWorkspace(connection, host, guard, {
    changed: (uris) => diagnostics.check(uris),
    closed: (uri) => diagnostics.forget(uri),
  });
  const diagnostics = createDiagnostics(connection, guard, workspace);

  connection.onInitialize(({ initializationOptions, capabilities: client, workspaceFolders, rootUri }): InitializeResult => {
    workspace.client = (initializationOptions as Partial<ClientOptions> | null | undefined) ?? {};
    workspace.capabilities = client;
    // `rootUri` is what older clients send.
    workspace.folders = workspaceFolders?.map(({ uri }) => uri) ?? (typeof rootUri === 'string' ? [rootUri] : []);
    connection.onInitialized(() => {
      workspace.settings.start(client);
      void connection.sendNotification('lugwork/status', { state: 'ready' });
      void guard.attempt('first drawing', () => warmUp(workspace, host));
    });
    const own: ServerCapabilities = {
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    };
    const capabilities = Object.assign(own, ...features.map((feature) => feature.capabilities)) as ServerCapabilities;
    return { serverInfo: { name: 'lugwork' }, capabilities };
  });
  connection.onNotification(
    DidChangeWorkspaceFoldersNotification.type,
    guard.notification('workspace/didChangeWorkspaceFolders', ({ event: { added, removed } }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      workspace.folders = [...workspace.folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      diagnostics.check(workspace.documents.all().map(({ uri }) => uri));
    }),
  );
  for (const feature of features) feature.register({ connection, guard, workspace, diagnostics });
  registerPreview({ connection, guard, workspace, diagnostics }, host);
  registerCompare({ connection, guard, workspace, diagnostics }, host);
  registerSheet({ connection, guard, workspace, diagnostics }, host);
  registerSheetReadings({ connection, guard, workspace, diagnostics });
  registerWiring({ connection, guard, workspace, diagnostics });
  connection.listen();
}
