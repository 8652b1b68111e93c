/** The `expect` lines of a circuit that fail, or cannot be judged, as findings. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { expectation, factsOf, openQuestion, toFinding } from '../../checks/index.js';
import type { Finding } from '../../source.js';
import { finished, type Steps } from '../../steps.js';
import { evaluateSteps } from './evaluate.js';
import type { Heard } from './judge.js';
import { reportFailed, reportUnknown } from './failures.js';

/**
 * A finding for each claim that fails or cannot be judged, on the claim's own range.
 * Nothing while a statement that wires or declares something cannot be read: what is not there yet cannot sound. `heardBy` as in `evaluateSteps`.
 */
export function judgeExpectations(circuit: AnalysedCircuit, heardBy?: (at: AnalysedCircuit) => Heard): readonly Finding[] {
  return finished(judgeExpectationSteps(circuit, heardBy));
}

/** The same in steps of one judged setting each. */
export function* judgeExpectationSteps(
  circuit: AnalysedCircuit,
  heardBy?: (at: AnalysedCircuit) => Heard,
): Steps<readonly Finding[]> {
  if (circuit.isLibrary || factsOf(circuit).unread.any) return [];
  const found: Finding[] = [];
  for (const line of circuit.expectations) {
    for (const result of yield* evaluateSteps(circuit, line, heardBy)) {
      if (result.verdict === 'failed') found.push(toFinding(expectation, reportFailed(circuit, result)));
      if (result.verdict === 'unknown') found.push(toFinding(openQuestion, reportUnknown(circuit, result)));
    }
  }
  return found;
}
