/** The pictures of the README and of the walkthrough are those of what the command writes now, small, shown, and hold no text but their own. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { read, root } from '../harness/checkout.js';
import { folderWith, lugwork } from '../harness/process.js';
import { hashOf, madeFrom, picturesFolder, sourcesOf, type Made } from './pictures/sources.js';

const made = JSON.parse(readFileSync(madeFrom, 'utf8')) as Readonly<Record<string, Made>>;
const bytesOf = (name: string): Buffer => readFileSync(join(root, picturesFolder, `${name}.png`));

test('each was made from what the command writes now; else `npm run pictures` makes them anew', () => {
  const { texts } = sourcesOf((circuits) => {
    const folder = folderWith(circuits);
    return (...words) => lugwork(words, folder).out;
  });
  const now = Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, hashOf(text)]));
  expect(Object.fromEntries(Object.entries(made).map(([name, { source }]) => [name, source]))).toEqual(now);
});

test('each is the one that was made then', () => {
  expect(Object.keys(made).filter((name) => hashOf(bytesOf(name)) !== made[name]!.picture)).toEqual([]);
});

test('each is small and holds pixels alone: nothing that tells where or when it was made', () => {
  for (const name of Object.keys(made)) {
    const bytes = bytesOf(name);
    expect(bytes.length, name).toBeLessThan(150 * 1024);
    expect(
      chunksOf(bytes).filter((chunk) => !/^(IHDR|sRGB|PLTE|IDAT|IEND|tRNS|pHYs|sBIT)$/.test(chunk)),
      name,
    ).toEqual([]);
  }
});

test('README and walkthrough show each, with words for those who do not see it', () => {
  const walkthrough = readdirSync(join(root, 'extension', 'walkthrough')).map((name) => join('extension', 'walkthrough', name));
  const shown = ['README.md', ...walkthrough].flatMap((page) =>
    [...read(page).matchAll(/!\[([^\]]*)\]\(([^)]+)\)/g)].map(([, words, path]) => ({
      words: words!,
      path: join(dirname(page), path!),
    })),
  );
  expect([...new Set(shown.map(({ path }) => path))].sort()).toEqual(
    Object.keys(made)
      .map((name) => join(picturesFolder, `${name}.png`))
      .sort(),
  );
  expect(shown.filter(({ words, path }) => words.length < 20 || !existsSync(join(root, path)))).toEqual([]);
});

/** The kinds of a PNG's chunks, in order. */
function chunksOf(bytes: Buffer): string[] {
  const kinds = [];
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at)) kinds.push(bytes.toString('latin1', at + 4, at + 8));
  return kinds;
}
