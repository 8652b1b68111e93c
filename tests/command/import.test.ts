/** `lugwork import`: where the circuit goes, what is said about the table, and the exit codes. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith, lugwork } from '../harness/process.js';

const table = 'from,to,colour\nneck.hot,volume.3,white\nneck.ground,volume.case,black\nvolume.2,output.tip,\n';

test('prints a circuit, laid out, that has its file’s name for a title', () => {
  const folder = folderWith({ 'bench/no 5.csv': table });
  const { code, out, err } = inProcess(['import', 'bench/no 5.csv'], folder);
  expect([code, err]).toEqual([0, '']);
  expect(out).toBe(`// Imported from no 5.csv. Types that are marked as guessed were chosen by lugs and names: check each.
instrument "no 5"

part neck   : single-coil // guessed; humbucker, piezo or single-coil-tapped would fit, too
part volume : pot // guessed; pot-no-load would fit, too
part output : jack // guessed; jack-stereo or jack-switched would fit, too

wire neck.hot    to volume.3 white
wire neck.ground to volume.case black
wire volume.2    to output.tip
`);
});

test('-o writes a file that format leaves alone, and replaces a circuit only with --force', () => {
  const folder = folderWith({ 'wires.csv': table });
  const words = ['import', 'wires.csv', '--types', 'neck=humbucker, volume=pot, output=jack', '-o', 'a.lug'];
  expect(inProcess(words, folder)).toEqual({ code: 0, out: '', err: '' });
  expect(inProcess(['format', '--check', 'a.lug'], folder).code).toBe(0);
  const text = readFileSync(join(folder, 'a.lug'), 'utf8');
  expect(text).toMatch(/^\/\/ Imported from wires\.csv\.\n[^]*part neck +: humbucker\n/);
  expect(inProcess(words, folder)).toMatchObject({
    code: 2,
    err: 'lugwork: a.lug is a circuit; use --force to overwrite it\n',
  });
  expect(inProcess([...words, '--force'], folder).code).toBe(0);
  expect(inProcess(['import', 'wires.csv', '-o', 'wires.csv', '--force'], folder)).toMatchObject({
    code: 2,
    err: expect.stringContaining('is one of the input files') as string,
  });
  expect(inProcess(['import', 'wires.csv', '-o', 'a.csv'], folder).err).toContain('would contain a circuit');
});

test('says what can’t be read with file, line and column, and exits with 1', () => {
  const folder = folderWith({ 'wires.csv': `${table}volume.9,output.sleeve,\nvolume.1,volume.case,mauve\n` });
  const { code, out, err } = inProcess(['import', 'wires.csv'], folder);
  expect(code).toBe(1);
  expect(err.split('\n')).toEqual([
    expect.stringMatching(/^lugwork: wires\.csv:5:1: volume is taken for a \S+, which has no lug “9”/),
    expect.stringMatching(/^lugwork: wires\.csv:6:22: “mauve” is not a colour of wire/),
    '',
  ]);
  expect(out).toContain('// wires.csv, line 5: volume.9,output.sleeve,\n');
});

test('reads the standard input', () => {
  const folder = folderWith({});
  const { code, out, err } = lugwork(['import', '-'], folder, {}, { input: table });
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain('instrument "Untitled"');
  expect(lugwork(['import', '-'], folder, {}, { input: Buffer.from([0xff, 0xfe, 0x66, 0]) })).toEqual({
    code: 2,
    out: '',
    err: 'lugwork: the standard input is not a table: this file is not UTF-8 text but UTF-16; save it as UTF-8\n',
  });
});

test.each([
  [['missing.csv'], 'lugwork: missing.csv: this file can’t be read'],
  [['no-header.csv'], 'lugwork: no-header.csv:1:1: the first row must name the columns'],
  [['wires.csv', '--types', 'neck'], 'lugwork: --types takes PART=TYPE, separated by commas, not “neck”'],
  [['wires.csv', '--types', 'nck=pot'], 'lugwork: --types: the table has no part “nck”; did you mean neck?'],
  [['wires.csv', '--types', 'neck=pott'], 'lugwork: --types: there is no standard type “pott”; did you mean pot?'],
])('import %j cannot run', (words, message) => {
  const folder = folderWith({ 'wires.csv': table, 'no-header.csv': 'a,b\n1,2\n' });
  const { code, out, err } = inProcess(['import', ...words], folder);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain(message);
});
