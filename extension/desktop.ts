/** Entry on the desktop and on remote machines: the server is a process, and tasks can run the command. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind, type ServerOptions } from 'vscode-languageclient/node.js';
import { activateShared, type LugworkApi } from './activate.js';
import { serverFlags } from './server-flags.js';
import type { ServerLink } from './server-link.js';
import { registerTasks } from './tasks.js';

let link: ServerLink | undefined;

/** Called by the editor. */
export async function activate(context: ExtensionContext): Promise<LugworkApi> {
  const module = context.asAbsolutePath('dist/server.cjs');
  const options: ServerOptions = {
    run: { module, transport: TransportKind.ipc, options: { execArgv: [...serverFlags] } },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: [...serverFlags, '--nolazy', '--inspect=6009'] } },
  };
  context.subscriptions.push(registerTasks(context.asAbsolutePath('dist/lugwork.mjs')));
  const active = await activateShared(context, (client) => new LanguageClient('lugwork', 'Lugwork', options, client));
  link = active.link;
  return active.api;
}

/** Called by the editor before it ends. */
export async function deactivate(): Promise<void> {
  await link?.dispose();
}
