/** What the judgement of one claim in one setting is made of. */
import type { Circuit } from '../../circuit/model.js';
import type { Facts, Found } from '../../checks/index.js';

/** `unknown`: a value on which it depends is written `?`. */
export type Verdict = 'held' | 'failed' | 'unknown';

export interface Judgement {
  readonly verdict: Verdict;
  /** What the circuit does, whether the claim holds or not; `describeFound` says it. */
  readonly found: Found;
}

/** What a claim is checked against: what is heard, read and measured in a setting. */
export type Heard = Pick<Facts['signal'], 'sound' | 'reading' | 'response' | 'level'>;

/** Share of the value within which a reading, a peak or a cut-off counts where nothing is said. */
export const usualWithin = 0.05;
/** dB within which a level counts where nothing is said: about what an ear can tell. */
export const usualDecibels = 1;

export function verdict(held: boolean, found: Found): Judgement {
  return { verdict: held ? 'held' : 'failed', found };
}

/** True where none of an element's values is written `?`. */
export function isKnown(element: Circuit['elements'][number]): boolean {
  const values = [
    ('resistance' in element && element.resistance) || undefined,
    ('inductance' in element && element.inductance) || undefined,
    ('capacitance' in element && element.capacitance) || undefined,
  ];
  return values.every((value) => value === undefined || value.known);
}
