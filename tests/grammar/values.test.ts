/** Values read as the standards and the printing on parts mean them. Each expected figure is written out from the source named, not computed by the reader. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatQuantity, isLetterCode, parseValue, valueProblem, type ParsedValue } from '../../language/grammar/index.js';

/** IEC 60062, letter code for resistors (published: R47 4R7 470R 4K7 47K3 4M7). */
const resistorCodes: [string, number][] = [
  ['R47', 0.47],
  ['4R7', 4.7],
  ['470R', 470],
  ['4K7', 4700],
  ['47K3', 47300],
  ['4M7', 4.7e6],
];

/** IEC 60062, letter code for capacitors (from memory: p47 4n7 22n). */
const capacitorCodes: [string, number][] = [
  ['p47', 0.47e-12],
  ['4n7', 4.7e-9],
  ['22n', 22e-9],
  ['2n2', 2.2e-9],
  ['4µ7', 4.7e-6],
];

/** Three digits in picofarad and a tolerance letter (from memory: 223 = 22 nF, 473 = 47 nF, 681 = 680 pF; J 5 %, K 10 %, M 20 %). */
const printedCapacitors: [string, number, number][] = [
  ['223J', 22e-9, 0.05],
  ['473J', 47e-9, 0.05],
  ['681J', 680e-12, 0.05],
  ['104J', 100e-9, 0.05],
];

describe('letter codes of IEC 60062', () => {
  it.each(resistorCodes)('%s ohm', (text, value) => expect(parseValue(text)).toEqual({ value, unit: 'ohm' }));
  it.each(capacitorCodes)('%s farad', (text, value) => expect(parseValue(text)).toEqual({ value, unit: 'farad' }));
  it.each(printedCapacitors)('%s as printed', (text, value, tolerance) => {
    expect(parseValue(text)).toEqual({ value, unit: 'farad', tolerance });
  });

  it('reads a tolerance letter behind a letter code', () => {
    expect(parseValue('4K7J')).toEqual({ value: 4700, unit: 'ohm', tolerance: 0.05 });
    expect(parseValue('4R7K')).toEqual({ value: 4.7, unit: 'ohm', tolerance: 0.1 });
    expect(parseValue('22nJ')).toEqual({ value: 22e-9, unit: 'farad', tolerance: 0.05 });
  });

  it('takes what is ambiguous for a resistance, unless a capacitance is expected', () => {
    expect(parseValue('104K')).toEqual({ value: 104e3, unit: 'ohm' });
    expect(parseValue('104K', 'farad')).toEqual({ value: 100e-9, unit: 'farad', tolerance: 0.1 });
    expect(parseValue('223', 'farad')).toEqual({ value: 22e-9, unit: 'farad' });
    expect(parseValue('22n', 'farad')).toEqual({ value: 22e-9, unit: 'farad' });
  });
});

/** The forms that the language names, each with what it says there. */
const named: [string, Partial<ParsedValue>][] = [
  ['6.2k', { value: 6200, unit: 'ohm' }],
  ['250k', { value: 250e3, unit: 'ohm' }],
  ['1M', { value: 1e6, unit: 'ohm' }],
  ['470R', { value: 470, unit: 'ohm' }],
  ['470\u03a9', { value: 470, unit: 'ohm' }],
  ['470\u2126', { value: 470, unit: 'ohm' }],
  ['6.2kΩ', { value: 6200, unit: 'ohm' }],
  ['22n', { value: 22e-9, unit: 'farad' }],
  ['680p', { value: 680e-12, unit: 'farad' }],
  ['.022u', { value: 0.022e-6, unit: 'farad' }],
  ['22nF', { value: 22e-9, unit: 'farad' }],
  ['0.022\u00b5F', { value: 0.022e-6, unit: 'farad' }],
  ['0.022\u03bcF', { value: 0.022e-6, unit: 'farad' }],
  ['2.4H', { value: 2.4, unit: 'henry' }],
  ['900mH', { value: 0.9, unit: 'henry' }],
  ['85mm', { value: 0.085, unit: 'metre' }],
  ['8.5cm', { value: 0.085, unit: 'metre' }],
  ['3m', { value: 3, unit: 'metre' }],
  ['1in', { value: 0.0254, unit: 'metre' }],
  ['22awg', { value: 22, unit: 'awg' }],
  ['9V', { value: 9, unit: 'volt' }],
  ['3.2kHz', { value: 3200, unit: 'hertz' }],
  ['-6.5dB', { value: -6.5, unit: 'decibel' }],
  ['−6.5db', { value: -6.5, unit: 'decibel' }],
  ['15%', { value: 15, unit: 'percent' }],
  ['0.8mA', { value: 0.0008, unit: 'ampere' }],
  ['50µA', { value: 50e-6, unit: 'ampere' }],
  ['4k7', { value: 4700, unit: 'ohm' }],
  ['2M2', { value: 2.2e6, unit: 'ohm' }],
  ['7', { value: 7, unit: 'count' }],
  ['A250K', { value: 250e3, unit: 'ohm', taper: 'audio' }],
  ['B500K', { value: 500e3, unit: 'ohm', taper: 'linear' }],
  ['C1M', { value: 1e6, unit: 'ohm', taper: 'reverse-audio' }],
  ['0.022/100V', { value: 0.022e-6, unit: 'farad', voltage: 100 }],
  ['.047/400V', { value: 0.047e-6, unit: 'farad', voltage: 400 }],
  ['22n/63V', { value: 22e-9, unit: 'farad', voltage: 63 }],
];

