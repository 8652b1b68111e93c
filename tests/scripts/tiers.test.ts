/** The tiers: together they are every test file and every run of the editor, each in one of them, and CI runs them all. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { tierHosts, usualHosts } from '../editor/hosts/prepare.js';
import { filesUnder, read, root } from '../harness/checkout.js';

const { fileWords, longFiles, parseCall, tiers } = (await import(join(root, 'tests', 'scripts', 'tiers.mjs'))) as {
  longFiles: string[];
  tiers: string[];
  parseCall(words: string[]): { tier?: string; words: string[] };
  fileWords(tier: string): string[];
};

const all = filesUnder('tests').filter((path) => path.endsWith('.test.ts'));

/** The files that the test runner takes for a tier. */
function filesOf(tier: string): string[] {
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  // The last of them, since a word after it would be taken for the file to write the list to.
  const words = [vitest, 'list', '--filesOnly', ...fileWords(tier), '--json'];
  const listed = JSON.parse(execFileSync(process.execPath, words, { cwd: root, encoding: 'utf8' })) as { file: string }[];
  return listed.map(({ file }) => file.slice(root.length + 1).replaceAll('\\', '/')).sort();
}

test('each test file belongs to one tier, and all of them to the whole', () => {
  const [usual, long] = [filesOf('usual'), filesOf('long')];
  expect(long).toEqual([...longFiles].sort());
  expect([...usual, ...long].sort()).toEqual(all);
  expect(filesOf('all')).toEqual(all);
});

test('so does each editor in which the suite runs', () => {
  expect([...tierHosts('usual'), ...tierHosts('long')]).toEqual(usualHosts());
  expect(tierHosts('all')).toEqual(usualHosts());
});

test('CI runs all of them', () => {
  expect(read('.ci/run')).toMatch(/^npm test --silent -- --all$/m);
});

test('a word asks for a tier, and a file is run whichever it belongs to', () => {
  expect(parseCall([])).toEqual({ tier: 'usual', words: [] });
  expect(parseCall(['--long'])).toEqual({ tier: 'long', words: [] });
  expect(parseCall(['--all'])).toEqual({ tier: 'all', words: [] });
  expect(tiers).toEqual(['usual', 'long', 'all']);
  const words = [longFiles[0]!, '-t', 'order'];
  expect(parseCall(words)).toEqual({ words });
  expect(() => parseCall(['--long', 'tests/checks'])).toThrow(
    '--long runs a whole tier and takes nothing beside it; a file that is named is run in any case.',
  );
});
