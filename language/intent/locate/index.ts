/** Fault finding: from the `measured` lines to the single faults that explain them, and the reading to take next. */
import type { Circuit } from '../../circuit/model.js';
import { faultsOf } from './faults.js';
import type { Located } from './model.js';
import { nextReading } from './next.js';
import { readingsOf, withSpread } from './readings.js';
import { judgedFaults, mostSuspects, readable } from './suspects.js';
import { estimates, probesFor, proofs } from './trace.js';

export type { Estimate, Fault, FaultKind, Located, NextReading, Proof, Reading, Suspect } from './model.js';
export { locatedJson, locatedText } from './report.js';

/**
 * Simulates every single fault and holds it against the readings. A reading fits where it lies inside what the parts' tolerances allow (4 % for a coil
 * that gives none) widened by the meter's 1 % and one in the third digit, or by its own `within`. The first suspects explain most, and of those
 * that explain alike the commonest comes first. A generator, so that a host can do other things between its steps or leave it.
 */
export function* locateSteps(written: Circuit): Generator<undefined, Located> {
  const circuit = withSpread(written);
  const readings = readingsOf(circuit);
  const given = estimates(written, readings);
  const traced = { estimates: given, proofs: proofs(written, readings), probes: probesFor(written, readings, given) };
  const { told, fitting } = readable(circuit, readings);
  if (told.length === fitting.length) return { readings: told, asWritten: fitting, suspects: [], ...traced };
  const judged = yield* judgedFaults(faultsOf(circuit), told, new Set(fitting));
  const next = nextReading(circuit, judged, readings);
  return {
    readings: told,
    asWritten: fitting,
    suspects: judged.slice(0, mostSuspects).map(({ suspect }) => suspect),
    ...traced,
    ...(next === undefined ? {} : { next }),
  };
}

/** The same in one go. */
export function locate(circuit: Circuit): Located {
  const steps = locateSteps(circuit);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
