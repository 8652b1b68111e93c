/** `lugwork page` as a command: where it writes, what it refuses. What its page does is tried in tests/live. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { clean } from './circuits.js';

test('the page is what -o names, or the standard output', async () => {
  const folder = folderWith({ 'a.lug': clean });
  const printed = await inProcessAsync(['page', 'a.lug'], folder);
  expect([printed.code, printed.err]).toEqual([0, '']);
  expect(printed.out).toMatch(/^<!doctype html>\n[^]*<\/html>\n$/);
  expect(await inProcessAsync(['page', 'a.lug', '-o', 'a.html'], folder)).toEqual({ code: 0, out: '', err: '' });
  expect(readFileSync(join(folder, 'a.html'), 'utf8')).toBe(printed.out);
});

test('the page names no folder of the machine that made it', async () => {
  const folder = folderWith({
    'shop/parts.lug': 'part tone : pot 250k audio\n',
    'shop/a.lug': `use "parts.lug"\n${clean.replace(/^part tone .*\n/m, '')}`,
  });
  const { code, out } = await inProcessAsync(['page', 'shop/a.lug'], folder);
  expect(code).toBe(0);
  expect(out).toContain('"files":["a.lug","parts.lug"]');
  expect(out).not.toContain(folder);
});

test('a page is not written under a name that promises something else, nor over the circuit', async () => {
  const folder = folderWith({ 'a.lug': clean });
  const other = await inProcessAsync(['page', 'a.lug', '-o', 'a.svg'], folder);
  expect([other.code, other.err]).toEqual([
    2,
    'lugwork: a.svg would contain HTML, not SVG; choose another name, or use --force\n',
  ]);
  const own = await inProcessAsync(['page', 'a.lug', '-o', 'a.lug', '--force'], folder);
  expect([own.code, own.err]).toEqual([
    2,
    'lugwork: a.lug is one of the input files, and writing would destroy it; name another file\n',
  ]);
});

test('a text with an error still has a page, and that is said; one without parts has none', async () => {
  const folder = folderWith({ 'a.lug': `${clean}wire nothing.hot to volume.3\n`, 'b.lug': 'type odd : switch { lugs a b }\n' });
  const broken = await inProcessAsync(['page', 'a.lug'], folder);
  expect([broken.code, broken.err]).toEqual([0, expect.stringContaining('a.lug has 1 error in its text')]);
  const empty = await inProcessAsync(['page', 'b.lug'], folder);
  expect([empty.code, empty.out, empty.err]).toEqual([
    2,
    '',
    'lugwork: b.lug declares no parts, so there is nothing to calculate\n',
  ]);
});
