/** Tables of measured curves: what is read, and the sentence for each thing that is wrong with one. */
import { describe, expect, test } from 'vitest';
import { readMeasured } from '../../language/fit/index.js';

const hz = Array.from({ length: 20 }, (_, i) => Math.round(100 * 1.3 ** i));
const response = (head: string, row: (hz: number, db: number) => string): string =>
  [head, ...hz.map((at, i) => row(at, -20 + i / 2))].join('\n');
const impedance = (head: string, row: (hz: number, ohm: number, deg: number) => string): string =>
  [head, ...hz.map((at, i) => row(at, 7000 + 500 * i, 4 * i))].join('\n');

describe('a table is read', () => {
  test.each([
    ['hz,db', response('hz,db', (at, db) => `${at},${db}`)],
    ['words with units', response('Frequency (Hz);Magnitude (dB)', (at, db) => `${at};${String(db).replace('.', ',')}`)],
    ['kilohertz, another column, tabs', response('note\tlevel\tkHz', (at, db) => `x\t${db}\t${at / 1000}`)],
    ['comments and blank lines', `# of a measuring program\n\n${response('Hz,dB', (at, db) => `${at},${db}`)}\n* end\n`],
  ])('%s', (_, text) => {
    const read = readMeasured(text);
    expect(read).toMatchObject({ kind: 'response', db: hz.map((_, i) => -20 + i / 2) });
    if (read.kind === 'response') read.hz.forEach((at, i) => expect(at).toBeCloseTo(hz[i]!, 6));
  });

  test.each([
    ['hz,ohm,deg', impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm},${deg}`)],
    ['kilohms and a phase', impedance('freq;phase (°);kΩ', (at, ohm, deg) => `${at};${deg};${ohm / 1000}`)],
  ])('%s', (_, text) => {
    expect(readMeasured(text)).toMatchObject({ kind: 'impedance', deg: hz.map((_, i) => 4 * i) });
  });
});

describe('what is wrong is said with its line', () => {
  const good = response('hz,db', (at, db) => `${at},${db}`);
  const third = (text: string): string =>
    good
      .split('\n')
      .map((line, i) => (i === 2 ? text : line))
      .join('\n');

  test.each([
    ['an empty file', ' \n', 1, /the file is empty/],
    ['no text', `a\0b`, 1, /this is no text/],
    ['no headings', good.slice(6), 1, /the first row does not name the columns: write hz,db/],
    ['no level', good.replace('db', 'volume'), 1, /no column for the level in dB/],
    ['no angle', impedance('hz,ohm', (at, ohm) => `${at},${ohm}`), 1, /no column for the angle in degrees/],
    ['a cell that is missing', third('130'), 3, /the row has no level in dB; is a column missing, or are the columns shifted/],
    ['a word', third('130,loud'), 3, /“loud” is no number for the level in dB/],
    ['a frequency of zero', third('0,-20'), 3, /a frequency is more than zero/],
    ['a frequency twice', third('100,-20'), 3, /the frequencies do not rise: sort the rows/],
    ['too few rows', good.split('\n').slice(0, 6).join('\n'), 6, /5 rows are too few/],
    [
      'kilohertz in hertz',
      response('hz,db', (at, db) => `${at / 1000},${db}`),
      21,
      /are they kilohertz\? Then name the column khz/,
    ],
    ['a narrow range', ['hz,db', ...hz.map((_, i) => `${1000 + i},${i}`)].join('\n'), 21, /less than two octaves/],
    ['a flat line', response('hz,db', (at) => `${at},-20.1`), 21, /the level is the same everywhere/],
    [
      'kilohms in ohms',
      impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm / 1000},${deg}`),
      21,
      /are they kilohms\? Then name the column kohm/,
    ],
    ['radians', impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm},${(deg * Math.PI) / 180}`), 21, /are they radians/],
    [
      'shifted columns',
      impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${-deg - 1},${ohm}`),
      2,
      /more than zero ohms; are the columns shifted/,
    ],
  ])('%s', (_, text, line, message) => {
    expect(readMeasured(text)).toEqual({ kind: 'fault', line, message: expect.stringMatching(message) });
  });
});
