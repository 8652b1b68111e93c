/** Repairs: the wire to move, exchange, add or take out so that what is expected holds and nothing is found any more. */
import { lugById, type AnalysedCircuit, type Circuit } from '../../circuit/model.js';
import { identityOf } from '../../claim.js';
import { getOrCreate } from '../../collections.js';
import type { Edit, Finding, Fix } from '../../source.js';
import type { Change } from './change.js';
import { confidenceOfFirst } from './confidence.js';
import { editsOf } from './edits.js';
import type { Cure } from './examine.js';
import { titleOf } from './repair-title.js';
import { searchSteps, type SearchOptions } from './search.js';
import { farEnd } from './wiring.js';

export { usualWork, type SearchOptions } from './search.js';

/** A change of joints that was tried: the circuit that its edits give was checked whole. */
export interface Repair extends Fix {
  /** The findings that are gone with it. */
  readonly cures: readonly Finding[];
  /** Its changes, one or two, each with those of `cures` that are gone once it and those before it are made. */
  readonly steps: readonly RepairStep[];
  /** Errors and warnings that stay, all of them found before. */
  readonly left: readonly Finding[];
  /** What it leads to: the circuit as lowering makes it of the edited text, but for places in the text. */
  readonly circuit: Circuit;
}

export interface RepairStep {
  readonly cures: readonly Finding[];
  /** The lugs that it connects or parts, by label. */
  readonly lugs: ReadonlySet<string>;
}

/** A text that can't be read whole is not rewired: what seems to be missing may be in the statement that can't be read. */
export function canBeRewired({ problems }: Circuit): boolean {
  return !problems.some(({ severity }) => severity === 'error');
}

/**
 * Repairs of a circuit, that which leaves least and is likeliest first; computed once for all of its findings. A generator, so that a host can do
 * other things between its steps (some milliseconds each) or leave it; the value returned at the end is the list.
 */
export function* repairSteps(circuit: AnalysedCircuit, options: SearchOptions = {}): Generator<undefined, readonly Repair[]> {
  if (circuit.isLibrary) return [];
  const { cures, isOnly } = yield* searchSteps(circuit, options);
  return cures.flatMap((cure, index): readonly Repair[] => {
    const { changes, cured, left } = cure;
    const edits = editsOf(circuit, changes);
    if (edits === undefined) return [];
    const title = titleOf(circuit, changes, cured, left);
    const confidence = index === 0 ? confidenceOfFirst(circuit, cure, isOnly) : 'possible';
    return [{ title, edits, confidence, cures: cured, steps: stepsOf(circuit, cure), left, circuit: cure.circuit }];
  });
}

function stepsOf(circuit: AnalysedCircuit, { changes, cured, curedByFirst = [] }: Cure): readonly RepairStep[] {
  const early = new Set(changes.length > 1 ? curedByFirst : []);
  return changes.map((change, index) => {
    const isLast = index === changes.length - 1;
    return { cures: cured.filter((finding) => isLast !== early.has(finding)), lugs: lugsOf(circuit, change) };
  });
}

function lugsOf(circuit: AnalysedCircuit, { moves, removes, adds }: Change): ReadonlySet<string> {
  const lugs = [
    ...moves.flatMap(({ mention, to }) => [mention.lug, to, ...mention.ends.map((end) => farEnd(circuit, end))]),
    ...(removes === undefined ? [] : [removes.a, removes.b]),
    ...(adds ?? []),
  ];
  return new Set(lugs.map((lug) => lugById(circuit, lug).label));
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

/**
 * The findings with the repairs that cure them before their own fixes, the likeliest first; those that come to the same text once. Of two changes
 * only where no single one cures the finding.
 */
export function withRepairs(findings: readonly Finding[], found: readonly Repair[]): readonly Finding[] {
  const repairsOf = createRepairLookup(found);
  return findings.map((finding) => {
    const own = repairsOf(finding).slice(0, mostFixes);
    if (own.length === 0) return finding;
    const fixes = own.map(({ title, edits, confidence }): Fix => ({ title, edits, confidence }));
    const known = new Set(fixes.map(({ edits }) => keyOf(edits)));
    return { ...finding, fixes: [...fixes, ...finding.fixes.filter(({ edits }) => !known.has(keyOf(edits)))] };
  });
}

/** The repairs that a finding is offered, the likeliest first. */
export function createRepairLookup(found: readonly Repair[]): (finding: Finding) => readonly Repair[] {
  const curing = new Map<string, Set<Repair>>();
  for (const repair of found) {
    for (const key of repair.cures.map(findingKey)) getOrCreate(curing, key, () => new Set()).add(repair);
  }
  return (finding) => {
    const all = [...(curing.get(findingKey(finding)) ?? [])];
    const single = all.filter(({ steps }) => steps.length === 1);
    return single.length > 0 ? single : all;
  };
}

/** Equal for the same finding, read again. */
export function findingKey({ claim, range: { uri, start } }: Finding): string {
  return JSON.stringify([identityOf(claim), uri, start.line, start.character]);
}

function keyOf(edits: readonly Edit[]): string {
  return edits
    .map(({ range: { uri, start, end }, text }) => JSON.stringify([uri, start, end, text.trim()]))
    .sort()
    .join();
}
