/** The extension wakes up on a circuit, and its server answers. */
import { commands, extensions } from 'vscode';
import type { LugworkApi } from '../../../extension/activate.js';
import { ensure, eventually, same, test } from './harness.js';
import { openCircuit } from './documents.js';

test('the extension is active on a circuit, its language is known', async () => {
  const document = await openCircuit('two-pickups.lug');
  same(document.languageId, 'lugwork', 'language');
  await serverReady();
});

test('the commands of the manifest are registered', async () => {
  await serverReady();
  const known = new Set(await commands.getCommands(true));
  const { contributes } = theExtension().packageJSON as { contributes: { commands: { command: string }[] } };
  const missing = contributes.commands.filter(({ command }) => !known.has(command));
  same(missing, [], 'commands without code');
});

/** The extension under test. */
export function theExtension() {
  const extension = extensions.getExtension<LugworkApi>('lugwork.lugwork');
  ensure(extension !== undefined, 'the extension is not there');
  return extension;
}

/** Waits until the server answers. */
export async function serverReady(): Promise<void> {
  const api = await theExtension().activate();
  await eventually(`the server is ready, it is ${api.serverState()}`, () => {
    // It is not started again by itself then, so there is nothing to wait for.
    if (api.serverState() === 'failed') throw new Error('the server has failed');
    return api.serverState() === 'ready';
  });
}
