/** The fixes of a star that is too full: each leaves every net the same, and the star is no longer too full. */
import { expect, test } from 'vitest';
import { jointClasses } from '../../language/electrics/index.js';
import { applied, circuitOf, findingsOf } from './harness.js';

const seven = (star: string): string => `instrument "Alder Lane no. 239"
part bridge : single-coil 6.8k 2.8H 115pF
part volume : pot 250k audio
part tone   : pot 250k audio
part cap    : capacitor 22nF film from tone.1 to tone.case
part centre : ${star}
part saddle : bridge-ground
part output : jack
cavity controls shield depth 40mm
plate plate-1 in controls { volume, tone, output }
place centre in controls
wire bridge.hot    to volume.3
wire volume.3      to tone.2
wire volume.2      to output.tip white
wire bridge.ground to centre
wire controls      to centre black
wire volume.1      to centre black
wire volume.case   to centre black
wire tone.case     to centre black
wire saddle        to centre black
wire centre        to output.sleeve black
`;

/** Which of the named lugs are joined, as groups of names. */
function netsOf(text: string, names: readonly string[]): string[] {
  const circuit = circuitOf(text);
  const { of } = jointClasses(circuit);
  const groups = new Map<number, string[]>();
  for (const { id, label } of circuit.lugs) {
    const net = of[id];
    if (!names.includes(label) || net === undefined) continue;
    groups.set(net, [...(groups.get(net) ?? []), label]);
  }
  return [...groups.values()].map((labels) => labels.sort().join(' ')).sort();
}

function fullStars(text: string): ReturnType<typeof findingsOf> {
  return findingsOf(text).filter(({ rule }) => rule === 'full-star');
}

test.each([
  [
    'star',
    [
      'chain 1 end through volume.case',
      'add a second star, centre-2, and move 2 ends',
      'add a tag strip, centre-strip, and move 2 ends',
      'say that it holds 7',
    ],
  ],
  [
    'star { holds 5 }',
    [
      'chain 2 ends through volume.case',
      'add a second star, centre-2, and move 3 ends',
      'add a tag strip, centre-strip, and move 3 ends',
    ],
  ],
])('each fix of %s', (star, titles) => {
  const text = seven(star);
  const names = circuitOf(text).lugs.map(({ label }) => label);
  const [found, ...others] = fullStars(text);
  expect(others).toEqual([]);
  expect(found?.fixes.map(({ title }) => titles.find((begin) => title.startsWith(begin)) ?? title)).toEqual(titles);
  for (const { title, edits } of found?.fixes ?? []) {
    const after = applied(text, edits);
    expect(
      findingsOf(after).map(({ message }) => message),
      title,
    ).toEqual([]);
    expect(netsOf(after, names), title).toEqual(netsOf(text, names));
  }
});

test('the fixes hold where the star is declared in the last line, which has no end', () => {
  const text = `${seven('star').replace('part centre : star\n', '')}part centre : star`;
  const [found] = fullStars(text);
  expect(found?.fixes.length).toBe(4);
  for (const { title, edits } of found?.fixes ?? [])
    expect(
      findingsOf(applied(text, edits)).map(({ message }) => message),
      title,
    ).toEqual([]);
});

test('the tag strip lies in the cavity of the star, with one end on each tag and one bare wire through all to the star', () => {
  const text = seven('star { holds 5 }');
  const strip = fullStars(text)[0]?.fixes.find(({ title }) => title.startsWith('add a tag strip'));
  const after = applied(text, strip?.edits ?? []).split('\n');
  expect(after.filter((line) => line.includes('centre-strip'))).toEqual([
    'part centre-strip : tag-strip',
    'place centre-strip in controls',
    'wire centre-strip.1 to centre-strip.2 to centre-strip.3 to centre bare',
    'wire volume.case   to centre-strip.1 black',
    'wire tone.case     to centre-strip.2 black',
    'wire saddle        to centre-strip.3 black',
  ]);
});

test('where a second star would be too full as well, a tag strip takes the ends', () => {
  const text = seven('star { holds 2 }');
  const [found] = fullStars(text);
  const titles = found?.fixes.map(({ title }) => title) ?? [];
  expect(titles.filter((title) => title.includes('second star'))).toEqual([]);
  const strip = found?.fixes.find(({ title }) => title.startsWith('add a tag strip'));
  expect(strip?.title).toBe('add a tag strip, centre-strip, and move 6 ends to it');
  const after = applied(text, strip?.edits ?? []);
  expect(findingsOf(after).map(({ message }) => message)).toEqual([]);
  const names = circuitOf(text).lugs.map(({ label }) => label);
  expect(netsOf(after, names)).toEqual(netsOf(text, names));
});

test('a strip is named so that no part has its name', () => {
  const text = seven('star').replace('part saddle :', 'part centre-strip : junction\npart saddle :');
  const titles = fullStars(text)[0]?.fixes.map(({ title }) => title);
  expect(titles?.filter((title) => title.includes('strip'))).toEqual(['add a tag strip, centre-strip-2, and move 2 ends to it']);
});

test('a star inside an assembly gets no edits', () => {
  const text = `type ring : assembly { lugs a b c\n part point : star { holds 2 }\n wire a to point\n wire b to point\n wire c to point\n}
part hub : ring\n`;
  expect(fullStars(text).map(({ fixes }) => fixes)).toEqual([[]]);
});
