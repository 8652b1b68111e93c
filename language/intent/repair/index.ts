/** Repairs: the wire to move, exchange, add or take out so that what is expected holds and nothing is found any more. */
import type { AnalysedCircuit, Circuit } from '../../circuit/model.js';
import { identityOf } from '../../claim.js';
import type { Edit, Finding, Fix } from '../../source.js';
import { editsOf } from './edits.js';
import { titleOf } from './repair-title.js';
import { searchSteps, type SearchOptions } from './search.js';
import { getOrCreate } from '../../collections.js';

export { usualWork, type SearchOptions } from './search.js';

/** A change of joints that was tried: the circuit that its edits give was checked whole. */
export interface Repair extends Fix {
  /** The findings that are gone with it. */
  readonly cures: readonly Finding[];
  /** Errors and warnings that stay, all of them found before. */
  readonly left: readonly Finding[];
  /** What it leads to: the circuit as lowering makes it of the edited text, but for places in the text. */
  readonly circuit: Circuit;
}

/**
 * Repairs of a circuit, that which leaves least and is likeliest first; computed once for all of its findings. A generator, so that a host can do
 * other things between its steps (some milliseconds each) or leave it; the value returned at the end is the list.
 */
export function* repairSteps(circuit: AnalysedCircuit, options: SearchOptions = {}): Generator<undefined, readonly Repair[]> {
  if (circuit.isLibrary) return [];
  const { cures } = yield* searchSteps(circuit, options);
  return cures.flatMap(({ changes, circuit: made, cured, left }): readonly Repair[] => {
    const edits = editsOf(circuit, changes);
    return edits === undefined
      ? []
      : [{ title: titleOf(circuit, changes, cured, left), edits, cures: cured, left, circuit: made }];
  });
}

/** The same in one go. `options.work` bounds the work, whatever the circuit. */
export function repairs(circuit: AnalysedCircuit, options: SearchOptions = {}): readonly Repair[] {
  const steps = repairSteps(circuit, options);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Fixes offered for one finding, at most. */
const mostFixes = 3;

/** The findings with the repairs that cure them before their own fixes, the likeliest first; those that come to the same text once. */
export function withRepairs(findings: readonly Finding[], found: readonly Repair[]): readonly Finding[] {
  const curing = new Map<string, Set<Repair>>();
  for (const repair of found) {
    for (const key of repair.cures.map(findingKey)) getOrCreate(curing, key, () => new Set()).add(repair);
  }
  return findings.map((finding) => {
    const own = [...(curing.get(findingKey(finding)) ?? [])].slice(0, mostFixes);
    if (own.length === 0) return finding;
    const fixes = own.map(({ title, edits }): Fix => ({ title, edits }));
    const known = new Set(fixes.map(({ edits }) => keyOf(edits)));
    return { ...finding, fixes: [...fixes, ...finding.fixes.filter(({ edits }) => !known.has(keyOf(edits)))] };
  });
}

/** Equal for the same finding, read again. */
function findingKey({ claim, range: { uri, start } }: Finding): string {
  return JSON.stringify([identityOf(claim), uri, start.line, start.character]);
}

function keyOf(edits: readonly Edit[]): string {
  return edits
    .map(({ range: { uri, start, end }, text }) => JSON.stringify([uri, start, end, text.trim()]))
    .sort()
    .join();
}