describe('values of the language', () => {
  it.each(named)('%s', (text, value) => expect(parseValue(text)).toEqual(value));

  it('knows lugs and names from values', () => {
    for (const name of ['A0', 'B3', 'A10', 'hot', 'north-start', 'tone', 'R', 'k', 'volume', 'M']) {
      expect(isLetterCode(name), name).toBe(false);
    }
    for (const code of ['R47', 'p47', 'A250K', 'K47']) expect(isLetterCode(code), code).toBe(true);
  });
});

/** Preferred numbers, IEC 60063: E12, and the additional ones of E24. */
const preferred = '1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2 1.1 1.3 1.6 2.0 2.4 3.0 3.6 4.3 5.1 6.2 7.5 9.1'.split(' ');

describe('exactness', () => {
  it('gives the double nearest to what is written, for every preferred number and prefix', () => {
    for (const figure of preferred) {
      for (const [suffix, power] of [
        ['p', -12],
        ['n', -9],
        ['u', -6],
        ['mH', -3],
        ['R', 0],
        ['k', 3],
        ['M', 6],
      ] as const) {
        expect(parseValue(figure + suffix)!.value).toBe(Number(`${figure}e${power}`));
      }
    }
  });

  it('measures inches exactly: 25.4 mm by definition', () => {
    expect(parseValue('0.5in')!.value).toBe(0.0127);
    expect(parseValue('1.1in')!.value).toBe(0.02794);
    expect(parseValue('2ft')!.value).toBe(0.6096);
  });

  it('reads what it writes, to the figures written', () => {
    const figure = fc.double({ min: 1e-3, max: 9.99e5, noNaN: true });
    fc.assert(
      fc.property(figure, (value) => {
        const text = formatQuantity(value, 'ohm', 6).replace(' ', '');
        expect(Math.abs(parseValue(text)!.value / value - 1)).toBeLessThan(1e-5);
      }),
      { seed: 60062, numRuns: 300 },
    );
  });
});

const refused: [string, RegExp][] = [
  ['22xF', /`xF` in `22xF` is not a unit; did you mean `22(p|n|u)F`\?/],
  ['5kk', /`kk` in `5kk` is not a unit; did you mean `5k`\?/],
  ['3.2KHZ', /did you mean `3.2kHz`\?/],
  ['.022MFD', /may mean micro or milli; write `.022uF`/],
  ['22MMF', /old unit for picofarad; write `22pF`/],
  ['6..2k', /not a value/],
  ['k', /not a value; a value is a number with its unit, such as/],
];

describe('what is no value', () => {
  it.each(refused)('%s', (text, message) => {
    expect(parseValue(text)).toBeUndefined();
    expect(valueProblem(text)).toMatch(message);
  });

  it('has no complaint about a value', () => {
    for (const [text] of named) expect(valueProblem(text)).toBeUndefined();
  });

  it('is never thrown about', () => {
    const anything = fc.oneof(fc.string(), fc.stringMatching(/^[-.\d/ABCkKMRpnuµΩFHJVm%]{0,9}$/));
    fc.assert(
      fc.property(anything, (text) => {
        const value = parseValue(text);
        expect(value === undefined || Number.isFinite(value.value)).toBe(true);
        expect(valueProblem(text) === undefined).toBe(value !== undefined);
      }),
      { seed: 60063, numRuns: 1000 },
    );
  });
});

const written: [number, Parameters<typeof formatQuantity>[1], string][] = [
  [22e-9, 'farad', '22 nF'],
  [100e-9, 'farad', '100 nF'],
  [4.7e-12, 'farad', '4.7 pF'],
  [6050, 'ohm', '6.05 kΩ'],
  [470, 'ohm', '470 Ω'],
  [999.96, 'ohm', '1 kΩ'],
  [64320.4, 'ohm', '64.3 kΩ'],
  [2.4, 'henry', '2.4 H'],
  [0.9, 'henry', '900 mH'],
  [0.085, 'metre', '85 mm'],
  [3, 'metre', '3 m'],
  [22, 'awg', '22 AWG'],
  [9, 'volt', '9 V'],
  [3200, 'hertz', '3.2 kHz'],
  [15, 'percent', '15 %'],
  [0.0008, 'ampere', '800 µA'],
  [0, 'ohm', '0 Ω'],
  [0, 'farad', '0 pF'],
  [-0.5, 'volt', '−500 mV'],
  [Infinity, 'ohm', '∞ Ω'],
  [NaN, 'ohm', '? Ω'],
  [3, 'count', '3'],
];

describe('quantities for people', () => {
  it.each(written)('%d %s is written %s', (value, unit, text) => expect(formatQuantity(value, unit)).toBe(text));
});
