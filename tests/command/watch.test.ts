/** `check --watch` as a process, over files that really change: written in place, replaced as editors do, made, removed, moved with their folder. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { afterThisTest } from '../harness/cleanup.js';
import { folderWith, lugwork } from '../harness/process.js';
import { broken, clean } from './circuits.js';

interface Watching {
  /** Waits for the next report that matches, and returns it; earlier ones are passed over. */
  report(expected: RegExp): Promise<string>;
  /** Ctrl+C, and the exit code. */
  end(): Promise<number | null>;
  said(): string;
  err(): string;
}

const last = 'Ctrl+C ends.\n';

function watching(words: readonly string[], cwd: string): Watching {
  const child: ChildProcess = spawn(process.execPath, [join(root, 'dist', 'lugwork.mjs'), 'check', '--watch', ...words], { cwd });
  afterThisTest(() => void child.kill('SIGKILL'));
  let [said, err, read] = ['', '', 0];
  const listeners = new Set<() => void>();
  const hear = (): void => listeners.forEach((listen) => listen());
  child.stdout!.setEncoding('utf8').on('data', (text: string) => {
    said += text;
    hear();
  });
  child.stderr!.setEncoding('utf8').on('data', (text: string) => void (err += text));
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  return {
    said: () => said,
    err: () => err,
    report: (expected) =>
      new Promise((resolve, reject) => {
        const look = (): void => {
          for (let to = said.indexOf(last, read); to >= 0; to = said.indexOf(last, read)) {
            const report = said.slice(read, to);
            read = to + last.length;
            if (!expected.test(report)) continue;
            listeners.delete(look);
            return resolve(report);
          }
        };
        listeners.add(look);
        void ended.then(() => reject(new Error(`it ended before ${String(expected)}: ${said}${err}`)));
        look();
      }),
    async end() {
      child.kill('SIGINT');
      return ended;
    },
  };
}

/** As many editors save: a new file is written beside the old one and takes its place. */
function replace(folder: string, path: string, text: string): void {
  writeFileSync(join(folder, `${path}.new`), text);
  renameSync(join(folder, `${path}.new`), join(folder, path));
}

const good = /1 file checked: no errors/;
const bad = /1 file checked: \d+ error/;

test('a file that is written, replaced, removed and made again; Ctrl+C ends it with 0', async () => {
  const folder = folderWith({ 'a.lug': clean });
  const it = watching(['a.lug'], folder);
  expect(await it.report(good)).toMatch(
    /^\n\d\d:\d\d:\d\d {2}\S.*\n\n1 file checked: no errors.*\n\nWatching 1 file for changes; $/,
  );
  writeFileSync(join(folder, 'a.lug'), broken);
  await it.report(bad);
  replace(folder, 'a.lug', clean);
  await it.report(good);
  // The new file is another one: a watch on the old one would be silent now.
  replace(folder, 'a.lug', broken);
  await it.report(bad);
  rmSync(join(folder, 'a.lug'));
  await it.report(/^\nWatching /);
  writeFileSync(join(folder, 'a.lug'), clean);
  await it.report(good);
  expect(await it.end()).toBe(0);
  expect(it.err()).toContain('a.lug: there is no such file or folder');
});

test('a folder: files and folders that come, and one that is removed and made again', async () => {
  const folder = folderWith({ 'shop/a.lug': clean });
  const it = watching(['shop'], folder);
  await it.report(good);
  mkdirSync(join(folder, 'shop/new'));
  writeFileSync(join(folder, 'shop/new/b.lug'), broken);
  await it.report(/2 files checked: \d+ error/);
  rmSync(join(folder, 'shop'), { recursive: true });
  await it.report(/^\nWatching /);
  mkdirSync(join(folder, 'shop'));
  writeFileSync(join(folder, 'shop/a.lug'), broken);
  await it.report(bad);
  expect(await it.end()).toBe(0);
});

test('a file that is used, also one that was missing, in another folder', async () => {
  const user = `use "../parts/pots.lug"\n${clean.replace('pot 250k audio', 'house-pot')}`;
  const house = 'type house-pot : pot { takes resistance 250k, taper audio|linear }\n';
  const folder = folderWith({ '.git/HEAD': '', 'shop/a.lug': user });
  const it = watching(['shop/a.lug'], folder);
  await it.report(/parts\/pots\.lug/);
  mkdirSync(join(folder, 'parts'));
  writeFileSync(join(folder, 'parts/pots.lug'), house);
  await it.report(good);
  writeFileSync(join(folder, 'parts/pots.lug'), '');
  await it.report(/house-pot/);
  expect(await it.end()).toBe(0);
});

test('what is not a circuit of the call sets nothing going', async () => {
  const folder = folderWith({ 'a.lug': clean });
  const it = watching(['a.lug'], folder);
  await it.report(good);
  const before = it.said();
  writeFileSync(join(folder, 'notes.txt'), 'none');
  writeFileSync(join(folder, 'b.lug'), broken);
  await new Promise((resolve) => setTimeout(resolve, 1000));
  expect(it.said()).toBe(before);
  writeFileSync(join(folder, 'a.lug'), broken);
  await it.report(bad);
  expect(await it.end()).toBe(0);
});

test.each([
  [['--fix', 'a.lug'], '--watch reports to someone who is editing, and --fix does not fit that'],
  [['--staged'], '--watch reports to someone who is editing, and --staged does not fit that'],
  [['-'], '--watch reports to someone who is editing, and - does not fit that'],
  [['--format', 'json', 'a.lug'], '--watch reports to someone who is editing, and --format json does not fit that'],
  [[], 'lugwork check needs FILE…'],
])('with %j it does not begin', (words, message) => {
  const folder = folderWith({ 'a.lug': clean });
  expect(lugwork(['check', '--watch', ...words], folder)).toEqual({ code: 2, out: '', err: `lugwork: ${message}\n` });
});
