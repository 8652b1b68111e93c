/** The search for changes that mend a circuit: single ones, and pairs where no single one serves. */
import type { Circuit } from '../../circuit/model.js';
import { jointClasses } from '../../electrics/index.js';
import type { Finding } from '../../source.js';
import { rewired } from './change.js';
import { editsOf } from './edits.js';
import {
  createStart,
  farFetched,
  isSpent,
  screened,
  verified,
  type Budget,
  type Cure,
  type Start,
  type Tried,
} from './examine.js';
import { isSmall } from './focus.js';
import { createScreen, type Wanting } from './screen.js';
import { marksOf } from './usage.js';
import { faultsOf, isCurable } from './weigh.js';

export interface SearchOptions {
  /** Circuits looked at, at most; one that is checked whole counts for 500. 40,000 where nothing is said. */
  readonly steps?: number;
  /** Repairs that leave nothing wanted, 4 where nothing is said. */
  readonly most?: number;
  /** False to leave pairs out. */
  readonly pairs?: boolean;
  /** Asked between the steps: true where there is no more time, and what has been found by then is the answer. */
  readonly isOver?: () => boolean;
}

const usualSteps = 40_000;
const usualMost = 4;
/** Changes that mend a part of it are taken as the first of a pair, so many of them. */
const mostFirst = 8;
/** With two changes a great deal can be made to hold: what they lead to must look no odder than what was there. */
const pairMarks = 0.5;

export interface Searched {
  /** Errors and warnings of the circuit as it is. */
  readonly before: readonly Finding[];
  /** What would cure some of them, that which leaves least first. */
  readonly cures: readonly Cure[];
}

/** Yields now and then, so that a host can answer between, or leave it. */
export function* searchSteps(circuit: Circuit, options: SearchOptions = {}): Generator<undefined, Searched> {
  const before = faultsOf(circuit);
  if (!before.some(isCurable)) return { before, cures: [] };
  const most = options.most ?? usualMost;
  const budget: Budget = { limit: options.steps ?? usualSteps, steps: 0, isOver: options.isOver ?? (() => false) };
  const start = createStart(circuit, createScreen(circuit), before);
  const singles: Cure[] = [];
  // What lies around the findings is asked first; where that serves, the rest need not be asked.
  for (const ring of start.focus.rings) {
    singles.push(...(yield* verified(start, yield* screened(start, budget, 0, ring), budget, most)));
    if (isServed(before, singles) || isSpent(budget)) break;
  }
  const isEnough = isServed(before, singles) || isSpent(budget) || options.pairs === false || !isSmall(circuit);
  const pairs = isEnough ? [] : yield* searchPairs(start, budget, most);
  return { before, cures: ranked([...singles, ...pairs]) };
}

/** True where something cures each finding and leaves nothing. */
function isServed(before: readonly Finding[], cures: readonly Cure[]): boolean {
  return before
    .filter(isCurable)
    .every((finding) => cures.some(({ cured, left }) => cured.includes(finding) && left.every((one) => !isCurable(one))));
}

/** Repairs that come to the same, at most. */
const mostAlike = 2;

/** Those that leave least first, then the likeliest. Far-fetched ones beside a good one are dropped. */
function ranked(cures: readonly Cure[]): readonly Cure[] {
  const ordered = [...cures].sort((a, b) => a.left.length - b.left.length || a.cost - b.cost);
  const counts = new Map<string, number>();
  return ordered.filter(({ circuit, cost, left }) => {
    if (cost > Math.min(...ordered.filter((other) => other.left.length <= left.length).map((other) => other.cost)) + farFetched)
      return false;
    const key = jointClasses(circuit).of.join();
    const count = (counts.get(key) ?? 0) + 1;
    counts.set(key, count);
    return count <= mostAlike;
  });
}

/** The best of those changes that mend a part, each followed by what mends the rest. */
function* searchPairs(start: Start, budget: Budget, most: number): Generator<undefined, readonly Cure[]> {
  const { circuit, screen, before, base } = start;
  const partial = (yield* screened(start, budget, base.claims))
    .filter(({ wanting }) => badness(wanting) < badness(base))
    .sort((a, b) => badness(a.wanting) - badness(b.wanting) || a.cost - b.cost);
  const usual = marksOf(circuit, start.folding.classes([])) + pairMarks;
  const cures: Cure[] = [];
  for (const first of distinct(partial).slice(0, mostFirst)) {
    if (isSpent(budget)) break;
    const next = createStart(rewired(circuit, [first.change]), screen, before);
    for (const cure of yield* verified(next, yield* screened(next, budget, 0), budget, 1)) {
      const changes = [first.change, ...cure.changes];
      if (marksOf(cure.circuit, jointClasses(cure.circuit).of) > usual) continue;
      if (editsOf(circuit, changes) !== undefined) cures.push({ ...cure, changes, cost: first.change.cost + cure.cost });
    }
    if (cures.filter(({ left }) => left.length === 0).length >= most) break;
  }
  return cures;
}

function badness({ claims, silence, loose }: Wanting): number {
  return claims + 2 * silence + 2 * loose;
}

/** Of those that mend as much, a few of the likeliest: the others most often come to the same. */
function distinct(tried: readonly Tried[]): readonly Tried[] {
  const counts = new Map<number, number>();
  return tried.filter(({ wanting }) => {
    const count = (counts.get(badness(wanting)) ?? 0) + 1;
    counts.set(badness(wanting), count);
    return count <= 4;
  });
}
