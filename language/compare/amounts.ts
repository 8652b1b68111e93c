/** Figures in sentences: a value, a value that becomes another, and by how much. */
import { amount } from '../circuit/index.js';
import type { Quantity, Unit } from '../circuit/model.js';
import type { Figures } from './change.js';

/** Figures that differ by less are the same: a share of ohm and hertz, decibels. */
const least = { share: 0.001, decibel: 0.05 };

/** A quantity as it is given; its tolerance only where asked. */
export function quantityText({ value, unit, known, tolerance, assumed }: Quantity, withTolerance = false, digits = 3): string {
  const text = known ? amount(value, unit, digits) : '?';
  return withTolerance && tolerance > 0 && assumed !== true ? `${text} ±${Number((tolerance * 100).toPrecision(3))} %` : text;
}

/** Two values written with as many figures as tell them apart, six at most. */
export function writeDistinct(write: (digits: number) => readonly [string, string]): readonly [string, string] {
  for (let digits = 3; digits < 6; digits++) {
    const [before, after] = write(digits);
    if (before !== after) return [before, after];
  }
  return write(6);
}

/** True where a share of a value is too small to be reported. */
export function isSameAmount({ before, after }: Figures, share = least.share): boolean {
  if (before === null || after === null) return before === after;
  return Math.abs(after - before) <= share * Math.max(Math.abs(before), Math.abs(after));
}

/** `6.71 kΩ becomes 7.39 kΩ (+10.1 %)`; `none` stands for a figure that is not there. */
export function becomes({ before, after }: Figures, unit: Unit, none: string): string {
  const [old, now] = writeDistinct((digits) => [
    before === null ? none : amount(before, unit, digits),
    after === null ? none : amount(after, unit, digits),
  ]);
  return `${old} becomes ${now}${byHowMuch(before, after)}`;
}

function byHowMuch(before: number | null, after: number | null): string {
  if (before === null || after === null || before <= 0 || after <= 0) return '';
  const ratio = after / before;
  if (ratio >= 10 || ratio <= 0.1) return ` (× ${Number(ratio.toPrecision(3))})`;
  return ` (${signed((ratio - 1) * 100)} %)`;
}

export function isSameLevel({ before, after }: Figures, decibel = least.decibel): boolean {
  if (before === null || after === null) return before === after;
  return Math.abs(after - before) <= decibel;
}

/** `-0.4 dB becomes -27.1 dB (-26.8 dB)`. */
export function levelBecomes({ before, after }: Figures): string {
  const text = (value: number | null): string => (value === null ? 'none' : `${signed(value)} dB`);
  const by = before === null || after === null ? '' : ` (${signed(after - before)} dB)`;
  return `${text(before)} becomes ${text(after)}${by}`;
}

/** One decimal with its sign; nought has none. */
export function signed(value: number): string {
  const text = value.toFixed(1).replace(/^-0\.0$/, '0.0');
  return value > 0 && text !== '0.0' ? `+${text}` : text;
}
