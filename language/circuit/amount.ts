/** A value with its unit as it stands on paper and in sentences: a space between, the prefix of the trade. */
import { lastOf } from '../collections.js';
import { formatQuantity } from '../grammar/index.js';
import type { Unit } from './model.js';

/** `22 nF`, `180 mm`, `24 AWG`, `0.25 mm²`, `80 %`; so many figures that count. */
export function amount(value: number, unit: Unit, digits = 3): string {
  if (unit === 'metre') return `${Number((value * 1000).toPrecision(digits + 1))} mm`;
  if (unit === 'percent') return `${Number(value.toPrecision(digits))} %`;
  if (unit === 'awg') return formatQuantity(value, unit);
  const symbol = symbols[unit];
  if (symbol === undefined) return String(Number(value.toPrecision(digits)));
  const rounded = Number(value.toPrecision(digits));
  if (rounded === 0) return `0 ${symbol}`;
  const usual = prefixes.filter(([, prefix]) => prefix === '' || !(unusual[unit] ?? '').includes(prefix));
  const [scale, prefix] = usual.find(([size]) => Math.abs(rounded) >= size * (1 - 1e-9)) ?? lastOf(usual);
  return `${Number((value / scale).toPrecision(digits))} ${prefix}${symbol}`;
}

const symbols: Partial<Readonly<Record<Unit, string>>> = {
  ohm: 'Ω',
  farad: 'F',
  henry: 'H',
  volt: 'V',
  hertz: 'Hz',
  ampere: 'A',
  'ampere-hour': 'Ah',
  siemens: 'S',
};
const prefixes = [
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
] as const;
/** Prefixes that the trade does not use. */
const unusual: Partial<Readonly<Record<Unit, string>>> = { farad: 'mkM', henry: 'kM' };
