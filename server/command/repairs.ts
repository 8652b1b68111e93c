/** Repairs beside findings: the search for another wiring, as far as its budget of work goes. */
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { repairs, usualWork, withRepairs } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';
import { createWork } from '../../language/work.js';
import { stoppedFixes } from '../stopped-search.js';

export interface Repaired {
  readonly findings: readonly Finding[];
  /** Searches that ended before they were through, and a sentence that says so. */
  readonly incomplete?: readonly 'repairs'[];
  readonly note?: string;
}

/**
 * The findings with the repairs that cure them, the likeliest first. A text that cannot be read whole is not rewired. `effort` is a factor of the usual
 * budget; nothing is searched with 0.
 */
export function withRepairsFound(circuit: AnalysedCircuit, findings: readonly Finding[], effort: number): Repaired {
  if (effort === 0 || circuit.problems.some(({ severity }) => severity === 'error')) return { findings };
  const work = createWork(effort * usualWork);
  const found = repairs(circuit, { work });
  const said = work.isSpent ? { incomplete: ['repairs'] as const, note: stoppedFixes(found.length, effort) } : {};
  return { findings: withRepairs(findings, found), ...said };
}
