/** Figures as hovers show them. */
import { escapeMarkdown } from '../../../language/escape.js';
import { formatQuantity } from '../../../language/grammar/index.js';
import {
  arrangementText,
  readingNotes,
  type MeterReading,
  type ResponseSummary,
  type Sound,
} from '../../../language/electrics/index.js';
import type { AnalysedCircuit, Quantity } from '../../../language/circuit/index.js';

/** `6.2 kΩ ± 5 %`, `not known` for `?`. */
export function quantityText(quantity: Quantity): string {
  if (!quantity.known) return 'not known yet';
  const assumed = quantity.assumed === true ? ', assumed' : '';
  const spread = quantity.tolerance > 0 ? ` ± ${Number((quantity.tolerance * 100).toPrecision(3))} %${assumed}` : '';
  return formatQuantity(quantity.value, quantity.unit) + spread;
}

/** `6.05 kΩ (5.9 kΩ to 6.1 kΩ)`, `open`. */
export function readingText(reading: MeterReading): string {
  const { ohm, low, high, unknown, note, through } = reading;
  if (unknown) return through.length === 0 ? escapeMarkdown(note ?? 'not known') : 'not known: a value between the probes is `?`';
  if (ohm === null) return 'open';
  const spread = low !== null && high !== null && high - low > 0.005 * ohm ? ` (${limit(low)} to ${limit(high)})` : '';
  return [`${ohms(ohm)}${spread}`, ...readingNotes(reading).map(escapeMarkdown)].join(', ');
}

function limit(value: number): string {
  return formatQuantity(value, 'ohm', 3, true);
}

function ohms(value: number): string {
  return formatQuantity(value, 'ohm');
}

/** `3.2 kHz, 6.1 dB high`; where there is no peak, the upper corner. */
export function peakText({ peak, cutoffHz, cancels, problem }: ResponseSummary, isApproximate = false): string {
  if (problem !== undefined) return escapeMarkdown(problem);
  if (cancels) return 'thin: the coils cancel';
  const about = isApproximate ? 'about ' : '';
  if (peak !== null) return `${about}${formatQuantity(peak.hz, 'hertz')}, ${peak.db.toFixed(1)} dB high`;
  return cutoffHz === null ? 'no peak' : `no peak, −3 dB at ${about}${formatQuantity(cutoffHz, 'hertz')}`;
}

/** `parallel(bridge, neck), hum cancelled`, `…, hum partly (−9 dB)`. */
export function soundText(circuit: AnalysedCircuit, { silent, arrangement, text, hum, humDb }: Sound): string {
  if (silent) return 'silent';
  const what = arrangement === undefined ? text : arrangementText(circuit, arrangement);
  const left = hum === 'partly' && humDb !== null ? ` (${humDb.toFixed(0).replace('-', '−')} dB)` : '';
  return `${escapeMarkdown(what)}, ${hum === 'none' ? 'no hum' : `hum ${hum}${left}`}`;
}
