/** In an editor `use` stays within the open folders, but where a setting lets it out. */
import { expect, test } from 'vitest';
import { startEditor } from './harness.js';

const text = 'use "../house.lug"\npart a : mine\n';
const files = { 'memory:/house.lug': 'type mine : resistor { takes resistance 1k }\n' };
const folders = { initialize: { workspaceFolders: [{ uri: 'memory:/inner', name: 'inner' }] } };
const uri = 'memory:/inner/a.lug';

test('outside the folder', async () => {
  const editor = await startEditor({ files, ...folders });
  await editor.open(uri, text);
  expect((await editor.diagnostics(uri))[0]!.message).toContain('`../house.lug` is outside the open folder');
});

test('let out, and taken back', async () => {
  const editor = await startEditor({ files, ...folders, settings: { use: { outside: true } } });
  await editor.open(uri, text);
  const messages = async () => (await editor.diagnostics(uri)).map(({ message }) => message).join();
  expect(await messages()).not.toContain('outside');
  editor.settings = {};
  await editor.tell('workspace/didChangeConfiguration', { settings: null });
  await editor.checkedAgain(uri);
  expect(await messages()).toContain('is outside the open folder');
});

test('a folder that is opened later', async () => {
  const editor = await startEditor({ files, ...folders });
  await editor.open(uri, text);
  await editor.diagnostics(uri);
  const event = { added: [{ uri: 'memory:/', name: 'all' }], removed: [] };
  await editor.tell('workspace/didChangeWorkspaceFolders', { event });
  const again = await editor.checkedAgain(uri);
  expect(again.map(({ message }) => message).join()).not.toContain('is outside');
});
