/** `check --fix` and `--diff`: what is applied, what is left alone, and that nothing of a text is lost. */
import { execFileSync } from 'node:child_process';
import { chmodSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createProject } from '../../language/project.js';
import { fixFiles } from '../../server/command/fixing/fix-files.js';
import { read, root } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith, lugwork, plainUser } from '../harness/process.js';
import { clean } from './circuits.js';

/** One word that is one letter off: the fix is sure. */
const misspelt = clean.replace('wire volume.2 ', 'wire volme.2 ');
/** Another, in the same statement. */
const twice = misspelt.replace('to output.tip', 'to outptu.tip');
/** No lug of that name is one letter off, so the fix is only likely. */
const unlikeAny = read('examples/faulty/lug-that-does-not-exist.lug');

const at = (folder: string, path: string): string => readFileSync(join(folder, path), 'utf8');

describe('what is applied', () => {
  test('a sure fix, and the file is written', () => {
    const folder = folderWith({ 'a.lug': misspelt });
    const { code, out, err } = inProcess(['check', '--fix', 'a.lug'], folder);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('a.lug:15: fixed: write volume [unknown-name]\n1 fix applied in 1 file\n');
    expect(out).toContain('1 file checked: no errors');
    expect(at(folder, 'a.lug')).toBe(clean);
  });

  test('a likely one only where that is asked for', () => {
    const folder = folderWith({ 'a.lug': unlikeAny });
    expect(inProcess(['check', '--fix', 'a.lug'], folder).out).toContain('no fixes applied: none that is sure helps\n');
    expect(at(folder, 'a.lug')).toBe(unlikeAny);
    expect(inProcess(['check', '--fix=likely', 'a.lug'], folder).out).toContain('1 fix applied in 1 file\n');
    expect(at(folder, 'a.lug')).not.toBe(unlikeAny);
  });

  test('a wire that the search puts back', () => {
    const folder = folderWith({ 'a.lug': read('examples/faulty/pickup-ground-forgotten.lug') });
    expect(inProcess(['check', 'a.lug'], folder).code).toBe(1);
    expect(inProcess(['check', '--fix', 'a.lug'], folder).code).toBe(0);
  });

  test('two in one statement, one after the other', () => {
    const folder = folderWith({ 'a.lug': twice });
    expect(inProcess(['check', '--fix', 'a.lug'], folder).out).toContain('2 fixes applied in 1 file\n');
    expect(at(folder, 'a.lug')).toBe(clean);
  });

  test('none for findings that a baseline knows', () => {
    const folder = folderWith({ 'a.lug': misspelt });
    inProcess(['check', '--write-baseline', 'known.json', 'a.lug'], folder);
    const { code, out } = inProcess(['check', '--fix', '--baseline', 'known.json', 'a.lug'], folder);
    expect(code).toBe(0);
    expect(out).toContain('no fixes applied');
    expect(at(folder, 'a.lug')).toBe(misspelt);
  });

  test('with --quiet it says nothing but what remains', () => {
    const folder = folderWith({ 'a.lug': misspelt });
    expect(inProcess(['check', '--fix', '--quiet', 'a.lug'], folder)).toEqual({ code: 0, out: '', err: '' });
    expect(at(folder, 'a.lug')).toBe(clean);
  });

  test('in another format the account goes to stderr', () => {
    const folder = folderWith({ 'a.lug': misspelt });
    const { out, err } = inProcess(['check', '--fix', '--format', 'json', 'a.lug'], folder);
    expect((JSON.parse(out) as { files: { findings: object[] }[] }).files[0]!.findings).toEqual([]);
    expect(err).toBe('a.lug:15: fixed: write volume [unknown-name]\n1 fix applied in 1 file\n');
  });
});

