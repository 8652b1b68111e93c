/** Values as they stand in the text, made quantities: units, printed codes, and how a unit is called. */
import { parseValue, valueProblem, type ParsedValue, type Word } from '../grammar/index.js';
import type { SourceRange } from '../source.js';
import type { Quantity, Unit } from './model.js';

/** What one word says as a value; a printed code may say more than its value. */
export type Reading = ParsedValue;

/** Reads a word as a value, `undefined` where it is none. `wanted` settles printed codes that are ambiguous by themselves. */
export function readValue(word: Word, wanted?: Unit): Reading | undefined {
  if (word.kind === 'string' || word.kind === 'unknown') return undefined;
  const parsed = parseValue(word.text, wanted);
  return parsed !== undefined && Number.isFinite(parsed.value) ? parsed : undefined;
}

/** Why a word is no value that can be read, for the end of a sentence. */
export function whyNoValue(word: Word, wanted?: Unit): string {
  const why = word.kind === 'value' ? valueProblem(word.text, wanted) : undefined;
  return why ?? `\`${word.text}\` is not a value`;
}

/** A quantity without tolerance, known. */
export function quantity(value: number, unit: Unit, range?: SourceRange): Quantity {
  return { value, unit, tolerance: 0, known: true, ...(range === undefined ? {} : { range }) };
}

/** How a value of a unit is called in a sentence, with an example of how it is written. */
export const UNIT_WORDS: Readonly<Record<Unit, { readonly name: string; readonly example: string }>> = {
  ohm: { name: 'a resistance', example: '250k' },
  farad: { name: 'a capacitance', example: '22nF' },
  henry: { name: 'an inductance', example: '2.4H' },
  metre: { name: 'a length', example: '85mm' },
  awg: { name: 'a gauge', example: '22awg' },
  volt: { name: 'a voltage', example: '9V' },
  hertz: { name: 'a frequency', example: '3.2kHz' },
  ampere: { name: 'a current', example: '1mA' },
  'ampere-hour': { name: 'a charge', example: '500mAh' },
  siemens: { name: 'a transconductance', example: '2mS' },
  percent: { name: 'a percentage', example: '10%' },
  decibel: { name: 'a number of decibels', example: '3dB' },
  count: { name: 'a plain number', example: '5' },
};

/** `a resistance such as 250k`. */
export function unitPhrase(unit: Unit): string {
  const { name, example } = UNIT_WORDS[unit];
  return `${name} such as ${example}`;
}
