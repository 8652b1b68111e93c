/** `lugwork fit`: the part line compiles and computes what was measured; bad tables and options are refused with their place. */
import { describe, expect, test } from 'vitest';
import { frequencies, measuredImpedance, measuredResponse, noLoad, trueLevel, type Truth } from '../fit/synthetic.js';
import { read } from '../harness/checkout.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

/** The pickup of examples/measured: a lossy core after Leach, which none of the fitted models is. */
const truth: Truth = { resistance: 7.1e3, inductance: 4.1, capacitance: 128e-12, exponent: 0.94, loss: 900e3 };

const digits = (value: number): string => Number(value.toPrecision(4)).toString();
const impedance = (seed: number): string => {
  const { measured } = measuredImpedance(truth, noLoad, 0.01, seed);
  if (measured.kind !== 'impedance') throw new Error('no impedance');
  return `hz,ohm,deg\n${measured.hz.map((hz, i) => `${digits(hz)},${digits(measured.ohm[i]!)},${measured.deg[i]!.toFixed(1)}\n`).join('')}`;
};
const response = (farad: number, seed: number): string => {
  const { measured } = measuredResponse(truth, { farad, ohm: 1e6 }, 0.1, seed);
  if (measured.kind !== 'response') throw new Error('no response');
  return `hz,db\n${measured.hz.map((hz, i) => `${digits(hz)},${measured.db[i]!.toFixed(2)}\n`).join('')}`;
};

test('the examples are made from the formula', () => {
  expect(read('examples/measured/covered-pickup-impedance.csv')).toBe(impedance(71));
  expect(read('examples/measured/covered-pickup-470pf.csv')).toBe(response(470e-12, 72));
  expect(read('examples/measured/covered-pickup-1470pf.csv')).toBe(response(1.47e-9, 73));
});

describe('a newcomer types the part line that is printed', () => {
  test.each([
    ['from an impedance', ['z.csv']],
    ['from two responses', ['a.csv', 'b.csv', '--cable', '470pF, 1.47nF', '--input', '1M', '--resistance', '7.1k']],
  ])('%s, and the response is within 1 dB of the true one to 10 kHz', (_, words) => {
    const folder = folderWith({ 'z.csv': impedance(1), 'a.csv': response(470e-12, 2), 'b.csv': response(1.47e-9, 3) });
    const fitted = inProcess(['fit', ...words, '--name', 'neck'], folder);
    expect([fitted.code, fitted.err]).toEqual([0, '']);
    const [part] = fitted.out.split('\n');
    const circuit = `instrument "Alder Lane no. 295"\nrig { cable 700pF, input 1M }\n${part}\npart output : jack\nwire neck.hot to output.tip\nwire neck.ground to output.sleeve\n`;
    const place = folderWith({ 'a.lug': circuit });
    expect(inProcess(['check', 'a.lug'], place)).toMatchObject({ code: 0, out: '1 file checked: no errors, no warnings\n' });
    const { points } = JSON.parse(inProcess(['response', 'a.lug', '--format', 'json', '--to', '10000'], place).out) as {
      points: { hz: number; db: number }[];
    };
    const load = { farad: 700e-12, ohm: 1e6 };
    // A response has no certain zero, so both are compared from 100 Hz on.
    const [near] = points.filter(({ hz }) => hz >= 100);
    const offset = near!.db - trueLevel(truth, load, near!.hz);
    for (const { hz, db } of points.filter(({ hz }) => hz >= 60))
      expect(Math.abs(db - offset - trueLevel(truth, load, hz)), `${hz} Hz`).toBeLessThan(1);
  });
});

describe('what the data say', () => {
  const folder = folderWith({ 'z.csv': impedance(1), 'a.csv': response(470e-12, 2) });

  test('one response alone asks for more, and says what was not stated', () => {
    const { out } = inProcess(['fit', 'a.csv'], folder);
    expect(out).toContain('One response does not tell inductance and capacitance apart.');
    expect(out).toContain('state --resistance as the meter reads it');
    expect(out).toContain('--cable and --input say it');
    expect(inProcess(['fit', 'a.csv', '--cable', '470pF', '--input', '1M'], folder).out).not.toContain(
      '--cable and --input say it',
    );
  });

  test('JSON and the picture hold the same values', () => {
    const json = JSON.parse(inProcess(['fit', 'z.csv', '--format', 'json'], folder).out) as {
      part: string;
      values: { name: string; value: number; low: number; high: number }[];
      curves: { kind: string; points: object[] }[];
    };
    expect(json.values.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['resistance', 'inductance', 'capacitance', 'loss']),
    );
    for (const { value, low, high } of json.values) expect(low < value && value < high).toBe(true);
    expect(json.curves).toMatchObject([{ kind: 'impedance' }]);
    expect(json.curves[0]!.points).toHaveLength(frequencies(60).length);
    const svg = inProcess(['fit', 'z.csv', '--format', 'svg'], folder).out;
    expect(svg).toMatch(/^<svg [^]*<\/svg>\n$/);
    expect(svg.match(/class="dot"/g)).toHaveLength(60);
  });
});

test('nothing is written onto a measurement, and onto a circuit only with --force', () => {
  const place = folderWith({ 'z.csv': impedance(1), 'a.lug': 'instrument "Alder Lane no. 296"\n' });
  const into = (...words: string[]) => inProcess(['fit', 'z.csv', ...words], place).code;
  expect([into('-o', 'z.csv', '--force'), into('-o', 'a.lug'), into('-o', 'neck.txt')]).toEqual([2, 2, 0]);
  expect(into('-o', 'a.lug', '--force')).toBe(0);
});

describe('is refused', () => {
  const folder = folderWith({ 'z.csv': impedance(1), 'bad.csv': 'hz,db\n100,-20\n90,-20\n' });

  test.each([
    ['a table, with its line', ['bad.csv'], 'bad.csv:3: the frequencies do not rise'],
    ['a file that is not there', ['none.csv'], 'none.csv'],
    ['a capacitance in ohms', ['z.csv', '--cable', '1k'], '--cable takes a capacitance, such as 500pF'],
    ['a resistance of nothing', ['z.csv', '--resistance', '0'], '--resistance takes ohms, such as 1M'],
    [
      'three cables for one file',
      ['z.csv', '--cable', '1nF, 2nF, 3nF'],
      '--cable takes one value, or as many as there are files, 1, not 3',
    ],
    ['a name with a space', ['z.csv', '--name', 'my neck'], '“my neck” is no name of a part'],
  ])('%s', (_, words, message) => {
    const { code, err } = inProcess(['fit', ...words], folder);
    expect(code).toBe(2);
    expect(err).toContain(message);
  });
});
