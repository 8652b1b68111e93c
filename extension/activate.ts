/** Brings the extension to life, the same on the desktop and in the browser. */
import { commands, type Event, type ExtensionContext } from 'vscode';
import { registerBuiltIns } from './built-ins.js';
import { createServerLink, type CreateClient } from './client.js';
import { registerCommands } from './commands/index.js';
import { registerLocated } from './located.js';
import { registerCompare } from './compare/index.js';
import { registerOverview } from './overview.js';
import { registerPaste } from './paste.js';
import { registerPreview } from './preview/index.js';
import type { LinkState, ServerLink } from './server-link.js';
import { registerSheet } from './sheet/index.js';
import { registerStarts } from './starts/index.js';
import { registerStatus } from './status.js';
import { registerTesting } from './testing/index.js';

/** What other extensions may ask of this one. */
export interface LugworkApi {
  /** State of the language server. */
  serverState(): LinkState;
  readonly onDidChangeServerState: Event<LinkState>;
}

/** Starts the server and registers everything that both hosts offer. */
export async function activateShared(
  context: ExtensionContext,
  createClient: CreateClient,
): Promise<{ api: LugworkApi; link: ServerLink }> {
  const link = createServerLink(createClient);
  context.subscriptions.push(
    { dispose: () => void link.dispose() },
    registerStatus(link),
    registerOverview(link),
    registerBuiltIns(link),
    registerPaste(link),
    registerStarts(context.extensionUri),
    registerLocated(link),
    registerPreview(link, context.extensionUri),
    registerSheet(link, context),
    registerCompare(link, context.extensionUri),
    registerTesting(link),
    ...registerCommands(link),
  );
  await commands.executeCommand('setContext', 'lugwork.isActive', true);
  // Nobody waits for the server: what needs it asks when it is ready.
  void link.restart();
  return { api: { serverState: () => link.state, onDidChangeServerState: link.onDidChangeState }, link };
}
