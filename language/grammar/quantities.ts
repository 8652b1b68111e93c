/** Quantities written for people, in engineering form. */
import { sectionOf } from './gauge.js';
import type { ValueUnit } from './values.js';

const symbols: Readonly<Record<ValueUnit, string>> = {
  ohm: 'Ω',
  farad: 'F',
  henry: 'H',
  metre: 'm',
  awg: 'AWG',
  volt: 'V',
  hertz: 'Hz',
  ampere: 'A',
  'ampere-hour': 'Ah',
  siemens: 'S',
  percent: '%',
  decibel: 'dB',
  count: '',
};

/** Prefixes that the trade uses with each unit, as powers of ten; the others are written plain. */
const powers: Partial<Readonly<Record<ValueUnit, readonly number[]>>> = {
  ohm: [-3, 0, 3, 6],
  farad: [-12, -9, -6],
  henry: [-6, -3, 0],
  metre: [-3, 0],
  volt: [-6, -3, 0, 3],
  hertz: [0, 3, 6],
  ampere: [-9, -6, -3, 0],
  'ampere-hour': [-3, 0],
  siemens: [-6, -3, 0],
};

const prefixes: Readonly<Record<number, string>> = { [-12]: 'p', [-9]: 'n', [-6]: 'µ', [-3]: 'm', 0: '', 3: 'k', 6: 'M' };

/**
 * Writes a quantity in SI base units for people: `22 nF`, `6.05 kΩ`, `85 mm`. Rounded to `digits` significant figures (three where nothing
 * is said), trailing noughts left out unless they are to be kept. What is not finite is written `∞` or `?`. A wire's section is written as such: `0.25 mm²`.
 */
export function formatQuantity(value: number, unit: ValueUnit, digits = 3, keepsNoughts = false): string {
  const section = unit === 'awg' && Number.isFinite(value) ? sectionOf(value) : undefined;
  if (section !== undefined) return join(String(section), 'mm²');
  const symbol = symbols[unit];
  if (Number.isNaN(value)) return join('?', symbol);
  if (!Number.isFinite(value)) return join(value < 0 ? '−∞' : '∞', symbol);
  const [mantissa, power] = rounded(Math.abs(value), digits);
  const allowed = powers[unit] ?? [0];
  // 999.96 Ω has become 1000 by rounding, so the prefix is chosen by the rounded value.
  const fitting = mantissa === '0' ? (allowed.includes(0) ? 0 : undefined) : allowed.filter((p) => p <= power).pop();
  const prefix = fitting ?? allowed[0] ?? 0;
  const figure = Number(`${mantissa}e${power - prefix}`);
  const written = keepsNoughts && figure !== 0 ? figure.toPrecision(Math.max(digits, power - prefix + 1)) : String(figure);
  return join((value < 0 ? '−' : '') + written, (prefixes[prefix] ?? '') + symbol);
}

/** A value, zero or positive, rounded to significant figures: its figures with one before the point, and its power of ten. */
function rounded(value: number, digits: number): [string, number] {
  if (value === 0) return ['0', 0];
  const text = value.toExponential(digits - 1);
  const [figures = '', power] = text.split('e');
  return [figures, Number(power)];
}

function join(figure: string, symbol: string): string {
  return symbol === '' ? figure : `${figure} ${symbol}`;
}
