/** `lugwork check` as a process: exit codes, files and folders, what is said of what cannot be read. */
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { rules } from '../../language/checks/index.js';
import { read } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith, lugwork } from '../harness/process.js';
import { broken, clean, library, unreadable } from './circuits.js';

interface Json {
  files: {
    path: string;
    findings: { rule: string; severity: string; message: string; range: object; related: object[]; fixes: object[] }[];
  }[];
}

function json(words: readonly string[], cwd: string): Json {
  return JSON.parse(inProcess(['check', '--format', 'json', ...words], cwd).out) as Json;
}

describe('--quiet', () => {
  test('says nothing of a clean circuit', () => {
    const { code, out, err } = lugwork(['check', '--quiet', 'a.lug'], folderWith({ 'a.lug': clean }));
    expect({ code, out, err }).toEqual({ code: 0, out: '', err: '' });
  });

  test('lists findings as without it, and leaves out the last line', () => {
    const folder = folderWith({ 'a.lug': broken });
    const [said, quiet] = [inProcess(['check', 'a.lug'], folder), inProcess(['check', '--quiet', 'a.lug'], folder)];
    expect(quiet.code).toBe(1);
    expect(quiet.out).not.toContain('1 file checked');
    expect(said.out.startsWith(`${quiet.out}\n1 file checked: `)).toBe(true);
  });

  test('is for text', () => {
    const { code, err } = inProcess(['check', '--quiet', '--format', 'json', 'a.lug'], folderWith({ 'a.lug': clean }));
    expect({ code, err }).toEqual({
      code: 2,
      err: 'lugwork: --quiet is for text; the other formats have no summary to leave out\n',
    });
  });
});

describe('--explain', () => {
  test.each(rules.map(({ id }) => id))('%s has its page', (id) => {
    const { code, out, err } = inProcess(['check', '--explain', id], folderWith({}));
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.startsWith(`# ${id}\n`)).toBe(true);
    expect(out).toContain('## Why it matters at the bench');
  });

  test('a fault of the text has a sentence', () => {
    const { code, out } = lugwork(['check', '--explain', 'unknown-name'], folderWith({}));
    expect(code).toBe(0);
    expect(out).toMatch(/^# unknown-name\n\nA part, lug/);
  });

  test('the built command reads the pages beside it', () => {
    const { code, out } = lugwork(['check', '--explain', 'floating-metal'], folderWith({}));
    expect({ code, out }).toEqual({ code: 0, out: read('language/checks/rules/floating-metal.md') });
  });

  test('a name that is none gets the nearest, and a FILE beside it is too much', () => {
    expect(inProcess(['check', '--explain', 'flaoting-metal'], folderWith({}))).toMatchObject({
      code: 2,
      err: 'lugwork: there is no rule flaoting-metal; did you mean floating-metal?\n',
    });
    expect(inProcess(['check', '--explain', 'floating-metal', 'a.lug'], folderWith({ 'a.lug': clean }))).toMatchObject({
      code: 2,
      err: 'lugwork: --explain shows a page and checks nothing: leave out FILE\n',
    });
  });
});

describe('exit code', () => {
  test('0 for a clean circuit, with a summary', () => {
    const { code, out, err } = lugwork(['check', 'a.lug'], folderWith({ 'a.lug': clean }));
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^1 file checked: no errors, no warnings(, \d+ notes?)?\n$/m);
  });

  test('1 for an error', () => {
    expect(lugwork(['check', 'a.lug'], folderWith({ 'a.lug': broken })).code).toBe(1);
  });

  test('a warning counts with --strict only', () => {
    const warned = clean
      .replace('part saddle', 'part spare    : pot 250k audio\npart saddle')
      .replace('wire volume.case    to', 'wire spare.case to volume.case\nwire volume.case    to');
    const folder = folderWith({ 'a.lug': warned });
    const severities = json(['a.lug'], folder).files[0]!.findings.map(({ severity }) => severity);
    expect(severities).toContain('warning');
    expect(severities).not.toContain('error');
    expect(inProcess(['check', 'a.lug'], folder).code).toBe(0);
    expect(inProcess(['check', '--strict', 'a.lug'], folder).code).toBe(1);
  });

  test('0 for a file of types only', () => {
    expect(inProcess(['check', 'types.lug'], folderWith({ 'types.lug': library })).code).toBe(0);
  });
});

