/** The single changes of one circuit, tried: cheap questions to all of them, the whole of the checks to those that answer well. */
import { lugById, type AnalysedCircuit, type Circuit, type LugId } from '../../circuit/model.js';
import type { Finding } from '../../source.js';
import { groupBy } from '../../collections.js';
import { candidates } from './candidates.js';
import { rewired, type Change } from './change.js';
import { anywhere, createFocus, isSmall, neighbourhood, type Focus, type Ring } from './focus.js';
import { rolesOf, type Role } from '../../roles/index.js';
import { createFolding, type Folding } from './folding.js';
import type { Asked } from './kept-answers.js';
import { createKnown, type Known } from './known.js';
import { createMarked, type Marked } from './marked.js';
import type { Heard, CandidateEvaluator, Shortfall } from './candidate-evaluator.js';
import { marksByPart, marksOnCloseLook } from './usage.js';
import { curesOf, failedClaims, isCurable, isHeard, weigh, type Weighed } from './weigh.js';
import { farEnd, isLead, jointOf, wiringOf } from './wiring.js';

/** Units of work after which what has answered well is checked whole, before more is asked. */
const portion = 200_000_000;
/** Circuits looked at for odd uses, at most; so few of a very large one that these looks stay at about as much as 480,000 of its things. */
const mostTried = 600;
const itemsLookedAt = 480_000;
/** Circuits of a large one that are solved without any sign that they are better, at most for each kind of change. */
const mostHidden = 60;
/** Of these so many are looked at for odd uses. */
const mostLookedAt = 320;
/** A repair that is so much less likely than a good one is not offered beside it. */
export const farFetched = 1.8;
/**
 * At most so many circuits are asked whether they cure anything, kept, and checked whole; and how much dearer than a good one is still asked. A large
 * circuit takes long to check, so that fewer are.
 */
const efforts = {
  small: { asked: 200, hopeful: 40, weighed: 16, margin: farFetched },
  large: { asked: 160, hopeful: 16, weighed: 10, margin: 1.2 },
};
/** For each cure that is checked whole so many changes at most, since what cures one thing often brings another, and that is seen soon. */
const attempts = 4;
/** A change of which nothing is heard is asked after those of which something is. */
const unseen = 0.5;
/** A setting that stays silent: with every switch off it may have to. */
const silentSetting = 0.3;
/** A wire that is moved to where it does nothing should rather be taken out. */
const idleWire = 2;

/** A circuit to start from, with what it is to do better than. */
export interface Start {
  readonly circuit: AnalysedCircuit;
  readonly folding: Folding;
  readonly evaluator: CandidateEvaluator;
  readonly base: Shortfall;
  readonly focus: Focus;
  /** Marks against the circuit as it is, by part. */
  readonly usual: Float64Array;
  /** What its parts are for. */
  readonly roles: readonly Role[];
  /** What is found in the circuit as it was read. */
  readonly before: readonly Finding[];
  /** The same, to be looked up. */
  readonly known: Known;
}

export interface Tried {
  readonly change: Change;
  readonly shortfall: Shortfall;
  /** Its cost, and the marks against what it leads to. */
  readonly cost: number;
}

export interface Cure extends Weighed {
  readonly changes: readonly Change[];
  /** Of two changes: what the first cures by itself. */
  readonly curedByFirst?: readonly Finding[];
  readonly circuit: AnalysedCircuit;
  readonly cost: number;
}

/** A cure by the rules that reported something, with the claims that fail in it. */
interface Hopeful extends Cure {
  readonly failed: () => readonly Finding[];
}

/** Without `asked` for a circuit that is changed already. */
export function createStart(
  circuit: AnalysedCircuit,
  evaluator: CandidateEvaluator,
  before: readonly Finding[],
  asked?: Asked,
): Start {
  const folding = createFolding(circuit);
  const base = evaluator.measure(folding, folding.classes([]), asked ?? evaluator.answers(folding, () => circuit));
  const classes = folding.classes([]).slice();
  const focus = createFocus(circuit, before, classes);
  const roles = rolesOf(circuit);
  return {
    circuit,
    folding,
    evaluator,
    base,
    focus,
    usual: marksByPart(circuit, classes, roles),
    roles,
    before,
    known: createKnown(before, circuit.analysis.work),
  };
}

