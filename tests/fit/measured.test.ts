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
    [
      'comments behind a byte order mark, line ends of another system',
      `\uFEFF# made\n${response('hz,db', (at, db) => `${at},${db}`)}`.replaceAll('\n', '\r\n'),
    ],
    ['a phase, which a response does not need', response('freq_hz,Level [dB],phase', (at, db) => `${at},${db},-12`)],
    ['comments and blank lines', `# of a measuring program\n\n${response('Hz,dB', (at, db) => `${at},${db}`)}\n* end\n`],
  ])('%s', (_, text) => {
    const read = readMeasured(text);
    expect(read).toMatchObject({ kind: 'response', db: hz.map((_, i) => -20 + i / 2) });
    if (read.kind === 'response') read.hz.forEach((at, i) => expect(at).toBeCloseTo(hz[i]!, 6));
  });

  test.each([
    ['hz,ohm,deg', impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm},${deg}`)],
    ['a size in bars', impedance('Frequency (Hz),|Z| (ohms),Phase (deg)', (at, ohm, deg) => `${at},${ohm},${deg}`)],
    ['units behind a stroke', impedance('f/Hz\tZ/kΩ\tPhase/°', (at, ohm, deg) => `${at}\t${ohm / 1000}\t${deg}`)],
    ['kilohms and a phase', impedance('freq;phase (°);kΩ', (at, ohm, deg) => `${at};${deg};${ohm / 1000}`)],
  ])('%s', (_, text) => {
    expect(readMeasured(text)).toMatchObject({ kind: 'impedance', deg: hz.map((_, i) => 4 * i) });
  });
});

test('an angle in radians is one in degrees', () => {
  const read = readMeasured(impedance('hz,ohm,phase (rad)', (at, ohm, deg) => `${at},${ohm},${(deg * Math.PI) / 180}`));
  expect(read.kind).toBe('impedance');
  if (read.kind === 'impedance') read.deg.forEach((deg, i) => expect(deg).toBeCloseTo(4 * i, 9));
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
    ['only comments', '# made\n', 1, /the file is empty/],
    ['a picture', 'PNG\uFFFD\uFFFD', 1, /this is no text/],
    ['spaces between the columns', good.replaceAll(',', ' '), 1, /commas, semicolons or tabs between the columns/],
    ['volts', good.replace('db', 'level (V)'), 1, /the level is in volts; make decibels of it/],
    ['two levels', good.replace('db', 'db,gain'), 1, /two columns give the level in dB/],
    ['levels beside ohms', good.replace('db', 'db,ohm,deg'), 1, /levels and ohms in one table/],
    [
      'decimal commas between commas',
      third('130,-19,5'),
      3,
      /the row has 3 cells, the headings are 2; if these are decimal commas/,
    ],
    ['a cell too many', third('130;-19;5').replaceAll(',', ';'), 3, /^the row has 3 cells, the headings are 2$/],
    ['what was not measured', third('130,NaN'), 3, /is “NaN”: leave out the rows in which nothing was measured/],
    ['a unit in a cell', third('130,-19 dB'), 3, /“-19 dB” is no number/],
    ['a number in another notation', third('130,0x10'), 3, /“0x10” is no number/],
    ['an open quote', third('130,"-19'), 3, /this quote is never closed/],
    ['frequencies as levels', response('db,hz', (at) => `${at},${at}`), 5, /220 dB is no level; are the columns exchanged/],
    [
      'ohms as degrees',
      impedance('hz,deg,ohm', (at, ohm, deg) => `${at},${ohm},${deg + 60}`),
      2,
      /an angle of 7000° is no pickup’s/,
    ],
    ['a resistor', impedance('hz,ohm,deg', (at) => `${at},6800,0`), 1, /the same everywhere, as that of a resistor/],
    ['a word', third('130,loud'), 3, /“loud” is no number for the level in dB/],
    ['a frequency of zero', third('0,-20'), 3, /a frequency is more than zero/],
    ['a frequency twice', third('100,-20'), 3, /the frequencies do not rise: sort the rows/],
    ['too few rows', good.split('\n').slice(0, 6).join('\n'), 6, /5 rows are too few/],
    [
      'kilohertz in hertz',
      response('hz,db', (at, db) => `${at / 1000},${db}`),
      1,
      /are they kilohertz\? Then name the column khz/,
    ],
    ['a narrow range', ['hz,db', ...hz.map((_, i) => `${1000 + i},${i}`)].join('\n'), 1, /less than two octaves/],
    ['a flat line', response('hz,db', (at) => `${at},-20.1`), 1, /the level is the same everywhere/],
    [
      'kilohms in ohms',
      impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm / 1000},${deg}`),
      1,
      /are they kilohms\? Then name the column kohm/,
    ],
    [
      'radians',
      impedance('hz,ohm,deg', (at, ohm, deg) => `${at},${ohm},${(deg * Math.PI) / 180}`),
      1,
      /are they radians\? Then name the column rad/,
    ],
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
