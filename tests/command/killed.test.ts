/** `kill -9` during writes loses no file; `npm run fuzz -- --kills N` does the same at length. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { folderWith, lugwork } from '../harness/process.js';
import { before, killCommand, killWriters, kinds } from './kill.js';

test('sixty writers, one after another over the same file', async () => {
  const { problems, met } = await killWriters(60, 1, folderWith({}));
  expect(problems).toEqual([]);
  // Otherwise the test would try nothing.
  expect(met).toBeGreaterThan(10);
}, 300_000);

test.each(Object.keys(kinds))(
  'the command itself: %s',
  async (kind) => {
    for (let seed = 1; seed <= 2; seed++) {
      const folder = folderWith(before);
      const run = (words: readonly string[]) => lugwork(words, folder);
      const { problems } = await killCommand(kind, seed, folder, join(root, 'dist/lugwork.mjs'), run);
      expect(problems).toEqual([]);
    }
  },
  300_000,
);
