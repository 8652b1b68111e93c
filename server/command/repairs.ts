/** Repairs beside findings: the search for another wiring, as long as a person waits for a command. */
import type { Circuit } from '../../language/circuit/index.js';
import { repairSteps, withRepairs } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';

/** Milliseconds for one file, after which its findings are told without repairs. */
const patience = 2000;

/** The findings with the repairs that cure them, the likeliest first. A text that cannot be read whole is not rewired. */
export function withRepairsInTime(circuit: Circuit, findings: readonly Finding[]): readonly Finding[] {
  if (circuit.problems.some(({ severity }) => severity === 'error')) return findings;
  const until = performance.now() + patience;
  const steps = repairSteps(circuit);
  while (performance.now() < until) {
    const step = steps.next();
    if (step.done === true) return withRepairs(findings, step.value);
  }
  return findings;
}
