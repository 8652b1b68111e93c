/** `lugwork locate` and `lugwork expect` as a user calls them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { clean } from './circuits.js';

/** The neck reads the volume's track alone: 250k, a little less on this meter. */
const read = `${clean}measured selector "neck" : reads 249k\nmeasured selector "bridge" : reads 6.71k\n`;

test('locate tells suspects with what they explain, and what to mind', () => {
  const { code, out } = inProcess(['locate', 'no-3.lug'], folderWith({ 'no-3.lug': read }));
  expect(code).toBe(0);
  expect(out).toMatch(/neck\.ground to volume\.case: a cold joint/);
  expect(out).toMatch(/explains 2 of 2/);
  expect(out).toMatch(/unplug from the amplifier/);
});

test('locate writes the JSON that was promised', () => {
  const { code, out } = inProcess(['locate', '--format', 'json', 'no-3.lug'], folderWith({ 'no-3.lug': read }));
  expect(code).toBe(0);
  const { suspects } = JSON.parse(out) as { suspects: { fault: string; where: string; explains: number; of: number }[] };
  expect(suspects[0]).toMatchObject({ explains: 2, of: 2 });
});

test('expect writes lines that hold, and check is content with them', () => {
  const bare = clean.replace(/^expect.*\n/m, '');
  const folder = folderWith({ 'no-3.lug': bare });
  const { code, out } = inProcess(['expect', 'no-3.lug'], folder);
  expect(code).toBe(0);
  expect(out).toContain('expect selector "both"   : sounds parallel(bridge, neck), hum cancelled');
  expect(inProcess(['check', '--strict', 'no-3.lug'], folderWith({ 'no-3.lug': bare + out })).code).toBe(0);
});

test('expect --write merges the lines into the file and says what became of each', () => {
  const byHand = 'expect selector "neck" : sounds neck, reads 9k within 15%';
  const folder = folderWith({ 'no-3.lug': `${clean.replace(/^expect.*\n/m, '')}${byHand}\n` });
  const { code, out } = inProcess(['expect', 'no-3.lug', '--write'], folder);
  expect(code).toBe(0);
  const [summary, kept, ...more] = out.trimEnd().split('\n');
  expect(summary).toMatch(/^no-3\.lug: \d+ lines added, 1 of yours kept$/);
  expect(kept).toMatch(/^line \d+ is kept; left out: expect selector "neck" : sounds neck, hum present, reads/);
  expect(more).toEqual([]);
  const written = readFileSync(join(folder, 'no-3.lug'), 'utf8');
  expect(written.match(/^expect selector "neck" *:.*$/gm)).toEqual([byHand]);
  expect(written).toContain('expect selector "both"   : sounds parallel(bridge, neck), hum cancelled');
  expect(inProcess(['expect', 'no-3.lug', '--write'], folder).out).toMatch(/^no-3\.lug: 0 lines added, \d+ stated already, 1 of/);
  expect(readFileSync(join(folder, 'no-3.lug'), 'utf8')).toBe(written);
});

test('expect --usual needs no pattern, and marks what sounds otherwise now', () => {
  const bare = clean.replace(/^expect.*\n/m, '');
  const right = inProcess(['expect', 'no-3.lug', '--usual'], folderWith({ 'no-3.lug': bare }));
  expect(right).toMatchObject({
    code: 0,
    out: `expect selector "bridge" : sounds bridge
expect selector "both"   : sounds parallel(bridge, neck)
expect selector "neck"   : sounds neck
`,
    err: '',
  });
  // The neck's lead on the throw of “both”, without a jumper to its own.
  const folder = folderWith({ 'no-3.lug': bare.replace(/^wire selector\.B3.*\n/m, '').replace(/(neck\.hot .*)B3/, '$1B2') });
  const wrong = inProcess(['expect', 'no-3.lug', '--usual'], folder);
  expect(wrong.out.split('\n')[2]).toBe('expect selector "neck"   : sounds neck // now silent');
  expect(wrong.err).toContain('3 positions, 1 differs from what sounds now');
  expect(inProcess(['expect', 'no-3.lug', '--usual', '--write'], folder).code).toBe(0);
  expect(readFileSync(join(folder, 'no-3.lug'), 'utf8')).toMatch(/^expect selector "neck" {3}: sounds neck$/m);
});

test('expect --usual says where nothing is usual, and takes no pattern', () => {
  const folder = folderWith({
    'no-3.lug': clean.replace('"bridge" "both" "neck"', '"bridge" "neck" "both"').replace(/^expect.*\n/m, ''),
  });
  expect(inProcess(['expect', 'no-3.lug', '--usual'], folder)).toMatchObject({
    code: 2,
    err: expect.stringContaining('fit no pattern') as string,
  });
  expect(inProcess(['expect', 'no-3.lug', '--usual', '--pattern', 'each'], folder)).toMatchObject({ code: 2, out: '' });
});

test('expect --write writes nothing into a circuit in JSON', () => {
  const folder = folderWith({ 'a.lug': clean });
  const json = inProcess(['circuit', 'a.lug'], folder).out;
  const other = folderWith({ 'a.json': json });
  expect(inProcess(['expect', 'a.json', '--write'], other)).toMatchObject({
    code: 2,
    out: '',
    err: 'lugwork: a.json is a circuit in JSON, so no lines can be written into it\n',
  });
});

test('expect writes a pattern, and says where none fits', () => {
  const folder = folderWith({ 'no-3.lug': clean });
  const { out } = inProcess(['expect', 'no-3.lug', '--pattern', 'neighbours', '--pickups', 'bridge, neck'], folder);
  expect(out).toBe(`expect selector "bridge" : sounds bridge
expect selector "both"   : sounds parallel(bridge, neck)
expect selector "neck"   : sounds neck
`);
  const { code, err } = inProcess(['expect', 'no-3.lug', '--pattern', 'four-ways'], folder);
  expect(code).toBe(2);
  expect(err).toMatch(/four-ways does not fit any switch/);
});
