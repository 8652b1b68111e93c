/** What the order list has besides the parts: counted by hand from the text, blank where the text cannot know. */
import { expect, test } from 'vitest';
import { benchSheet, buildOf, buyList, sheetMarkdown } from '../../language/workshop/index.js';
import { sheetCsv } from '../../server/command/formats/sheet.js';
import { soundCircuit } from '../circuit/harness.js';

const TEXT = `instrument "Alder Lane no. 240" { batch 2 }
build { spares 1 }
cavity control shield depth 38mm
cavity switches
cavity rear shield
plate main in control shield size 120 60 { volume, tone, both }
plate lid in rear metal
plate cover in switches shield
part bridge : single-coil 6.8k 2.8H 115pF
part volume : pot-push-pull 250k audio
part tone : pot-no-load 250k audio
part both : pot-concentric 500k
part level : pot 100k { role preset }
part trim : trimmer 50k
part filter : rotary-2x6
part selector : lever-5
part ground : star { holds 8 }
part cell, spare : battery 9V
part low : battery 3V
part output : jack
wire control to volume.case
wire volume.case to output.sleeve
`;
const rowsFor = (item: string, text = TEXT) => buyList(buildOf(soundCircuit(text))).filter((row) => row.item === item);

test('a knob for each shaft: one of a push-pull pot, two of a concentric one, none of a preset; one for a rotary switch', () => {
  // Five shafts, two instruments, one spare.
  const usedAs = ['volume', 'tone', 'both.a', 'both.b', 'filter'];
  expect(rowsFor('knob')).toMatchObject([{ quantity: 5 * 2 + 1, unit: 'piece', usedAs }]);
});

test('screws for each plate, to be counted', () => {
  const rows = rowsFor('screw');
  expect(rows.map(({ usedAs }) => usedAs)).toEqual([['main'], ['lid'], ['cover']]);
  expect(rows.map(({ quantity }) => quantity)).toEqual([undefined, undefined, undefined]);
});

test('a solder lug for shield or plate that a wire goes to, and no other', () => {
  expect(rowsFor('solder lug')).toMatchObject([{ quantity: 1 * 2 + 1, usedAs: ['control'] }]);
  const more = rowsFor('solder lug', `${TEXT}wire lid to volume.case\n`);
  expect(more).toMatchObject([{ quantity: 2 * 2 + 1, usedAs: ['control', 'lid'] }]);
  expect(rowsFor('star')).toMatchObject([{ quantity: 3, values: 'solder lug or ring, holds 8' }]);
});

test('foil by the size of the plate where it is given, paint to be measured, for shielded ones only', () => {
  expect(rowsFor('shielding foil')).toMatchObject([
    { quantity: 3, values: '120 mm × 60 mm', usedAs: ['main'] },
    { quantity: 3, values: 'as large as the plate', usedAs: ['cover'] },
  ]);
  const [paint, ...rest] = rowsFor('conductive paint or foil');
  expect(rest).toEqual([]);
  expect(paint).toMatchObject({ unit: 'square metre', usedAs: ['control', 'rear'] });
  expect(paint!.quantity).toBeUndefined();
});

test('a clip for each battery, by its voltage', () => {
  expect(rowsFor('battery clip')).toMatchObject([
    { quantity: 2 * 2 + 1, values: 'for 9 V', usedAs: ['cell', 'spare'] },
    { quantity: 1 * 2 + 1, values: 'for 3 V', usedAs: ['low'] },
  ]);
  expect(rowsFor('battery').map(({ values }) => values)).toEqual(['9 V', '3 V']);
});

test('none of them where the text gives no reason', () => {
  const items = buyList(
    buildOf(soundCircuit('part a : single-coil 6k 2H 100pF\npart o : jack\nwire a.hot to o.tip\nwire a.ground to o.sleeve\n')),
  ).map(({ item }) => item);
  expect(items).toEqual(['single-coil', 'jack']);
});

test('a blank is an empty cell, on the sheet and in CSV, and the sheet says so', () => {
  const build = buildOf(soundCircuit(TEXT));
  expect(sheetCsv(build, 'buy').split('\n')).toContain(',piece,screw,for plate lid,lid,count its screw holes');
  const sheet = sheetMarkdown(benchSheet(build));
  expect(sheet).toMatch(/^\| +\| screw +\| for plate lid; count its screw holes +\| lid/m);
  expect(sheet).toContain('Where none is given, count or measure, and write it down.');
});
