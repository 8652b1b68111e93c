/** Hints in the text through the protocol. */
import type { InlayHint } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, type EditorOptions } from './harness.js';

/** Each hinted line with its hint behind it. */
async function hinted(source: string, settings?: unknown, lines: readonly [number, number] = [0, 1000]): Promise<string[]> {
  const options: EditorOptions = settings === undefined ? {} : { settings: { inlayHints: settings } };
  const editor = await startEditor(options);
  const document = await editor.open('a.lug', source);
  const range = { start: { line: lines[0], character: 0 }, end: { line: lines[1], character: 0 } };
  const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', { ...document.id, range });
  expect(editor.log).toEqual([]);
  return hints.map(
    ({ position, label }) => `${document.text.split('\n')[position.line]!.slice(0, position.character)} ${label as string}`,
  );
}

describe('beside an expectation', () => {
  test('stands what it does not say itself, and nothing where it says all', async () => {
    expect(await hinted(twoPickups())).toEqual(['expect selector "neck"   : sounds neck, reads 6.05k within 15% = hum present']);
  });

  test('stands what is so instead of a claim that does not hold', async () => {
    const text = twoPickups({
      'sounds bridge, hum present': 'sounds neck, hum present, reads 1k',
      'sounds parallel(neck, bridge), hum cancelled': 'silent',
      'sounds neck, reads 6.05k within 15%': 'peak 1kHz, hum present',
    });
    // 6.9 k beside 250 k.
    expect(await hinted(text)).toEqual([
      'expect selector "bridge" : sounds neck, hum present, reads 1k = sounds bridge, reads 6.71k',
      'expect selector "both"   : silent = sounds parallel(bridge, neck), hum cancelled',
      expect.stringMatching(/: peak 1kHz, hum present = sounds neck, peak 3\.\d+kHz$/),
    ]);
  });

  test('stands nothing where that differs from position to position', async () => {
    const text = twoPickups({ 'expect volume 0          : silent': 'expect volume 5          : hum present' });
    expect((await hinted(text)).filter((line) => line.startsWith('expect volume'))).toEqual([]);
  });

  test('shows what the circuit does at the jack that the line names', async () => {
    const text = `instrument "Alder Lane no. 65"
part neck, middle : single-coil 6k
part first, second : jack
wire neck.hot to first.tip
wire middle.hot to second.tip
wire neck.ground to middle.ground to first.sleeve to second.sleeve
expect at second.tip : hum present
expect : hum present
`;
    expect(await hinted(text)).toEqual([
      'expect at second.tip : hum present = sounds middle',
      'expect : hum present = sounds neck',
    ]);
  });

  test('the reading is told when one looks closer', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups());
    const range = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };
    const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', { ...document.id, range });
    // 6.2 k beside 250 k.
    expect(hints[0]!.tooltip).toMatch(/^reads 6\.05k, peak 3\.\d+kHz$/);
  });
});

describe('behind a wire', () => {
  test('stands its net, where that is asked for', async () => {
    const found = await hinted(twoPickups(), { sounds: false, nets: true });
    expect(found).toHaveLength(12);
    expect(found[0]).toBe('wire bridge.hot     to selector.A1 net bridge_hot');
    expect(found.at(-1)).toBe('wire volume.case    to tone.case to output.sleeve black net ground');
  });
});

test('nothing is shown where both are off, or outside of the lines that are seen', async () => {
  expect(await hinted(twoPickups(), { sounds: false, nets: false })).toEqual([]);
  expect(await hinted(twoPickups(), undefined, [0, 20])).toEqual([]);
});

test('the client is told to ask again when settings or a used file change', async () => {
  const capabilities = { workspace: { configuration: true, inlayHint: { refreshSupport: true } } };
  const editor = await startEditor({ initialize: { capabilities } });
  const asked = new Promise<void>((resolve) => {
    editor.connection.onRequest('workspace/inlayHint/refresh', () => {
      resolve();
      return null;
    });
  });
  await editor.open('a.lug', twoPickups());
  await editor.tell('workspace/didChangeConfiguration', { settings: null });
  await asked;
});