describe('what is left alone', () => {
  test('a fix that brings another error, with the reason', () => {
    // Spelt right, the wire lies across the output.
    const text = clean.replace('expect', 'wire volume.2 to outptu.sleeve\n\nexpect');
    const folder = folderWith({ 'a.lug': text });
    const { code, out } = inProcess(['check', '--fix', 'a.lug'], folder);
    expect(code).toBe(1);
    expect(out).toMatch(/a\.lug:\d+: left alone: write output \[unknown-name\]; it would bring another error: .*\[[\w-]+\]\n/);
    expect(out).toContain('no fixes applied');
    expect(at(folder, 'a.lug')).toBe(text);
  });

  test('what is right is fixed beside it', () => {
    const text = misspelt.replace('expect', 'wire volume.2 to outptu.sleeve\n\nexpect');
    const folder = folderWith({ 'a.lug': text });
    const { code, out } = inProcess(['check', '--fix', 'a.lug'], folder);
    expect(code).toBe(1);
    expect(out).toContain('1 fix applied in 1 file\n');
    expect(at(folder, 'a.lug')).toBe(text.replace('volme', 'volume'));
  });

  test('a file that is used and not named', () => {
    const parts = 'type house-pot : pto { takes resistance 250k, taper audio|linear }\n';
    const user = `use "parts.lug"\n${clean.replace('pot 250k audio', 'house-pot')}`;
    const files = { 'no-3.lug': user, 'parts.lug': parts };
    const folder = folderWith(files);
    expect(inProcess(['check', '--fix=likely', 'no-3.lug'], folder).code).toBe(1);
    expect(at(folder, 'parts.lug')).toBe(parts);
    const both = folderWith(files);
    expect(inProcess(['check', '--fix=likely', '.'], both).code).toBe(0);
    expect(at(both, 'parts.lug')).toBe(parts.replace('pto', 'pot'));
    expect(at(both, 'no-3.lug')).toBe(user);
  });

  test('a file that can’t be written keeps its text, and its findings count', () => {
    const folder = folderWith({ 'a.lug': misspelt });
    chmodSync(folder, 0o755);
    chmodSync(join(folder, 'a.lug'), 0o444);
    const { code, out, err } = lugwork(['check', '--fix', 'a.lug'], folder, {}, plainUser);
    expect(code).toBe(2);
    expect(err).toContain('a.lug: this file can’t be written: ');
    expect(out).toMatch(/^no fixes applied\n/);
    expect(out).toContain('[unknown-name]');
    expect(at(folder, 'a.lug')).toBe(misspelt);
  });
});

test('a text in which no fix helps has an end', () => {
  // Spelt right, each of these wires lies across the output, so that each is tried by itself.
  const text = clean.replace('expect', `${'wire volume.2 to outptu.sleeve\n'.repeat(8)}\nexpect`);
  const uri = 'memory:/a.lug';
  const fix = (trials: number) => {
    const project = createProject({ read: () => text });
    return fixFiles([{ path: 'a.lug', uri, text }], project, { level: 'sure', effort: 0, trials, counting: (_, found) => found });
  };
  expect(fix(3)).toMatchObject({ isThrough: false, applied: [] });
  // All eight, two fours, four twos, and each alone.
  expect(fix(16)).toMatchObject({ isThrough: true, applied: [] });
  expect(fix(16).refused).toHaveLength(8);
});

