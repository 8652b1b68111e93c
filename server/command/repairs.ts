/** Repairs beside findings, and findings under their cause: the search for another wiring, as far as its budget of work goes. */
import { followsFromText, withCauses, type CheckedTexts, type Follows } from '../../language/causes.js';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { canBeRewired, repairSteps, usualWork } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';
import { finished, type Steps } from '../../language/steps.js';
import { createWork } from '../../language/work.js';
import { stoppedFixes } from '../stopped-search.js';

export interface Repaired {
  readonly findings: readonly Finding[];
  readonly follows: Follows;
  /** Searches that ended before they were through, and a sentence that says so. */
  readonly incomplete?: readonly 'repairs'[];
  readonly note?: string;
}

/**
 * The findings with the repairs that cure them, the likeliest first, and which follow from which. `effort` is a factor of the usual budget; nothing
 * is searched with 0. Without `texts` nothing is said to follow from a fault of the text.
 */
export function withRepairsFound(
  circuit: AnalysedCircuit,
  findings: readonly Finding[],
  effort: number,
  texts?: CheckedTexts,
): Repaired {
  return finished(repairedSteps(circuit, findings, effort, texts));
}

/** The same in steps of some milliseconds each. */
export function* repairedSteps(
  circuit: AnalysedCircuit,
  findings: readonly Finding[],
  effort: number,
  texts?: CheckedTexts,
): Steps<Repaired> {
  if (effort === 0) return { findings, follows: new Map() };
  const work = createWork(effort * usualWork);
  const found = canBeRewired(circuit) ? yield* repairSteps(circuit, { work }) : [];
  const said = work.isSpent ? { incomplete: ['repairs'] as const, note: stoppedFixes(found.length, effort) } : {};
  const spelt = texts === undefined ? new Map<Finding, Finding>() : yield* followsFromText(circuit, findings, texts, work);
  return { ...withCauses(findings, found, spelt), ...said };
}
