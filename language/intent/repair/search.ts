/** The search for changes that repair a circuit: single ones, and pairs where no single one is enough. */
import { analysed, type AnalysedCircuit } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { jointClasses } from '../../electrics/index.js';
import type { Finding } from '../../source.js';
import { createWork, untilSpent, type Work } from '../../work.js';
import { rewired } from './change.js';
import { editsOf } from './edits.js';
import {
  cheapest,
  createScreening,
  createStart,
  farFetched,
  markedOdd,
  verify,
  type Cure,
  type Screening,
  type Start,
  type Tried,
} from './examine.js';
import { isSmall } from './focus.js';
import { createKnown } from './known.js';
import { createCandidateEvaluator, type Shortfall } from './candidate-evaluator.js';
import type { Marked } from './marked.js';
import { marksOf } from './usage.js';
import { faultsOf, isCurable } from './weigh.js';

export interface SearchOptions {
  /** What the search may do, to be asked afterwards whether it was enough; `usualWork` where nothing is given. */
  readonly work?: Work;
  /** Repairs that leave nothing wanted, 8 where nothing is said: so many are looked at closely. */
  readonly most?: number;
  /** False to leave pairs out. */
  readonly pairs?: boolean;
}

/** Units that a search may spend where nothing is said: six to eleven seconds of processor time, as the machine is. Of the searches of `npm run bench:repair` nearly all need less. */
export const usualWork = 600_000_000;
const usualMost = 8;
/** How many changes that cure a part of the faults are tried as the first of a pair. */
const mostFirst = 8;
/** With two changes a great deal can be made to hold: what they lead to must look no odder than what was there. */
const pairMarks = 0.5;

export interface Searched {
  /** Errors and warnings of the circuit as it is. */
  readonly before: readonly Finding[];
  /** What would cure some of them, that which leaves least first. */
  readonly cures: readonly Cure[];
  /** True where there is one repair, and the search came to its end. */
  readonly isOnly: boolean;
}

/**
 * Yields now and then, so that a host can answer between, or leave it. What is done does not depend on the limit of the work, only how far it gets:
 * with a larger limit the same is found, and more.
 */
export function* searchSteps(circuit: AnalysedCircuit, options: SearchOptions = {}): Generator<undefined, Searched> {
  // A changed circuit isn't asked which of its `allow` lines set nothing aside.
  const before = faultsOf(circuit).filter(({ rule }) => rule !== 'idle-allow');
  if (!before.some(isCurable)) return { before, cures: [], isOnly: false };
  const cures: Cure[] = [];
  const work = options.work ?? createWork(usualWork);
  yield* untilSpent(search({ circuit, before, options, work }, (cure) => cures.push(cure)));
  // What is asked of a repaired circuit later is charged to nobody.
  const isOnly = cures.length === 1 && !work.isSpent;
  return { before, cures: ranked(cures).map((cure) => ({ ...cure, circuit: analysed(cure.circuit) })), isOnly };
}

interface Task {
  readonly circuit: AnalysedCircuit;
  readonly before: readonly Finding[];
  readonly options: SearchOptions;
  readonly work: Work;
}

function* search({ circuit, before, options, work }: Task, keep: (cure: Cure) => void): Generator<undefined, void> {
  const most = options.most ?? usualMost;
  const tried = analysed(circuit, { work });
  const evaluator = createCandidateEvaluator(tried, factsOf(circuit));
  const start = createStart(tried, evaluator, before, evaluator.read);
  const singles: Cure[] = [];
  const keepSingle = (cure: Cure): void => {
    singles.push(cure);
    keep(cure);
  };
  // What lies around the findings is asked first; where that serves, the rest need not be asked.
  for (const ring of start.focus.rings) {
    const screening = createScreening(start, 0, ring);
    for (let next = yield* screening.next(); next !== undefined; next = yield* screening.next()) {
      yield* verify(start, next, most, keepSingle);
      if (isServed(before, singles)) return;
    }
  }
  if (options.pairs !== false && isSmall(circuit)) yield* searchPairs(start, most, keep);
}

