/** Faults held against the readings. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { untilSpent } from '../../work.js';
import type { Fault, Reading, Suspect } from './model.js';
import { createObserver, type Observer } from './readings.js';

/** Suspects reported, at most. */
export const mostSuspects = 12;

export interface Judged {
  readonly suspect: Suspect;
  readonly observer: Observer;
}

/**
 * Faults that explain something which the circuit as written does not, those that explain most first, then the commonest. Of one winding's shares
 * only the one that explains most is reported. The commonest are tried first; where their circuits have no work left, the answer is of those tried by then.
 */
export function* judgedFaults(
  faults: readonly Fault[],
  readings: readonly Reading[],
  asWritten: ReadonlySet<Reading>,
): Generator<undefined, readonly Judged[]> {
  const judged: Judged[] = [];
  const commonest = [...faults].sort((a, b) => b.weight - a.weight);
  yield* untilSpent(explaining(commonest, readings, asWritten, (one) => judged.push(one)));
  judged.sort((a, b) => b.suspect.explains.length - a.suspect.explains.length || b.suspect.fault.weight - a.suspect.fault.weight);
  return judged.filter((one) => isMiddle(one, judged));
}

function* explaining(
  faults: readonly Fault[],
  readings: readonly Reading[],
  asWritten: ReadonlySet<Reading>,
  keep: (judged: Judged) => void,
): Generator<undefined, void> {
  for (const [index, fault] of faults.entries()) {
    if (index % 16 === 15) yield;
    const observer = createObserver(fault.circuit);
    const explains = readings.filter((reading) => observer.fits(reading) === 'yes');
    if (!explains.some((reading) => !asWritten.has(reading))) continue;
    keep({ suspect: { fault, explains, leaves: readings.filter((reading) => !explains.includes(reading)) }, observer });
  }
}

/** Of the shares of one winding that explain alike the middle one is reported: the reading lies between the others. */
function isMiddle({ suspect }: Judged, judged: readonly Judged[]): boolean {
  const { fault, explains } = suspect;
  if (fault.kind !== 'partly shorted coil') return true;
  const same = judged.filter(({ suspect: { fault: other } }) => other.kind === fault.kind && other.where === fault.where);
  const most = Math.max(...same.map((one) => one.suspect.explains.length));
  const best = same.filter((one) => one.suspect.explains.length === most);
  return explains.length === most && best[Math.floor(best.length / 2)]?.suspect === suspect;
}

/** Readings that can be calculated for a circuit at all, and those that it explains. */
export function readable(
  circuit: AnalysedCircuit,
  readings: readonly Reading[],
): { readonly decided: readonly Reading[]; readonly fitting: readonly Reading[] } {
  const observer = createObserver(circuit);
  const verdicts = readings.map((reading) => ({ reading, verdict: observer.fits(reading) }));
  return {
    decided: verdicts.filter(({ verdict }) => verdict !== 'unknown').map(({ reading }) => reading),
    fitting: verdicts.filter(({ verdict }) => verdict === 'yes').map(({ reading }) => reading),
  };
}