describe('what cannot be read: exit code 2, and the rest is still checked', () => {
  const cases: [string, Record<string, string | Uint8Array>, string, RegExp][] = [
    ['a missing file', {}, 'gone.lug', /gone\.lug: there is no such file or folder/],
    [
      'a file that is not UTF-8',
      { 'x.lug': Uint8Array.of(0x66, 0xff, 0x41) },
      'x.lug',
      /x\.lug: this file is not UTF-8 text; save it as UTF-8/,
    ],
    ['a file in UTF-16', { 'x.lug': Uint8Array.of(0xff, 0xfe, 0x41, 0) }, 'x.lug', /UTF-16/],
    ['a folder without .lug files', { 'f/notes.txt': '' }, 'f', /f: this folder contains no \.lug files/],
  ];
  test.each(cases)('%s', (_, files, operand, message) => {
    const folder = folderWith({ 'good.lug': clean, ...files });
    const { code, out, err } = inProcess(['check', operand, 'good.lug'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(message);
    expect(out).toContain('1 file checked');
  });

  test('a link without a target', () => {
    const folder = folderWith({ 'good.lug': clean });
    symlinkSync('gone', join(folder, 'x.lug'));
    const { code, err } = inProcess(['check', '.'], folder);
    expect({ code, err }).toEqual({ code: 2, err: 'lugwork: x.lug: the target of this link does not exist\n' });
  });
});

describe('files and folders', () => {
  test('a folder means every .lug file below it, sorted, each once', () => {
    const folder = folderWith({
      'f/b.lug': clean,
      'f/a/z.lug': clean,
      'f/a.lug': clean,
      'f/notes.txt': 'x',
      'f/node_modules/m.lug': 'x',
    });
    expect(json(['f', 'f/b.lug', './f/'], folder).files.map(({ path }) => path)).toEqual(['f/a.lug', 'f/a/z.lug', 'f/b.lug']);
  });

  test('the order of the operands holds', () => {
    const folder = folderWith({ 'b.lug': clean, 'a.lug': clean });
    expect(json(['b.lug', 'a.lug'], folder).files.map(({ path }) => path)).toEqual(['b.lug', 'a.lug']);
  });

  test('a loop of links ends', () => {
    const folder = folderWith({ 'f/a.lug': clean });
    mkdirSync(join(folder, 'f/deep'));
    symlinkSync('..', join(folder, 'f/deep/up'));
    symlinkSync('.', join(folder, 'f/self'));
    expect(json(['f'], folder).files.map(({ path }) => path)).toEqual(['f/a.lug']);
  });

  test('what a .lugignore lists is ignored, and the summary says so; named itself it is checked', () => {
    const folder = folderWith({
      'f/a.lug': clean,
      'f/old.lug': broken,
      'f/drafts/x.lug': broken,
      'f/.lugignore': '# not yet\ndrafts/\nold.lug\n',
    });
    const { code, out } = inProcess(['check', 'f'], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/^1 file checked: .*; ignored by \.lugignore: f\/drafts, f\/old\.lug\n$/m);
    expect(json(['f/drafts', 'f/old.lug'], folder).files.map(({ path }) => path)).toEqual(['f/drafts/x.lug', 'f/old.lug']);
  });

  test('a byte order mark is no part of the text', () => {
    expect(inProcess(['check', 'a.lug'], folderWith({ 'a.lug': `\ufeff${clean}` })).code).toBe(0);
  });

  test('another file is found beside the one that uses it', () => {
    const using = `use "../house/types.lug"\n${clean}`;
    expect(inProcess(['check', 'f/a.lug'], folderWith({ 'house/types.lug': library, 'f/a.lug': using })).code).toBe(0);
  });
});

describe('a wire broken by hand', () => {
  test('is told at its place, with why and what to try', () => {
    const { code, out } = inProcess(['check', 'a.lug'], folderWith({ 'a.lug': broken }));
    expect(code).toBe(1);
    expect(out).toMatch(/^a\.lug:\d+:\d+: error \[[\w-]+\] .*neck\.ground/m);
    expect(out).toMatch(/^ +\d+ \| .*neck/m);
    expect(out).toMatch(/^ +\| +\^+$/m);
    expect(out).toMatch(/^1 file checked: \d+ errors?/m);
  });

  test('the carets stand under what is meant', () => {
    const { out } = inProcess(['check', 'a.lug'], folderWith({ 'a.lug': clean.replace('to output.tip', 'to output.tpi') }));
    const lines = out.split('\n');
    const at = lines.findIndex((line) => /\^/.test(line));
    const [from, to] = [lines[at]!.indexOf('^'), lines[at]!.lastIndexOf('^') + 1];
    expect('output.tpi').toContain(lines[at - 1]!.slice(from, to));
    expect(out).toContain('tip');
  });

  test('a line that cannot be read spoils one line', () => {
    const { files } = json(['a.lug'], folderWith({ 'a.lug': unreadable }));
    const ofText = files[0]!.findings.filter(({ rule }) => rule === 'syntax');
    expect(ofText).toHaveLength(1);
    expect(ofText[0]!.message).toContain('wire PART.LUG to PART.LUG');
  });

  test('characters that would steer a terminal are not passed on', () => {
    const { out } = inProcess(['check', 'a.lug'], folderWith({ 'a.lug': `${clean}wire \u001b[31mx to y\n` }));
    expect(out).not.toContain('\u001b');
  });
});