describe('nothing of a text is lost', () => {
  test('a byte order mark and line ends stay, and lines that are added end as the others do', () => {
    const forgotten = clean.replace(/^wire neck\.ground .*\n/m, '').replaceAll('\n', '\r\n');
    const folder = folderWith({ 'a.lug': `\uFEFF// comment\r\n\r\n${forgotten}` });
    const { out } = inProcess(['check', '--fix=likely', 'a.lug'], folder);
    expect(out).toContain('1 fix applied');
    const now = at(folder, 'a.lug');
    expect(now.startsWith('\uFEFF// comment\r\n')).toBe(true);
    expect(now.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const lines = forgotten.split('\r\n');
    const added = now
      .slice(1)
      .split('\r\n')
      .filter((line) => !lines.includes(line));
    expect(added).toEqual(['// comment', expect.stringMatching(/^wire neck\.ground\s+to /)]);
  });

  test('a text that is not in the layout of format keeps its own', () => {
    const untidy = misspelt.replace('part volume   : pot', 'part volume:pot').replace('wire volme.2    to', 'wire   volme.2 to');
    const folder = folderWith({ 'a.lug': untidy });
    inProcess(['check', '--fix', 'a.lug'], folder);
    expect(at(folder, 'a.lug')).toBe(untidy.replace('volme', 'volume'));
  });

  test('the standard input comes out fixed, with its mark, and the findings go to stderr', () => {
    const { code, out, err } = lugwork(['check', '--fix', '-'], root, {}, { input: `\uFEFF${misspelt}` });
    expect({ code, out }).toEqual({ code: 0, out: `\uFEFF${clean}` });
    expect(err).toContain('1 fix applied in 1 file\n');
    expect(err).toContain('1 file checked: no errors');
    const same = lugwork(['check', '--fix', '-'], root, {}, { input: clean });
    expect(same.out).toBe(clean);
  });
});

describe('--diff', () => {
  test('prints what --fix would write, for git apply, and writes nothing', () => {
    const files = { 'a b.lug': misspelt, 'sub/c.lug': `\uFEFF${twice.replaceAll('\n', '\r\n')}`, 'd.lug': clean.trimEnd() };
    const folder = folderWith(files);
    const { code, out, err } = inProcess(['check', '--diff', '.'], folder);
    expect(code).toBe(0);
    expect(err).toContain('3 fixes would be applied in 2 files\n0 errors, 0 warnings, ');
    for (const [path, text] of Object.entries(files)) expect(at(folder, path)).toBe(text);
    const fixed = folderWith(files);
    inProcess(['check', '--fix', '.'], fixed);
    execFileSync('git', ['init', '-q'], { cwd: folder });
    execFileSync('git', ['apply', '-'], { cwd: folder, input: out });
    for (const path of Object.keys(files)) expect(at(folder, path)).toBe(at(fixed, path));
    expect(at(folder, 'a b.lug')).toBe(clean);
  });

  test('of a text without a last line end, and of names that disturb, git applies it, too', () => {
    const name = 'a "b"\t\u001b[31m.lug';
    const text = `${clean.trimEnd()}\nwire saddle to volme.case`;
    const folder = folderWith({ [name]: text });
    const { out } = inProcess(['check', '--diff', name], folder);
    expect(out).toContain('\\ No newline at end of file\n');
    expect(out.split('\n', 1)[0]).toBe('--- "a/a \\"b\\"\\011\\033[31m.lug"');
    execFileSync('git', ['init', '-q'], { cwd: folder });
    execFileSync('git', ['apply', '-'], { cwd: folder, input: out });
    expect(at(folder, name)).toBe(text.replace('volme', 'volume'));
  });

  test('with --fix=likely it shows those as well', () => {
    const folder = folderWith({ 'a.lug': unlikeAny });
    expect(inProcess(['check', '--diff', 'a.lug'], folder).out).toBe('');
    expect(inProcess(['check', '--diff', '--fix=likely', 'a.lug'], folder).out).toMatch(/^--- a\/a\.lug\n\+\+\+ b\/a\.lug\n@@ /);
    expect(at(folder, 'a.lug')).toBe(unlikeAny);
  });
});

describe('what does not go together', () => {
  test.each([
    [['--fix', '--staged'], '--fix changes files of the working folder, and --staged checks the index'],
    [
      ['--diff', '--write-baseline', 'k.json', 'a.lug'],
      '--diff and --write-baseline don’t go together: fix first, then save what remains',
    ],
    [['--diff', '--format', 'json', 'a.lug'], '--diff prints a diff instead of findings, so --format has no meaning for it'],
    [['--fix=possible', 'a.lug'], '--fix possible is not known (sure, likely)'],
    [
      ['--fix', '--format', 'json', '-'],
      'with --fix and - the standard output is the fixed circuit; findings are text on stderr, without --format',
    ],
  ])('%j', (words, message) => {
    const folder = folderWith({ 'a.lug': clean });
    expect(lugwork(['check', ...words], folder)).toEqual({ code: 2, out: '', err: `lugwork: ${message}\n` });
  });
});
