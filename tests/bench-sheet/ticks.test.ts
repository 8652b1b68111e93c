/** Ticks in the workspace: of each instrument by itself, kept while their row is gone, forgotten when they are taken away. */
import { expect, test } from 'vitest';
import { createTicks } from '../../extension/sheet/ticks.js';

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
