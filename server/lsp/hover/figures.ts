/** Figures as hovers show them. */
import { escapeMarkdown } from '../../../language/escape.js';
import { formatQuantity } from '../../../language/grammar/index.js';
import { arrangementText, type MeterReading, type ResponseSummary, type Sound } from '../../../language/electrics/index.js';
import type { AnalysedCircuit, Quantity } from '../../../language/circuit/index.js';

/** `6.2 kΩ ± 5 %`, `not known` for `?`. */
export function quantityText(quantity: Quantity): string {
  if (!quantity.known) return 'not known yet';
  const spread = quantity.tolerance > 0 ? ` ± ${Number((quantity.tolerance * 100).toPrecision(3))} %` : '';
  return formatQuantity(quantity.value, quantity.unit) + spread;
}

/** `6.05 kΩ (5.9 kΩ to 6.1 kΩ)`, `open`. */
export function readingText({ ohm, low, high, unknown, note }: MeterReading): string {
  if (unknown) return 'not known: a value between the probes is `?`';
  if (ohm === null) return 'open';
  const spread = low !== null && high !== null && high - low > 0.005 * ohm ? ` (${ohms(low)} to ${ohms(high)})` : '';
  return `${ohms(ohm)}${spread}${note === undefined ? '' : `, ${escapeMarkdown(note)}`}`;
}

function ohms(value: number): string {
  return formatQuantity(value, 'ohm');
}

/** `3.2 kHz, 6.1 dB above the bass`; where there is no peak, the upper corner. */
export function peakText({ peak, cutoffHz, problem }: ResponseSummary): string {
  if (problem !== undefined) return escapeMarkdown(problem);
  if (peak !== null) return `${formatQuantity(peak.hz, 'hertz')}, ${peak.db.toFixed(1)} dB above the bass`;
  return cutoffHz === null ? 'no peak' : `no peak, −3 dB at ${formatQuantity(cutoffHz, 'hertz')}`;
}

/** `parallel(bridge, neck), hum cancelled`. */
export function soundText(circuit: AnalysedCircuit, { silent, arrangement, text, hum }: Sound): string {
  if (silent) return 'silent';
  const what = arrangement === undefined ? text : arrangementText(circuit, arrangement);
  return `${escapeMarkdown(what)}, ${hum === 'none' ? 'no hum' : `hum ${hum}`}`;
}
