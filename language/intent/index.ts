/** Intent: whether what the `expect` lines ask for is so, and what is so instead. */
import type { Circuit } from '../circuit/model.js';
import { expectation, factsOf, openQuestion, toFinding } from '../checks/index.js';
import type { Finding } from '../source.js';
import { evaluate } from './evaluate.js';
import { tellFailed, tellUnknown } from './tell.js';

export { evaluate, type ClaimResult, type Outcome } from './evaluate.js';
export { judge, type Judgement, type Verdict } from './judge.js';
export { hertzText, ohmText } from './amounts.js';

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
