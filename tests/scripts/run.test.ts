/** The sequence of a test run, with stand-ins for its parts: what fails or can't run is counted and named, and the rest still runs. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import { root } from '../harness/checkout.js';

type Command = [name: string, command: string, words: string[]];

interface Parts {
  prepare(): Promise<{ files: string[]; reason: string }>;
  build(): Promise<void>;
  steps: Command[];
  tests: { command: string; words: string[]; report: string };
  editor?: { command: string; words: string[] };
}

const { runAll, summary } = (await import(join(root, 'tests', 'scripts', 'run.mjs'))) as {
  runAll(parts: Parts): Promise<{ passed: number; failed: number; skipped: number }>;
  summary(counts: { passed: number; failed: number; skipped: number }): string;
};

// Inside the checkout, so that its test runner finds its own packages from there.
mkdirSync(join(root, '.cache'), { recursive: true });
const folder = mkdtempSync(join(root, '.cache', 'run-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let said = '';
beforeEach(() => {
  said = '';
  const take = (text: unknown): boolean => {
    said += `${String(text)}\n`;
    return true;
  };
  vi.spyOn(console, 'log').mockImplementation(take);
  vi.spyOn(console, 'error').mockImplementation(take);
  vi.spyOn(process.stdout, 'write').mockImplementation(take);
});
afterEach(() => vi.restoreAllMocks());

const good: Parts = {
  prepare: () => Promise.resolve({ files: [], reason: '' }),
  build: () => Promise.resolve(),
  steps: [['types', ...script('process.exit(0)')]],
  tests: filesOf({ 'good.test.js': "test('one', () => {}); test.skip('two', () => {});" }),
  editor: { command: process.execPath, words: ['-e', 'console.log("editor: 5 passed, 0 failed")'] },
};

test('everything good: what passed and what was skipped is counted', async () => {
  expect(summary(await runAll(good))).toBe('7 passed, 0 failed, 1 skipped');
});

test('a test that fails and files that can’t be read or prepared are counted, and the editor still runs', async () => {
  const tests = filesOf({
    'good.test.js': "test('one', () => {});",
    'bad.test.js': "test('two', () => { throw new Error('no'); });",
    'unread.test.js': 'this is no script',
    'unprepared.test.js': "beforeAll(() => { throw new Error('no'); }); test('three', () => {});",
  });
  expect(summary(await runAll({ ...good, tests }))).toBe('7 passed, 3 failed, 1 skipped');
});

test('a test runner that ends without a report counts as one failed, and the editor still runs', async () => {
  const tests = { command: process.execPath, words: ['-e', 'process.exit(3)'], report: join(folder, 'none.json') };
  expect(summary(await runAll({ ...good, tests }))).toBe('6 passed, 1 failed');
  expect(said).toContain('tests: FAILED. The test runner ended with exit code 3 and wrote no report.');
});

test('a test runner that fails while each test passes counts as one failed', async () => {
  const tests = filesOf({ 'late.test.js': "test('one', () => {}); setTimeout(() => { throw new Error('late'); });" });
  expect(summary(await runAll({ ...good, tests }))).toBe('7 passed, 1 failed');
});

test('types, preparation and build that fail are counted and named, and all else still runs', async () => {
  const counts = await runAll({
    ...good,
    prepare: () => Promise.reject(new Error('no list of files')),
    build: () => Promise.reject(new Error('an entry is missing')),
    steps: [
      ['types', ...script('process.exit(1)')],
      ['lint', ...script('process.exit(0)')],
      ['layout', 'no-such-program', []],
    ],
  });
  expect(summary(counts)).toBe('7 passed, 4 failed, 1 skipped');
  expect(said).toContain('preparation: FAILED. no list of files');
  expect(said).toContain('build: FAILED. an entry is missing');
  expect(said).toContain('types: FAILED');
  expect(said).toContain('layout: FAILED. spawn no-such-program ENOENT');
});

test('files without their browser are left out, counted as failed and named in one sentence', async () => {
  const tests = filesOf({ 'good.test.js': "test('one', () => {});", 'panel.test.js': "test('two', () => {});" });
  const prepare = (): Promise<{ files: string[]; reason: string }> =>
    Promise.resolve({ files: ['tests/panel.test.js'], reason: 'chromium missing' });
  expect(summary(await runAll({ ...good, tests, prepare }))).toBe('7 passed, 1 failed');
  expect(said.match(/chromium missing/g)).toHaveLength(1);
  expect(said).toContain('NOT RUN: 1 test file (chromium missing), counted as failed: tests/panel.test.js.');
});

test('where each file that was asked for is left out, nothing passes in silence', async () => {
  const tests = filesOf({ 'panel.test.js': "test('two', () => {});" });
  const prepare = (): Promise<{ files: string[]; reason: string }> =>
    Promise.resolve({ files: ['tests/panel.test.js'], reason: 'chromium missing' });
  expect(summary(await runAll({ ...good, steps: [], editor: undefined, tests, prepare }))).toBe('0 passed, 1 failed');
});

test('an editor that gives no counts counts as failed', async () => {
  const editor = { command: process.execPath, words: ['-e', 'process.exit(1)'] };
  expect(summary(await runAll({ ...good, editor }))).toBe('2 passed, 1 failed, 1 skipped');
  expect(said).toContain('editor: FAILED. The tests in the editor ended with exit code 1 and gave no counts.');
});

function script(text: string): [string, string[]] {
  return [process.execPath, ['-e', text]];
}

/** The test runner of the checkout on a folder with these test files. */
function filesOf(files: Readonly<Record<string, string>>): Parts['tests'] {
  const place = mkdtempSync(join(folder, 'files-'));
  mkdirSync(join(place, 'tests'));
  // Settings of its own, so that those of the checkout do not apply.
  writeFileSync(join(place, 'vitest.config.mjs'), 'export default {};');
  for (const [name, text] of Object.entries(files)) writeFileSync(join(place, 'tests', name), text);
  const report = join(place, 'report.json');
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const folders = ['--root', place, '--dir', join(place, 'tests')];
  const words = [vitest, 'run', ...folders, '--globals', '--reporter', 'json', '--outputFile.json', report];
  return { command: process.execPath, words, report };
}
