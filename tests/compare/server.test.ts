/** What the language server tells an editor of a change: the lines that changed, with what each changed wire does by itself. */
import { expect, test } from 'vitest';
import type { ChangedLine, ComparedCircuits } from '../../server/protocol.js';
import { startEditor } from '../lsp/harness.js';
import { base, edited } from './cases.js';

const old = base('two');

async function changedLines(now: string): Promise<readonly ChangedLine[]> {
  const editor = await startEditor();
  const { uri } = await editor.open('no-42.lug', now);
  return editor.ask<readonly ChangedLine[]>('lugwork/changedLines', { uri, before: { text: old } });
}

test('each changed wire is told with its own effect, not with that of the others', async () => {
  const now = edited(
    old,
    '- wire neck.hot to selector.B3\n+ wire neck.hot to selector.A3\n- wire volume.2 to output.tip white 22awg\n+ wire volume.2 to output.tip yellow 22awg\n',
  );
  const lines = await changedLines(now);
  const at = (text: string): number => now.split('\n').indexOf(text);
  expect(lines.map(({ kind, range }) => [kind, range.start.line])).toEqual([
    ['moved', at('wire neck.hot to selector.A3')],
    ['changed', at('wire volume.2 to output.tip yellow 22awg')],
  ]);
  // Undone, position 2 would hear both in parallel: the figures of the fifth case.
  expect(lines[0]!.effects).toEqual([
    expect.stringMatching(
      /^selector "both": sounds parallel\(bridge, neck\) becomes bridge; hum cancelled becomes present;/,
    ) as string,
  ]);
  expect(lines[1]!.effects).toEqual([]);
});

test('two wires that together turn a phase are each told with what it does alone', async () => {
  const now = edited(
    old,
    '- wire neck.hot to selector.B3\n- wire neck.ground to volume.case\n+ wire neck.ground to selector.B3\n+ wire neck.hot to volume.case\n',
  );
  const lines = await changedLines(now);
  // With one of the leads alone on ground or on the switch the neck is shorted or open, and cannot be heard in position 3.
  for (const { effects } of lines)
    expect(effects).toContainEqual(expect.stringMatching(/^selector "neck": sounds silent becomes neck/) as string);
});

test('what is gone is marked at the line above it, and changes its positions', async () => {
  const now = edited(old, '- wire neck.ground to volume.case\n');
  const lines = await changedLines(now);
  const above = old.split('\n')[old.split('\n').indexOf('wire neck.ground to volume.case') - 1]!;
  expect(
    lines.map(({ kind, range, effects }) => [
      kind,
      range.start.line,
      effects.some((text) => text.startsWith('selector "neck": sounds neck becomes silent')),
    ]),
  ).toEqual([['gone', now.split('\n').indexOf(above), true]]);
});

test('nothing is told of a text in another order, and nothing of a file that cannot be read', async () => {
  expect(
    await changedLines(
      `${old
        .split(/\n(?=[a-z]+ )/)
        .reverse()
        .join('\n')}\n`,
    ),
  ).toEqual([]);
  const editor = await startEditor();
  expect(await editor.ask('lugwork/compare', { uri: 'file:///none.lug', before: { text: old } })).toBe(null);
  const { uri } = await editor.open('no-42.lug', old);
  expect(await editor.ask('lugwork/compare', { uri, before: { uri: 'file:///none.lug' } })).toBe(null);
});

test('another open file is compared, its things linked by what they are', async () => {
  const editor = await startEditor();
  const now = await editor.open('aft.lug', old.replaceAll('neck', 'aft').replaceAll('"aft"', '"neck"'));
  const other = await editor.open('neck.lug', old);
  const compared = (await editor.ask<ComparedCircuits | null>('lugwork/compare', { uri: now.uri, before: { uri: other.uri } }))!;
  expect(compared.change.summary).toBe('no electrical change');
  expect(compared.links).toContainEqual(['part:neck', 'part:aft']);
  expect(compared.links).toContainEqual(['wire:neck.hot~selector.B3', 'wire:aft.hot~selector.B3']);
});