export interface Screening {
  /** The next of those changes that answer well, the likeliest first; undefined where all have been asked. */
  next(): Generator<undefined, readonly Tried[] | undefined>;
}

/**
 * Asks the changes of one ring, a portion of work at a time, so that what answers well in the first is checked whole before the rest is asked. Those
 * answer well after which no more than `most` claims fail, nothing else being worse than before.
 */
export function createScreening(start: Start, most: number, ring: Ring = anywhere): Screening {
  const { circuit, folding, evaluator, base } = start;
  const classes = folding.classes([]).slice();
  const near = neighbourhood(circuit, start.before, classes);
  const trial = createTrial(start, most);
  // A position that is silent at another jack is not asked.
  const showsNothing = base.claims + base.silence + base.loose === 0;
  const isHidden = base.claims === 0 && start.before.some((finding) => isCurable(finding) && (showsNothing || !isHeard(finding)));
  let heard: Heard | undefined;
  let waiting: readonly Change[] | undefined;
  let at = 0;
  const startNext = (): readonly Change[] => {
    folding.classes([]);
    heard = evaluator.hear(
      folding,
      evaluator.answers(folding, () => circuit),
    );
    return candidates(wiringOf(circuit), classes, ring);
  };
  return {
    *next() {
      waiting ??= startNext();
      if (at >= waiting.length) return undefined;
      const tried: Tried[] = [];
      /** True where it is better by what is heard. */
      const take = (change: Change, isNear: boolean): boolean => {
        const answered = trial(change, isNear ? 'near' : heard);
        if (answered === undefined) return false;
        if (answered.isBetter || isNear) tried.push(answered.tried);
        return answered.isBetter;
      };
      const put: Change[] = [];
      const until = spentIn(circuit) + portion;
      for (; spentIn(circuit) < until; at++) {
        const change = waiting[at];
        if (change === undefined) break;
        if (at % 64 === 63) yield;
        // What does not show in what is asked must at least be where something is found.
        const isNear = isHidden && touches(circuit, change, near);
        if (!take(change, isNear && isSmall(circuit)) && isNear && !isSmall(circuit)) put.push(change);
      }
      // In a large circuit each is dear to solve: of those that show nowhere else the likeliest are.
      for (const change of likeliest(start, put)) {
        yield;
        take(change, true);
      }
      return cheapest(tried).slice(0, looks(circuit, mostTried));
    },
  };
}

interface Answered {
  readonly tried: Tried;
  readonly isBetter: boolean;
}

/**
 * Asks one change, whole where it is near what is found and else as long as it may be better than what is heard; nothing where it does not answer
 * well. To be made while the classes of no change are folded.
 */
function createTrial(start: Start, most: number): (change: Change, than: Heard | 'near' | undefined) => Answered | undefined {
  const { circuit, folding, evaluator, base } = start;
  const baseKey = folding.classKey();
  const seen = new Map<number, Shortfall | 'worse'>();
  const limit = { ...base, claims: most };
  const crowded = new Set(start.before.flatMap(({ rule, subjects }) => (rule === 'crowded-lug' ? subjects : [])));
  return (change, than) => {
    const isNear = than === 'near';
    const folded = folding.classes([change]);
    const key = folding.classKey();
    if (key === baseKey && !relieves(circuit, change, crowded)) return undefined;
    let made: AnalysedCircuit | undefined;
    const make = (): AnalysedCircuit => (made ??= rewired(circuit, [change]));
    let shortfall = seen.get(key);
    // What was given up for want of a sign is looked at whole where it is near.
    if (shortfall === undefined || (shortfall === 'worse' && isNear && !isSmall(circuit))) {
      const asked = evaluator.answers(folding, make);
      shortfall = evaluator.within(folding, folded, asked, limit, isNear ? undefined : than) ?? 'worse';
      seen.set(key, shortfall);
    }
    if (shortfall === 'worse') return undefined;
    const isLouder = shortfall.silence < base.silence;
    const isBetter = shortfall.claims < base.claims || isLouder || shortfall.loose < base.loose;
    const cost = change.cost + silentSetting * shortfall.silence + shortfall.loose + (isBetter ? 0 : unseen);
    return { tried: { change, shortfall, cost }, isBetter };
  };
}

