/** Fault finding: from the `measured` lines to the single faults that explain them, and the reading to take next. */
import { analysed, type AnalysedCircuit } from '../../circuit/model.js';
import { createWork, untilSpent, type Work } from '../../work.js';
import { faultsOf } from './faults.js';
import type { Located } from './model.js';
import { nextReading } from './next.js';
import { readingsOf } from './readings.js';
import { judgedFaults, mostSuspects, readable } from './suspects.js';
import { estimates, probesFor, proofs } from './trace.js';

export type { Estimate, Fault, FaultKind, Located, NextReading, Proof, Reading, Suspect } from './model.js';
export { locatedJson, locatedText } from './report.js';

/** Units that a search for faults may spend where nothing is said: about six seconds, for readings are taken one at a time. */
export const usualLocatingWork = 1_200_000_000;

/**
 * Simulates every single fault and compares it with the readings. A reading fits where it lies inside the limits of the position table, or of those
 * widened by its own `within`. The first suspects explain most, and of those
 * that explain alike the commonest comes first. A generator, so that a host can do other things between its steps or leave it.
 */
export function* locateSteps(
  circuit: AnalysedCircuit,
  work: Work = createWork(usualLocatingWork),
): Generator<undefined, Located> {
  const readings = readingsOf(circuit);
  const given = estimates(circuit, readings);
  const traced = { estimates: given, proofs: proofs(circuit, readings), probes: probesFor(circuit, readings, given) };
  const { decided, fitting } = readable(circuit, readings);
  if (decided.length === fitting.length) return { readings: decided, asWritten: fitting, suspects: [], ...traced };
  const faults = (yield* untilSpent(asked(() => faultsOf(analysed(circuit, { work }))))) ?? [];
  const judged = yield* judgedFaults(faults, decided, new Set(fitting));
  const next = yield* untilSpent(asked(() => nextReading(circuit, judged, readings)));
  return {
    readings: decided,
    asWritten: fitting,
    suspects: judged.slice(0, mostSuspects).map(({ suspect }) => suspect),
    ...traced,
    ...(next === undefined ? {} : { next }),
    ...(work.isSpent ? { isStopped: true } : {}),
  };
}

function* asked<T>(ask: () => T): Generator<undefined, T> {
  yield;
  return ask();
}

/** The same in one go. */
export function locate(circuit: AnalysedCircuit, work?: Work): Located {
  const steps = locateSteps(circuit, work);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
