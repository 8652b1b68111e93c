/** Repairs beside findings: the search for another wiring, as long as a person waits for a command. */
import type { Circuit } from '../../language/circuit/index.js';
import { repairs, withRepairs } from '../../language/intent/index.js';
import type { Finding } from '../../language/source.js';

/** Seconds for one file, after which its findings are told with the repairs that were found by then. */
const patience = 2;

export interface Repaired {
  readonly findings: readonly Finding[];
  /** Where the search took too long: a sentence that says so. */
  readonly note?: string;
}

/** The findings with the repairs that cure them, the likeliest first. A text that cannot be read whole is not rewired. */
export function withRepairsInTime(circuit: Circuit, findings: readonly Finding[]): Repaired {
  if (circuit.problems.some(({ severity }) => severity === 'error')) return { findings };
  const until = performance.now() + patience * 1000;
  let isLate = false;
  const found = repairs(circuit, { isOver: () => (isLate ||= performance.now() > until) });
  return { findings: withRepairs(findings, found), ...(isLate ? { note: lateSaid(found.length) } : {}) };
}

function lateSaid(found: number): string {
  const had = found === 0 ? 'none had been found' : 'those found by then are offered';
  return `the search for repairs was given up after ${patience} seconds; ${had}`;
}