/** True where something cures each finding and leaves nothing. */
function isServed(before: readonly Finding[], cures: readonly Cure[]): boolean {
  const cured = new Set(cures.filter(({ left }) => !left.some(isCurable)).flatMap((cure) => cure.cured));
  return before.every((finding) => !isCurable(finding) || cured.has(finding));
}

/** A wire that can be spared altogether was drawn twice: it need not be moved anywhere. */
const spareWire = 1.2;

function behindRemovals(cures: readonly Cure[]): readonly Cure[] {
  const spared = new Set(
    cures.flatMap(({ changes: [change, ...more], left }) =>
      change?.kind === 'remove' && more.length === 0 && !left.some(isCurable) ? [change.removes.id] : [],
    ),
  );
  return cures.map((cure) => {
    const [change, ...more] = cure.changes;
    const moved = change?.kind === 'move' && more.length === 0 ? change.moves[0].mention.ends.map(({ joint }) => joint) : [];
    return moved.some((joint) => spared.has(joint)) ? { ...cure, cost: cure.cost + spareWire } : cure;
  });
}

/** Repairs that come to the same, at most. */
const mostAlike = 2;

/** Those that leave least first, then the likeliest. Far-fetched ones beside a good one are dropped. */
function ranked(cures: readonly Cure[]): readonly Cure[] {
  const ordered = [...behindRemovals(cures)].sort((a, b) => a.left.length - b.left.length || a.cost - b.cost);
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

/** The best of the changes that cure a part, each followed by a change that cures the rest. */
function* searchPairs(start: Start, most: number, keep: (cure: Cure) => void): Generator<undefined, void> {
  const { circuit, evaluator, before, base } = start;
  const partial = (yield* inOrder(markedOdd(start, yield* allOf(createScreening(start, base.claims)))))
    .filter(({ shortfall }) => badness(shortfall) < badness(base))
    .sort((a, b) => badness(a.shortfall) - badness(b.shortfall) || a.cost - b.cost);
  const usual = marksOf(circuit, start.folding.classes([]), start.roles) + pairMarks;
  let whole = 0;
  for (const first of distinct(partial).slice(0, mostFirst)) {
    const next = createStart(rewired(circuit, [first.change]), evaluator, before);
    let curedByFirst: readonly Finding[] | undefined;
    const keepPair = (cure: Cure): void => {
      const changes = [first.change, ...cure.changes];
      if (marksOf(cure.circuit, jointClasses(cure.circuit).of, start.roles) > usual || editsOf(circuit, changes) === undefined)
        return;
      if (cure.left.length === 0) whole++;
      keep({
        ...cure,
        changes,
        curedByFirst: (curedByFirst ??= goneFrom(before, next.circuit)),
        cost: first.change.cost + cure.cost,
      });
    };
    yield* verify(next, yield* allOf(createScreening(next, 0)), 1, keepPair);
    if (whole >= most) break;
  }
}

/** What is no longer found in a changed circuit. */
function goneFrom(before: readonly Finding[], circuit: AnalysedCircuit): readonly Finding[] {
  const still = createKnown(faultsOf(circuit), circuit.analysis.work);
  return before.filter((finding) => !still.isStill(finding));
}

/** All portions of a screening together, the cheapest first. */
function* allOf(screening: Screening): Generator<undefined, readonly Tried[]> {
  const all: Tried[] = [];
  for (let next = yield* screening.next(); next !== undefined; next = yield* screening.next()) all.push(...next);
  return cheapest(all);
}

function* inOrder(marked: Marked<Tried>): Generator<undefined, readonly Tried[]> {
  const all: Tried[] = [];
  for (let next = yield* marked.at(0); next !== undefined; next = yield* marked.at(all.length)) all.push(next);
  return all;
}

function badness({ claims, silence, loose }: Shortfall): number {
  return claims + 2 * silence + 2 * loose;
}

/** Of those that cure equally much, a few of the likeliest: the others are usually equivalent. */
function distinct(tried: readonly Tried[]): readonly Tried[] {
  const counts = new Map<number, number>();
  return tried.filter(({ shortfall }) => {
    const count = (counts.get(badness(shortfall)) ?? 0) + 1;
    counts.set(badness(shortfall), count);
    return count <= 4;
  });
}
