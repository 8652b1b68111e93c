/** The line that says how far long work is: after a moment, no wider than the terminal, gone before anything else comes, never in a pipe. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createProgress } from '../../server/command/output/progress.js';
import { run } from '../../server/command/run.js';
import type { Host } from '../../server/command/command.js';
import { root } from '../harness/checkout.js';
import { folderWith, lugwork } from '../harness/process.js';
import { clean } from './circuits.js';

function recorded(columns = 80) {
  const written: string[] = [];
  let time = 1000;
  const progress = createProgress(
    (text) => void written.push(text),
    () => columns,
    () => time,
  );
  return { written, progress, at: (milliseconds: number) => void (time = 1000 + milliseconds) };
}

test('nothing is shown of short work, then a line at most every tenth of a second', () => {
  const { written, progress, at } = recorded();
  progress.show(0, 9, 'a.lug');
  at(499);
  progress.show(1, 9, 'b.lug');
  progress.clear();
  expect(written).toEqual([]);
  at(500);
  progress.show(2, 9, 'c.lug');
  at(599);
  progress.show(3, 9, 'd.lug');
  at(600);
  progress.show(4, 9, 'e.lug');
  progress.clear();
  progress.clear();
  expect(written).toEqual(['\r\u001b[K2 of 9  c.lug', '\r\u001b[K4 of 9  e.lug', '\r\u001b[K']);
});

test('a name is cut to the terminal’s width, and no terminal obeys it', () => {
  const { written, progress, at } = recorded(16);
  progress.show(0, 9, '');
  at(1000);
  progress.show(1, 9, '\u001b[31m字字字字字');
  // `1 of 9  ` takes 8 columns, `·[31m` 5, and a wide sign 2: 15 in all.
  expect(written).toEqual(['\r\u001b[K1 of 9  ·[31m字']);
});

const files = Object.fromEntries(Array.from({ length: 4 }, (_, at) => [`f/${at}.lug`, clean]));

test('check and compare of folders say each file as they come to it', async () => {
  const folder = folderWith({ ...files, 'g/0.lug': clean, 'g/1.lug': clean });
  const said: string[] = [];
  const host = {
    cwd: folder,
    columns: 80,
    colour: false,
    out: () => undefined,
    err: () => undefined,
    progress: (done: number, total: number, name: string) => void said.push(`${done}/${total} ${name}`),
  } as unknown as Host;
  await run(['check', 'f'], host);
  expect(said).toEqual(['0/4 f/0.lug', '1/4 f/1.lug', '2/4 f/2.lug', '3/4 f/3.lug']);
  said.length = 0;
  await run(['compare', 'f', 'g'], host);
  expect(said).toEqual(['0/4 0.lug', '1/4 1.lug', '2/4 2.lug', '3/4 3.lug']);
});

test('in a pipe nothing of it is written', () => {
  expect(lugwork(['check', 'f'], folderWith(files)).err).toBe('');
});

test.skipIf(spawnSync('script', ['--version']).status !== 0)('on a terminal it is shown, and taken away at the end', () => {
  const many = Object.fromEntries(Array.from({ length: 150 }, (_, at) => [`f/${at}.lug`, clean.replace('no. 3', `no. ${at}`)]));
  const command = `'${process.execPath}' '${join(root, 'dist', 'lugwork.mjs')}' check f > out`;
  const { stdout } = spawnSync('script', ['-qec', command, '/dev/null'], {
    cwd: folderWith(many),
    encoding: 'utf8',
    env: { ...process.env, TERM: 'xterm' },
  });
  const [, line] = stdout.split('\r\u001b[K');
  expect(line).toMatch(/^\d+ of 150 {2}f\/\d+\.lug$/);
  expect(stdout.endsWith('\r\u001b[K')).toBe(true);
});