function relieves(circuit: Circuit, change: Change, labels: ReadonlySet<string>): boolean {
  return change.kind === 'move' && labels.has(lugById(circuit, change.moves[0].mention.lug).label);
}

export function cheapest(tried: readonly Tried[]): readonly Tried[] {
  return [...tried].sort((a, b) => a.cost - b.cost);
}

/** What was tried, the cheapest first, in the order of the costs with the marks against what each leads to. */
export function markedOdd(start: Start, tried: readonly Tried[]): Marked<Tried> {
  // At best a change takes all marks from what findings have to do with.
  const most = start.usual.reduce((sum, mark, index) => (isForgiven(start, index) ? sum + mark : sum), 0);
  return createMarked(tried, ({ change }) => odder(start, change), -most);
}

function spentIn({ analysis }: AnalysedCircuit): number {
  return analysis.work?.spent ?? 0;
}

/** How many circuits are looked at for odd uses: `most`, or as few as a circuit of this size allows. */
function looks({ lugs, joints, elements }: Circuit, most: number): number {
  const all = itemsLookedAt / (lugs.length + joints.length + elements.length);
  return Math.max(mostHidden, Math.min(most, Math.floor((all * most) / mostTried)));
}

function likeliest(start: Start, changes: readonly Change[]): readonly Change[] {
  // They come in the order of their costs.
  const looked = changes
    .slice(0, looks(start.circuit, mostLookedAt))
    .map((change) => ({ change, cost: change.cost + odder(start, change) }))
    .sort((a, b) => a.cost - b.cost);
  // Of what there is little of each is asked: there are hundreds of ways to move an end, and a few to turn a part round.
  const kinds = [...groupBy(looked, ({ change }) => change.kind).values()];
  return kinds.flatMap((same) => same.slice(0, mostHidden).map(({ change }) => change));
}

/** Marks that a change brings, less those that it takes from what findings have to do with: that it makes something else less odd is no merit. */
function odder(start: Start, change: Change): number {
  const { circuit, folding, usual, roles } = start;
  const marks = marksByPart(rewired(circuit, [change]), folding.classes([change]), roles);
  return marks.reduce((sum, mark, index) => {
    const more = mark - (usual[index] ?? 0);
    return more > 0 || isForgiven(start, index) ? sum + more : sum;
  }, 0);
}

/** True where a mark that a change takes away counts. The last mark is the whole circuit's. */
function isForgiven({ circuit, focus }: Start, index: number): boolean {
  const part = circuit.parts[index];
  return part === undefined || focus.isNear(part.id);
}

/**
 * Hands on those that cure something and bring nothing, until so many of them leave nothing. Where the likeliest bring something after all, those
 * behind them are asked in their turn.
 */
export function* verify(
  start: Start,
  tried: readonly Tried[],
  most: number,
  keep: (cure: Cure) => void,
): Generator<undefined, void> {
  const effort = isSmall(start.circuit) ? efforts.small : efforts.large;
  const asked = markedOdd(start, tried);
  let left = attempts * effort.weighed;
  for (let at = 0; left > 0;) {
    const { hopeful, next } = yield* hopefulAmong(start, asked, at);
    if (next === at) return;
    at = next;
    if (yield* weighAll(start, hopeful.slice(0, left), most, keep)) return;
    left -= hopeful.length;
  }
}

