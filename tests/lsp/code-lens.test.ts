/** What stands over the instrument, through the protocol. */
import { DiagnosticSeverity, type CodeLens } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { read } from '../harness/checkout.js';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

async function lenses(source: string, settings: unknown = {}): Promise<string[] | null> {
  const editor = await startEditor({ settings });
  const document = await editor.open('a.lug', source);
  const found = await editor.ask<CodeLens[] | null>('textDocument/codeLens', document.id);
  const title = document.text.split('\n').findIndex((line) => line.startsWith('instrument'));
  expect(found?.every(({ range }) => range.start.line === title) ?? true).toBe(true);
  expect(editor.log).toEqual([]);
  return found?.map(({ command }) => command!.title) ?? null;
}

test('positions, findings, expectations met', async () => {
  expect(await lenses(twoPickups())).toEqual(['3 positions', 'no findings', '4 of 4 expectations met']);
  const wrong = twoPickups({ 'sounds bridge, hum present': 'sounds neck, hum present' });
  expect(await lenses(wrong)).toEqual(['3 positions', '1 finding', '3 of 4 expectations met']);
});

test('what follows from another finding is not counted', async () => {
  const editor = await startEditor();
  const text = read('examples/faulty/jumper-of-a-lever-forgotten.lug');
  const document = await editor.open('a.lug', text);
  const listed = (await editor.diagnostics(document.uri)).filter(({ severity }) => severity !== DiagnosticSeverity.Hint);
  const titles = (await editor.ask<CodeLens[]>('textDocument/codeLens', document.id)).map(({ command }) => command!.title);
  expect(titles).toContain(`${listed.length} ${listed.length === 1 ? 'finding' : 'findings'}`);
  expect(await editor.ask('lugwork/overview', { uri: document.uri })).toMatchObject({
    findings: titles[1],
    positions: titles[0],
  });
});

test('positions are counted once, however many jacks there are', async () => {
  // Three positions of the one switch; both jacks are heard in each.
  expect((await lenses(read('examples/two-jacks-for-two-amplifiers.lug')))?.[0]).toBe('3 positions');
});

test('without expectations nothing is said of them', async () => {
  expect(await lenses('instrument "Alder Lane no. 63"\npart out : jack\n')).toEqual([
    '1 position',
    expect.stringMatching(/finding/),
  ]);
});

test('without a jack there is no position to count', async () => {
  const text = twoPickups().replace(/^.*output.*\n/gm, '');
  expect((await lenses(text))?.[0]).toBe('no jack');
  const editor = await startEditor();
  const { uri } = await editor.open('a.lug', '');
  expect(await editor.ask('lugwork/overview', { uri })).toMatchObject({ positions: 'no jack' });
});

test('nothing where it is turned off, or where there is no title', async () => {
  expect(await lenses(twoPickups(), { codeLens: { enabled: false } })).toBeNull();
  expect(await lenses('part p : pot\n')).toBeNull();
});

test('the editor is asked to take it anew when another number of findings is listed', async () => {
  const capabilities = { workspace: { configuration: true, codeLens: { refreshSupport: true } } };
  const editor = await startEditor({ initialize: { capabilities } });
  let refreshed = 0;
  editor.connection.onRequest('workspace/codeLens/refresh', () => {
    refreshed++;
    return null;
  });
  const document = await editor.open('a.lug', twoPickups());
  await editor.diagnostics(document.uri);
  const before = refreshed;
  await editor.change(document.uri, [{ text: twoPickups({ 'sounds bridge, hum present': 'sounds neck, hum present' }) }]);
  expect(await editor.diagnostics(document.uri)).toHaveLength(1);
  const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', document.id);
  expect(lenses[1]!.command!.title).toBe('1 finding');
  expect(refreshed).toBeGreaterThan(before);
});
