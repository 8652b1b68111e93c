/** Values with their units: those of the trade where nothing is typed yet, units and preferred values of IEC 60063 behind a number. */
import { firstOf } from '../../../language/collections.js';
import { CompletionItemKind } from 'vscode-languageserver';
import { parseValue } from '../../../language/grammar/index.js';
import { nearestPreferred } from '../../../language/electrics/index.js';
import type { Unit } from '../../../language/circuit/index.js';
import { codesOf } from '../hover/value.js';
import type { Offer } from './item.js';

/** What a value is for, so that what is usual comes first. */
export interface Wanted {
  readonly unit: Unit;
  /** `resistance`, shown beside the value. */
  readonly name: string;
  readonly use: 'pickup' | 'control' | 'part' | 'wire' | 'other';
}

/** Units as they are written behind a number, the commonest first. */
const units: Readonly<Record<Unit, readonly string[]>> = {
  ohm: ['k', 'M', 'R'],
  farad: ['nF', 'pF', 'uF'],
  henry: ['H', 'mH'],
  metre: ['mm', 'cm', 'm', 'in'],
  awg: ['awg'],
  volt: ['V'],
  hertz: ['kHz', 'Hz'],
  ampere: ['mA'],
  'ampere-hour': ['mAh'],
  siemens: ['mS'],
  percent: ['%'],
  decibel: ['dB'],
  count: [''],
};

/** Values that are common in the trade (common practice). */
const usual: Readonly<Record<string, readonly string[]>> = {
  'ohm pickup': ['6k', '6.5k', '7k', '8k', '10k', '14k'],
  'henry pickup': ['2.2H', '2.6H', '3H', '4.2H', '6H'],
  'farad pickup': ['90pF', '110pF', '130pF'],
  'ohm control': ['250k', '500k', '25k', '50k', '100k', '1M'],
  'ohm part': ['150k', '100k', '220k', '470R', '1M'],
  'farad part': ['22nF', '47nF', '10nF', '4.7nF', '1nF', '680pF'],
  'henry part': ['1.5H'],
  'awg wire': ['22awg', '24awg', '26awg'],
  'metre wire': ['100mm', '200mm', '300mm'],
  'volt part': ['9V'],
  'percent other': ['5%', '10%', '15%', '20%'],
};

/** Of what a pickup loses and of its peak, by name (common practice). */
const usualNamed: Readonly<Record<string, readonly string[]>> = {
  loss: ['300k', '500k', '1M'],
  'eddy-inductance': ['20%', '30%', '40%'],
  'eddy-resistance': ['20k', '50k', '10k'],
  'loss-exponent': ['0.94', '0.9', '0.97'],
  'cover-shading': ['30%', '20%', '40%'],
  resonance: ['3kHz', '4kHz', '5kHz'],
  'resonance-load': ['500pF', '470pF', '0pF'],
  coupling: ['15%', '20%'],
  turns: ['5000', '8000'],
};

/** Offers for any of the wanted values; `typed` is what stands of the value so far. */
export function valueOffers(wanted: readonly Wanted[], typed: string): Offer[] {
  const found = wanted.flatMap((one) => (typed === '' ? usualOf(one) : begun(one, typed)));
  const seen = new Set<string>();
  return found.filter(({ label }) => !seen.has(label) && seen.add(label));
}

function usualOf(wanted: Wanted): Offer[] {
  const values = usualNamed[wanted.name] ?? usual[`${wanted.unit} ${wanted.use}`] ?? usual[`${wanted.unit} other`] ?? [];
  return values.map((label) => offer(label, wanted, 4));
}

/** The number with each unit, and preferred values that begin with its digits. */
function begun(wanted: Wanted, typed: string): Offer[] {
  const digits = /^\.?\d+(\.\d*)?/.exec(typed)?.[0];
  if (digits === undefined) return [];
  const whole = digits.endsWith('.') ? digits.slice(0, -1) : digits;
  const withUnit = units[wanted.unit].map((unit) => offer(whole + unit, wanted, 4));
  return [...withUnit, ...preferred(wanted, digits)];
}

/** Members of E12 in the three usual decades of the commonest unit that begin with these digits. */
function preferred(wanted: Wanted, digits: string): Offer[] {
  if (wanted.unit !== 'ohm' && wanted.unit !== 'farad' && wanted.unit !== 'henry') return [];
  const unit = firstOf(units[wanted.unit]);
  const found = new Set<string>();
  // The members of one decade are those that are their own nearest.
  for (let step = 10; step < 100; step++) {
    const member = step / 10;
    if (Math.abs(nearestPreferred(member) - member) > 1e-9) continue;
    for (const decade of [1, 10, 100]) {
      const text = String(Number((member * decade).toPrecision(2)));
      if (text.startsWith(digits)) found.add(text + unit);
    }
  }
  return [...found].map((label) => offer(label, wanted, 5, 'E12'));
}

function offer(label: string, wanted: Wanted, rank: number, series?: string): Offer {
  const parsed = parseValue(label);
  const codes =
    parsed !== undefined && (parsed.unit === 'ohm' || parsed.unit === 'farad') ? codesOf(parsed.value, parsed.unit) : undefined;
  const detail = [wanted.name, series, codes].filter((one) => one !== undefined && one !== '').join(', ');
  return { label, kind: CompletionItemKind.Value, detail, rank };
}
