/** The `expect` lines of a circuit that fail, or cannot be judged, as findings. */
import type { Circuit } from '../circuit/model.js';
import { expectation, factsOf, openQuestion, toFinding } from '../checks/index.js';
import type { Finding } from '../source.js';
import { evaluate } from './evaluate.js';
import { tellFailed, tellUnknown } from './tell.js';

/**
 * A finding for each claim that fails or cannot be judged, on the claim's own range.
 * Nothing while a statement that wires or declares something cannot be read: what is not there yet cannot sound.
 */
export function judgeExpectations(circuit: Circuit): readonly Finding[] {
  if (circuit.isLibrary || factsOf(circuit).loss.any) return [];
  return circuit.expectations.flatMap((line) =>
    evaluate(circuit, line).flatMap((result) => {
      if (result.verdict === 'failed') return [toFinding(expectation, expectation.severity, tellFailed(circuit, result))];
      if (result.verdict === 'unknown') return [toFinding(openQuestion, openQuestion.severity, tellUnknown(circuit, result))];
      return [];
    }),
  );
}