/** Those from a place on that cure something by the rules that reported it, the best first, and where the rest begins. */
function* hopefulAmong(
  start: Start,
  asked: Marked<Tried>,
  from: number,
): Generator<undefined, { readonly hopeful: readonly Hopeful[]; readonly next: number }> {
  const { circuit, known } = start;
  const hopeful: Hopeful[] = [];
  const effort = isSmall(circuit) ? efforts.small : efforts.large;
  let next = from;
  for (; next < effort.asked; next++) {
    const one = yield* asked.at(next);
    if (one === undefined) break;
    const { change, cost } = one;
    const whole = hopeful.filter(({ left }) => left.length === 0);
    if ((isSmall(circuit) ? hopeful : whole).length >= effort.hopeful) break;
    const good = Math.min(...whole.map((one) => one.cost));
    if (cost > good + effort.margin) break;
    yield;
    const made = rewired(circuit, [change]);
    const failed = failedIn(start, change, made);
    const weighed = yield* curesOf(made, known, failed);
    if (weighed === undefined) continue;
    // A crowded lug is relieved by another lug of its net, not by another net.
    if (weighed.cured.every(({ rule }) => rule === 'crowded-lug') && !isAlike(start, change)) continue;
    hopeful.push({ changes: [change], circuit: made, failed, ...weighed, cost: cost + (isIdle(start, change) ? idleWire : 0) });
  }
  hopeful.sort((a, b) => a.left.length - b.left.length || a.cost - b.cost);
  return { hopeful, next };
}

/** The claims that fail in a changed circuit, judged once. */
function failedIn({ folding, evaluator }: Start, change: Change, made: AnalysedCircuit): () => readonly Finding[] {
  let known: readonly Finding[] | undefined;
  return () => {
    if (known !== undefined) return known;
    folding.classes([change]);
    return (known = failedClaims(made, evaluator.answers(folding, () => made).heard));
  };
}

/** Checks them by all rules; true where one of them leaves nothing. */
function* weighAll(
  { circuit, known, roles }: Start,
  hopeful: readonly Hopeful[],
  most: number,
  keep: (cure: Cure) => void,
): Generator<undefined, boolean> {
  const { margin, weighed } = isSmall(circuit) ? efforts.small : efforts.large;
  const cures: Cure[] = [];
  const whole = (): readonly Cure[] => cures.filter(({ left }) => left.length === 0);
  for (const { failed, ...cure } of hopeful) {
    if (whole().length >= most || cures.length === weighed) break;
    // What is dearer than a good one by more than the last look can change is not looked at.
    if (whole().some(({ cost }) => cost + margin < cure.cost)) break;
    yield;
    const outcome = yield* weigh(cure.circuit, known, failed);
    if (outcome === undefined) continue;
    const kept = { ...cure, ...outcome, cost: cure.cost + marksOnCloseLook(cure.circuit, roles) };
    cures.push(kept);
    keep(kept);
  }
  return whole().length > 0;
}

/** True where a change leaves every lug on its net. */
function isAlike({ folding }: Start, change: Change): boolean {
  const keys = [[], [change]].map((changes) => {
    folding.classes(changes);
    return folding.classKey();
  });
  return keys[0] === keys[1];
}

/** True for a wire that, where it is moved to, does nothing that its absence would not do. */
function isIdle({ circuit, folding, evaluator }: Start, change: Change): boolean {
  if (change.kind !== 'move') return false;
  const [end, ...others] = change.moves[0].mention.ends;
  if (end === undefined || others.length > 0) return false;
  const joint = jointOf(circuit, end);
  if (isLead(circuit, joint)) return false;
  const gone: Change = { kind: 'remove', moves: [], removes: joint, cost: 0 };
  const [moved, without] = [change, gone].map((one) => evaluator.keys(folding, folding.classes([one])));
  return moved === without;
}

function touches(circuit: Circuit, { moves, removes, adds }: Change, near: ReadonlySet<LugId>): boolean {
  if (moves.some(({ mention, to }) => near.has(mention.lug) || near.has(to))) return true;
  if (removes !== undefined && (near.has(removes.a) || near.has(removes.b))) return true;
  if (adds?.some((lug) => near.has(lug)) === true) return true;
  return moves.some(({ mention }) => mention.ends.some((end) => near.has(farEnd(circuit, end))));
}
