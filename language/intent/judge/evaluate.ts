/** Whether what an `expect` or `measured` line claims is so, setting by setting. */
import type { AnalysedCircuit, Claim, Expectation, Measurement } from '../../circuit/model.js';
import { heardAt, settingsMatching, type Setting } from '../../electrics/index.js';
import { finished, type Steps } from '../../steps.js';
import { judge, type Heard, type Judgement, type Verdict } from './judge.js';

export interface Outcome extends Judgement {
  readonly setting: Setting;
}

export interface ClaimResult {
  readonly expectation: Expectation;
  readonly claim: Claim;
  /** A row for each setting that the line speaks of. */
  readonly outcomes: readonly Outcome[];
  /** `failed` where one setting fails, `unknown` where none fails and one cannot be judged. */
  readonly verdict: Verdict;
}

/**
 * Each claim of one line in each setting it speaks of: a switch that is not named stands in every position, a pot at 10 or its rest.
 * A claim about no setting at all holds.
 */
export function evaluate(circuit: AnalysedCircuit, expectation: Expectation | Measurement): readonly ClaimResult[] {
  return finished(evaluateSteps(circuit, expectation));
}

/** The same in steps of one judged setting each. `heardBy` gives what is heard at one output, for circuits whose facts need not be kept. */
export function* evaluateSteps(
  circuit: AnalysedCircuit,
  expectation: Expectation | Measurement,
  heardBy?: (at: AnalysedCircuit) => Heard,
): Steps<readonly ClaimResult[]> {
  const at = heardAt(circuit, expectation.at);
  const heard = heardBy?.(at);
  const settings = settingsMatching(at, expectation.settings);
  const between = 'between' in expectation ? expectation.between : undefined;
  const results: ClaimResult[] = [];
  for (const claim of expectation.claims) {
    const outcomes: Outcome[] = [];
    for (const setting of settings) {
      outcomes.push({ setting, ...judge(at, claim, setting, between, heard) });
      yield;
    }
    const verdicts = new Set(outcomes.map((outcome) => outcome.verdict));
    results.push({
      expectation,
      claim,
      outcomes,
      verdict: verdicts.has('failed') ? 'failed' : verdicts.has('unknown') ? 'unknown' : 'held',
    });
  }
  return results;
}
