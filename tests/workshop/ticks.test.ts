/** Ticks in the workspace: of each instrument by itself, kept while their row is gone, forgotten when they are taken away. */
import { expect, test } from 'vitest';
import { recordName, recordText } from '../../extension/sheet/record-text.js';
import { createTicks } from '../../extension/sheet/ticks.js';
import { formatText } from '../../language/grammar/index.js';
import { soundCircuit } from '../circuit/harness.js';

function memento() {
  const kept = new Map<string, unknown>();
  return {
    kept,
    keys: () => [...kept.keys()],
    get: <T>(key: string) => kept.get(key) as T | undefined,
    update: async (key: string, value: unknown) => void (value === undefined ? kept.delete(key) : kept.set(key, value)),
  };
}

test('each instrument of each circuit has its own', async () => {
  const ticks = createTicks(memento());
  await ticks.set('a', 1, 'solder x', true);
  await ticks.set('a', 2, 'solder y', true);
  await ticks.set('b', 1, 'solder z', true);
  expect([ticks.of('a', 1), ticks.of('a', 2), ticks.of('b', 1), ticks.of('b', 2)]).toEqual([
    ['solder x'],
    ['solder y'],
    ['solder z'],
    [],
  ]);
});

test('ticked twice is ticked once; taken away, nothing is left', async () => {
  const storage = memento();
  const ticks = createTicks(storage);
  await ticks.set('a', 1, 'k', true);
  await ticks.set('a', 1, 'k', true);
  expect(ticks.of('a', 1)).toEqual(['k']);
  await ticks.set('a', 1, 'k', false);
  expect(storage.kept.size).toBe(0);
});

test('what is kept that is no list of keys counts as nothing', () => {
  const storage = memento();
  storage.kept.set('bench sheet 1 a', { not: 'a list' });
  expect(createTicks(storage).of('a', 1)).toEqual([]);
});

test('a record begun with ticks reads as the record of that instrument, whatever a key holds', () => {
  const keys = ['solder volume.2: output.tip', 'mount "main": a, b', 'a\\b'];
  const text = recordText('no-1.lug', 2, keys);
  expect(recordName('no-1.lug', 2)).toBe('no-1.no-2.lug');
  const shared =
    'instrument "Alder Lane no. 70" { batch 2 }\npart volume : pot 250k\npart output : jack\nwire volume.2 to output.tip\n';
  const circuit = soundCircuit(text, { 'no-1.lug': shared });
  expect(circuit.record).toMatchObject({ number: 2, done: keys });
  expect(circuit.title).toBe('Alder Lane no. 70');
  expect(formatText(text)).toBe(text);
});
