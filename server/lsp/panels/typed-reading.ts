/** A reading as a person types it, and the `measured` line that says it. */
import { parseValue } from '../../../language/grammar/index.js';
import type { ReadingPlace } from '../../../language/workshop/index.js';

/** What is typed as a `measured` line says it: `6.6k`, `open`, `short`; undefined where it is no reading of a meter in ohms. */
export function readingText(typed: string): string | undefined {
  const text = typed.trim().toLowerCase();
  if (text === 'open' || text === 'short') return text;
  const written = typed.replace(/\s+/g, '').replace(/(?:Ω|ohms?)$/iu, '');
  const parsed = /^[\d.]+[kKMR]?$/.test(written) ? parseValue(written.replace('K', 'k'), 'ohm') : undefined;
  return parsed !== undefined && Number.isFinite(parsed.value) ? ohmExactly(parsed.value) : undefined;
}

/** All the figures that were typed, where `ohmText` would round them. */
function ohmExactly(ohm: number): string {
  const figure = (value: number): string => String(Number(value.toPrecision(12)));
  if (ohm >= 1e6) return `${figure(ohm / 1e6)}M`;
  return ohm >= 1e3 ? `${figure(ohm / 1e3)}k` : `${figure(ohm)}R`;
}

/** `measured at output.ring, selector 1 : reads 6.6k`; `measured between output.sleeve and volume.case : reads 0.4R`. */
export function measuredLine({ at, setting, between }: ReadingPlace, reading: string): string {
  const probes = between === undefined ? '' : `between ${between.join(' and ')}`;
  const where = [probes, at === '' ? '' : `at ${at}`, setting].filter((words) => words !== '').join(', ');
  return `measured ${where === '' ? '' : `${where} `}: reads ${reading}`;
}
