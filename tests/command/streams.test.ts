/** What comes out of the command: all of it or a sentence that it did not, and never a stack trace. */
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { run } from '../../server/command/run.js';
import { root } from '../harness/checkout.js';
import { copyCommand, folderWith, lugwork, lugworkIn } from '../harness/process.js';
import { clean } from './circuits.js';

/** With so many parts without a usual place that their thread is asked where they go. */
const loose = `${clean}\n${[1, 2, 3, 4, 5].map((number) => `part spot${number} : junction`).join('\n')}\n`;

const whole = lugwork(['circuit', '--schema']).out;
const many = Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`f/${i}.lug`, 'part a : nothing\n'.repeat(60)]));
const full = 'lugwork: can’t write the standard output: the disk is full\n';

describe('the standard output', () => {
  test.each(['--help', 'check a.lug', 'format a.lug', 'circuit a.lug', 'draw a.lug'])('that is full: %s', (words) => {
    const folder = folderWith({ 'a.lug': clean });
    expect(lugworkIn(`lugwork ${words} > /dev/full`, folder)).toEqual({ code: 2, out: '', err: full });
  });

  test('a disk that takes only a part of it', () => {
    const folder = folderWith({});
    const { code, err } = lugworkIn('ulimit -f 8; lugwork circuit --schema > f', folder);
    expect([code, err]).toEqual([
      2,
      'lugwork: can’t write the standard output: it would exceed the largest file size allowed here\n',
    ]);
  });

  test('a stream that is open for reading only', () => {
    const { code, err } = lugworkIn('lugwork --help 1< a', folderWith({ a: '' }));
    expect([code, err]).toEqual([2, 'lugwork: can’t write the standard output: it is not open\n']);
  });

  test('a reader that is slow gets everything', () => {
    expect(lugworkIn('lugwork circuit --schema | (sleep 2; cat)', root)).toEqual({ code: 0, out: whole, err: '' });
  });

  test('a reader that stops while more than a pipe holds is still to come', () => {
    const folder = folderWith(many);
    expect(lugwork(['check', '--format', 'json', 'f'], folder).out.length).toBeGreaterThan(200_000);
    const script = 'lugwork check --format json f | head -c 10; echo; echo ${PIPESTATUS[0]}';
    expect(lugworkIn(script, folder)).toMatchObject({
      out: expect.stringMatching(/^\{\n {2}"files\n[01]\n$/) as string,
      err: '',
    });
  });

  test('a reader that is gone before anything came', () => {
    expect(lugworkIn('lugwork check f | true', folderWith(many))).toEqual({ code: 0, out: '', err: '' });
  });

  test('where errors cannot be written either, the exit code says it', () => {
    expect(lugworkIn('lugwork --help > /dev/full 2> /dev/full', root)).toEqual({ code: 2, out: '', err: '' });
  });
});

describe('one sentence, no stack trace', () => {
  const trace = /\n\s+at |node:internal/;

  test('an exception that nobody foresaw names itself as a fault of the program', async () => {
    let said = '';
    const host = {
      cwd: root,
      columns: 80,
      colour: false,
      out: () => {
        throw new TypeError('no such thing');
      },
      err: (text: string) => {
        said += text;
      },
      readPage: () => {
        throw new Error('no page is asked for here');
      },
      startLayout: () => {
        throw new Error('nothing is drawn here');
      },
    };
    expect(await run(['--version'], host)).toBe(2);
    expect(said).toBe(
      'lugwork: this is a bug in lugwork (TypeError: no such thing); please report it with the output of LUGWORK_TRACE=1\n',
    );
    process.env['LUGWORK_TRACE'] = '1';
    await run(['--version'], host);
    delete process.env['LUGWORK_TRACE'];
    expect(said).toMatch(trace);
  });

  test('the working folder is gone', () => {
    const folder = folderWith({});
    mkdirSync(join(folder, 'gone'));
    expect(lugworkIn('cd gone; rmdir ../gone; lugwork check a.lug', folder)).toEqual({
      code: 2,
      out: '',
      err: 'lugwork: the current folder no longer exists or can’t be read\n',
    });
  });

  test.each([
    ['is missing', undefined, /^lugwork: the drawing was stopped: .*Cannot find module/],
    ['throws what is no error', 'throw "crooked"', /^lugwork: the drawing was stopped: .*crooked/],
    ['ends without an answer', 'process.exit(3)', /^lugwork: the drawing was stopped: .*its thread ended/],
  ])('the thread of the drawing %s', (_, module, reason) => {
    const folder = folderWith({ 'a.lug': loose });
    copyCommand(folder);
    if (module !== undefined) writeFileSync(join(folder, 'drawing.js'), module);
    const { code, out, err } = lugworkIn(`"${process.execPath}" lugwork.mjs draw a.lug`, folder);
    // Another drawing in its place would depend on what the machine can do.
    expect([code, out]).toEqual([2, '']);
    expect(err.split('\n')).toEqual([expect.stringMatching(reason), '']);
  });

  test('no file handle is left', () => {
    const { code, out, err } = lugworkIn('ulimit -n 22; lugwork draw a.lug', folderWith({ 'a.lug': loose }));
    expect(err.split('\n')).toEqual([expect.stringMatching(/^lugwork: /), '']);
    expect(err).not.toMatch(trace);
    expect([code, out]).toEqual([2, '']);
  });

  test('a bundle that cannot be loaded', () => {
    const folder = folderWith({ 'server/bin.mjs': '', 'dist/lugwork.mjs': 'export broken' });
    copyFileSync(join(root, 'server/bin.mjs'), join(folder, 'server/bin.mjs'));
    const { code, err } = lugworkIn(`"${process.execPath}" server/bin.mjs check a.lug`, folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^lugwork cannot start: .*\n$/);
  });
});
