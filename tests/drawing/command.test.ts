/** `lugwork draw` as a user runs it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Scene } from '../../language/drawing/index.js';
import { folderWith, lugwork } from '../harness/process.js';
import { drawing, exampleText } from './support.js';

const name = 'two-single-coils-lever-3';
const folder = (): string => folderWith({ 'no-3.lug': exampleText(name) });

test('the picture goes to the standard output, or to a file', () => {
  const cwd = folder();
  const shown = lugwork(['draw', 'no-3.lug'], cwd);
  expect(shown.err).toBe('');
  expect(shown.code).toBe(0);
  expect(shown.out).toMatch(/^<svg [^]*<\/svg>\n$/);
  const written = lugwork(['draw', 'no-3.lug', '-o', 'no-3.svg'], cwd);
  expect(written).toEqual({ code: 0, out: '', err: '' });
  expect(readFileSync(join(cwd, 'no-3.svg'), 'utf8')).toBe(shown.out);
});

test('the scene is the one that the library makes', async () => {
  const { out } = lugwork(['draw', 'no-3.lug', '--format', 'json'], folder());
  expect(JSON.parse(out) as Scene).toEqual((await drawing(name, { sheet: { file: 'no-3.lug' } })).scene);
});

test('--set lights a setting, --side turns the sheet over', () => {
  const { out } = lugwork(['draw', 'no-3.lug', '--set', 'selector 2', '--side', 'player'], folder());
  expect(out).toContain('selector &quot;both&quot;: sounds parallel(bridge, neck), hum cancelled');
  expect(out).toContain('Seen from the player’s side');
  expect(out).toMatch(/class="contact closed lit"/);
});

test('--paper writes one sheet, or an overview and its pages beside it, each in millimetres', () => {
  const cwd = folderWith({ 'no-3.lug': exampleText(name), 'no-17.lug': exampleText('bass-two-circuits-four-cavities') });
  const one = lugwork(['draw', 'no-3.lug', '--paper', 'letter'], cwd);
  expect(one).toMatchObject({ code: 0, err: '' });
  expect(one.out).toMatch(/^<svg [^>]*width="279.4mm" height="215.9mm"/);
  expect(one.out).not.toContain('>Page ');
  expect(lugwork(['draw', 'no-17.lug', '--paper', 'a4', '-o', 'big.svg'], cwd)).toEqual({ code: 0, out: '', err: '' });
  const pages = readdirSync(cwd)
    .filter((file) => file.startsWith('big'))
    .sort();
  expect(pages).toEqual(['big-2.svg', 'big-3.svg', 'big-4.svg', 'big.svg']);
  const texts = pages.map((file) => readFileSync(join(cwd, file), 'utf8'));
  for (const [index, file] of pages.entries()) {
    const number = /-(\d)/.exec(file)?.[1];
    expect(texts[index]).toMatch(/^<svg [^>]*width="(297mm" height="210mm|210mm" height="297mm)"/);
    expect(texts[index]).toContain(number === undefined ? '>Page 1 of 4: overview<' : `>Page ${number} of 4<`);
  }
});

test('a drawing with fewer pages removes what an earlier one wrote, and no other file', () => {
  const cwd = folderWith({ 'no-3.lug': exampleText(name), 'no-17.lug': exampleText('bass-two-circuits-four-cavities') });
  const print = (file: string) => lugwork(['draw', file, '--paper', 'a4', '-o', 'big.svg'], cwd);
  const files = (): string[] =>
    readdirSync(cwd)
      .filter((file) => file.endsWith('.svg'))
      .sort();
  const read = (file: string): string => readFileSync(join(cwd, file), 'utf8');
  expect(print('no-17.lug')).toMatchObject({ code: 0, err: '' });
  expect(print('no-17.lug')).toMatchObject({ code: 0, err: '' });
  // A page under another name, a page someone drew on, a drawing of another kind, and a page of a longer name.
  const foreign = {
    'big-7.svg': read('big-3.svg'),
    'big-4.svg': read('big-4.svg').replace('</svg>', '<circle r="9"/></svg>'),
    'big-5.svg': '<svg/>',
    'big-2-3.svg': read('big-3.svg'),
  };
  for (const [file, text] of Object.entries(foreign)) writeFileSync(join(cwd, file), text);
  const { code, err } = print('no-3.lug');
  expect(code).toBe(0);
  expect(err.split('\n').filter((line) => line !== '')).toEqual([
    'lugwork: big-4.svg: a page of an earlier drawing, renamed or changed since then, so it was not removed',
    'lugwork: big-7.svg: a page of an earlier drawing, renamed or changed since then, so it was not removed',
    'lugwork: removed big-2.svg and big-3.svg, left over from an earlier drawing',
  ]);
  expect(files()).toEqual(['big-2-3.svg', 'big-4.svg', 'big-5.svg', 'big-7.svg', 'big.svg']);
  for (const [file, text] of Object.entries(foreign)) expect(read(file)).toBe(text);
});

test('pages need a name for their files, and are pictures', () => {
  const cwd = folderWith({ 'no-17.lug': exampleText('bass-two-circuits-four-cavities') });
  const nameless = lugwork(['draw', 'no-17.lug', '--paper', 'a4'], cwd);
  expect(nameless).toMatchObject({ code: 2, out: '' });
  expect(nameless.err).toContain('the drawing takes 4 pages, a file each; name the first with -o FILE.svg');
  expect(lugwork(['draw', 'no-17.lug', '--paper', 'a4', '--format', 'json'], cwd)).toMatchObject({ code: 2, out: '' });
  const whole = lugwork(['draw', 'no-17.lug'], cwd);
  expect(whole.code).toBe(0);
  expect(whole.err).toMatch(/on one sheet of A4 or Letter its smallest text is \d\.\d pt, less than 6 pt; `--paper a4`/);
});

test('what cannot be is said, with exit code 2', () => {
  const cwd = folder();
  expect(lugwork(['draw', 'no-4.lug'], cwd).code).toBe(2);
  const set = lugwork(['draw', 'no-3.lug', '--set', 'selector 9'], cwd);
  expect(set.code).toBe(2);
  expect(set.err).toContain('--set');
  const output = lugwork(['draw', 'no-3.lug', '-o', 'nowhere/no-3.svg'], cwd);
  expect(output.code).toBe(2);
  expect(output.err).toContain('nowhere/no-3.svg can’t be written');
});
