/** `lugwork format` as a process: in place, twice the same, --check, and files it must leave alone. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcess, inProcessAsync } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { clean } from './circuits.js';

const untidy = 'instrument   "Alder Lane no. 3"\n\npart a:pot   250k\npart longer : jack\n';

test('lays a file out in place and names it; a second run changes nothing', () => {
  const folder = folderWith({ 'a.lug': untidy });
  const first = inProcess(['format', 'a.lug'], folder);
  expect(first).toMatchObject({ code: 0, out: 'a.lug\n1 file, 1 changed\n', err: '' });
  const text = readFileSync(join(folder, 'a.lug'), 'utf8');
  expect(text).toContain('part a      : pot 250k');
  const before = statSync(join(folder, 'a.lug')).mtimeMs;
  expect(inProcess(['format', 'a.lug'], folder)).toMatchObject({ code: 0, out: '1 file, 0 changed\n' });
  expect(statSync(join(folder, 'a.lug')).mtimeMs).toBe(before);
});

test('--check changes nothing and exits with 1 where something would change', () => {
  const folder = folderWith({ 'f/a.lug': untidy });
  const { code, out } = inProcess(['format', '--check', 'f'], folder);
  expect(code).toBe(1);
  expect(out).toContain('f/a.lug is not formatted');
  expect(readFileSync(join(folder, 'f/a.lug'), 'utf8')).toBe(untidy);
});

test('--check exits with 0 for what format has written', () => {
  const folder = folderWith({ 'a.lug': clean });
  inProcess(['format', 'a.lug'], folder);
  expect(inProcess(['format', '--check', 'a.lug'], folder).code).toBe(0);
});

test('a file that is no text stays as it is', () => {
  const bytes = Uint8Array.of(0x70, 0xff, 0x0a);
  const folder = folderWith({ 'a.lug': bytes });
  expect(inProcess(['format', 'a.lug'], folder).code).toBe(2);
  expect([...readFileSync(join(folder, 'a.lug'))]).toEqual([...bytes]);
});

test('--number writes each wire’s number down and nothing else; a second run changes nothing', async () => {
  const wired = `${clean}wire volume.case to output.sleeve no 40\n`;
  const folder = folderWith({ 'a.lug': wired });
  inProcess(['format', 'a.lug'], folder);
  const before = readFileSync(join(folder, 'a.lug'), 'utf8');
  const list = (await inProcessAsync(['sheet', 'a.lug', '--list', 'cut', '--format', 'csv'], folder)).out;
  expect(inProcess(['format', '--number', 'a.lug'], folder)).toMatchObject({ code: 0, out: 'a.lug\n1 file, 1 changed\n' });
  const text = readFileSync(join(folder, 'a.lug'), 'utf8');
  expect(text.replace(/( no \d+)+$/gmu, '')).toBe(before.replace(/( no \d+)+$/gmu, ''));
  expect(text.match(/^wire .* no \d+$/gmu)?.length).toBe(before.match(/^wire /gmu)?.length);
  expect((await inProcessAsync(['sheet', 'a.lug', '--list', 'cut', '--format', 'csv'], folder)).out).toBe(list);
  expect(inProcess(['format', '--number', 'a.lug'], folder)).toMatchObject({ code: 0, out: '1 file, 0 changed\n' });
});

test('--number leaves a text with errors unchanged and says so', () => {
  const folder = folderWith({ 'a.lug': `${clean}wire nowhere.1 to volume.2\n` });
  const { code, err } = inProcess(['format', '--number', 'a.lug'], folder);
  expect(code).toBe(2);
  expect(err).toContain('its wires can’t be numbered');
});
