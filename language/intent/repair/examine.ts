/** The single changes of one circuit, tried: cheap questions to all of them, the whole of the checks to those that answer well. */
import type { Circuit, LugId } from '../../circuit/model.js';
import type { Finding } from '../../source.js';
import { candidates } from './candidates.js';
import { rewired, type Change } from './change.js';
import { createFolding, type Folding } from './folding.js';
import type { Screen, Wanting } from './screen.js';
import { marksOf, soundMarks } from './usage.js';
import { curesOf, isCurable, isHeard, weigh, type Weighed } from './weigh.js';
import { isLead, wiringOf } from './wiring.js';

/** Work done and allowed, counted in circuits looked at; to be asked what it cures, and to be checked whole, counts for more. */
export interface Budget {
  readonly limit: number;
  steps: number;
}

const askingCost = 30;
const weighingCost = 500;
/** Circuits looked at for odd uses, at most. */
const mostTried = 600;
/** Circuits asked whether they cure anything, those kept of them, and those checked whole, at most. */
const mostAsked = 200;
const mostHopeful = 40;
const mostWeighed = 16;
/** A repair that is so much less likely than a good one is not offered beside it. */
export const farFetched = 2.5;
/** A change of which nothing is heard is asked after those of which something is. */
const unseen = 0.5;
/** A wire that is moved to where it does nothing should rather be taken out. */
const idleWire = 2;

/** A circuit to start from, with what it is to do better than. */
export interface Start {
  readonly circuit: Circuit;
  readonly folding: Folding;
  readonly screen: Screen;
  readonly base: Wanting;
  /** What is found in the circuit as it was read. */
  readonly before: readonly Finding[];
}

export interface Tried {
  readonly change: Change;
  readonly wanting: Wanting;
  /** Its cost, and the marks against what it leads to. */
  readonly cost: number;
}

export interface Cure extends Weighed {
  readonly changes: readonly Change[];
  readonly circuit: Circuit;
  readonly cost: number;
}

export function createStart(circuit: Circuit, screen: Screen, before: readonly Finding[]): Start {
  const folding = createFolding(circuit);
  const base = screen.measure(folding, folding.classes([]), () => circuit);
  return { circuit, folding, screen, base, before };
}

/** Changes after which no more than `most` claims fail, nothing else being worse than before. */
export function* screened(start: Start, budget: Budget, most: number): Generator<undefined, readonly Tried[]> {
  const { circuit, folding, screen, base } = start;
  const seen = new Map<number, Wanting | 'worse'>();
  const near = neighbourhood(start);
  const crowded = new Set(start.before.flatMap(({ rule, subjects }) => (rule === 'crowded-lug' ? subjects : [])));
  const relieves = ({ kind, moves }: Change, labels: ReadonlySet<string>): boolean =>
    kind === 'move' && labels.has(circuit.lugs[moves[0]!.mention.lug]!.label);
  const classes = folding.classes([]).slice();
  const baseKey = folding.classKey();
  const heard = screen.hear(folding, () => circuit);
  const limit = { ...base, claims: most };
  const isHidden = base.claims === 0 && start.before.some((finding) => isCurable(finding) && !isHeard(finding));
  const tried: Tried[] = [];
  for (const change of candidates(wiringOf(circuit), classes)) {
    if (budget.steps >= budget.limit) break;
    if (++budget.steps % 64 === 0) yield;
    // What does not show in what is asked must at least be where something is found.
    const isNear = isHidden && touches(circuit, change, near);
    const folded = folding.classes([change]);
    const key = folding.classKey();
    if (key === baseKey && !relieves(change, crowded)) continue;
    let made: Circuit | undefined;
    const make = (): Circuit => (made ??= rewired(circuit, [change]));
    let wanting = seen.get(key);
    if (wanting === undefined) {
      wanting = screen.within(folding, folded, make, limit, isNear ? undefined : heard) ?? 'worse';
      seen.set(key, wanting);
    }
    if (wanting === 'worse') continue;
    const isBetter = wanting.claims < base.claims || wanting.silence < base.silence || wanting.loose < base.loose;
    if (!isBetter && !isNear) continue;
    const hidden = isBetter ? 0 : unseen;
    tried.push({ change, wanting, cost: change.cost + wanting.silence + wanting.loose + hidden });
  }
  const likely = tried.sort((a, b) => a.cost - b.cost).slice(0, mostTried);
  const marked = likely.map((one) => ({
    ...one,
    cost: one.cost + marksOf(rewired(circuit, [one.change]), folding.classes([one.change])),
  }));
  return marked.sort((a, b) => a.cost - b.cost);
}

/** Those that cure something and bring nothing, so many of them that leave nothing. */
export function* verified(
  start: Start,
  tried: readonly Tried[],
  budget: Budget,
  most: number,
): Generator<undefined, readonly Cure[]> {
  const { circuit, before } = start;
  const hopeful: Cure[] = [];
  for (const { change, cost } of tried.slice(0, mostAsked)) {
    if (budget.steps >= budget.limit || hopeful.length >= mostHopeful) break;
    budget.steps += askingCost;
    yield;
    const made = rewired(circuit, [change]);
    const weighed = curesOf(made, before);
    if (weighed === undefined) continue;
    // A crowded lug is relieved by another lug of its net, not by another net.
    if (weighed.cured.every(({ rule }) => rule === 'crowded-lug') && !isAlike(start, change)) continue;
    hopeful.push({ changes: [change], circuit: made, ...weighed, cost: cost + (isIdle(start, change) ? idleWire : 0) });
  }
  hopeful.sort((a, b) => a.left.length - b.left.length || a.cost - b.cost);
  const cures: Cure[] = [];
  for (const cure of hopeful.slice(0, mostWeighed)) {
    const whole = cures.filter(({ left }) => left.length === 0);
    if (budget.steps >= budget.limit || whole.length >= most) break;
    // What is dearer than a good one by more than the last look can change is not looked at.
    if (whole.some(({ cost }) => cost + farFetched < cure.cost)) break;
    budget.steps += weighingCost;
    yield;
    const weighed = weigh(cure.circuit, before);
    if (weighed !== undefined) cures.push({ ...cure, ...weighed, cost: cure.cost + soundMarks(cure.circuit) });
  }
  return cures;
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
function isIdle({ circuit, folding, screen }: Start, change: Change): boolean {
  if (change.kind !== 'move' || change.moves[0]!.mention.ends.length > 1) return false;
  const joint = circuit.joints[change.moves[0]!.mention.ends[0]!.joint]!;
  if (isLead(circuit, joint)) return false;
  const gone: Change = { kind: 'remove', moves: [], removes: joint, cost: 0 };
  const [moved, without] = [change, gone].map((one) => screen.keys(folding, folding.classes([one])));
  return moved === without;
}

/** Lugs that findings name, or else all lugs of the parts they name, and what is joined to them but for ground. */
function neighbourhood({ circuit, before, folding }: Start): ReadonlySet<LugId> {
  const classes = folding.classes([]);
  const ground = circuit.output === undefined ? -1 : classes[circuit.output.sleeve]!;
  const near = new Set<LugId>();
  for (const { subjects } of before) {
    for (const { id, label, part } of circuit.lugs) {
      if (subjects.includes(label) || subjects.includes(circuit.parts[part]!.name)) near.add(id);
    }
  }
  const nets = new Set([...near].map((lug) => classes[lug]!).filter((net) => net !== ground));
  for (const { id } of circuit.lugs) if (nets.has(classes[id]!)) near.add(id);
  return near;
}

function touches(circuit: Circuit, { moves, removes, adds }: Change, near: ReadonlySet<LugId>): boolean {
  if (moves.some(({ mention, to }) => near.has(mention.lug) || near.has(to))) return true;
  if (removes !== undefined && (near.has(removes.a) || near.has(removes.b))) return true;
  if (adds?.some((lug) => near.has(lug)) === true) return true;
  return moves.some(({ mention }) =>
    mention.ends.some(({ joint, side }) => near.has(circuit.joints[joint]![side === 'a' ? 'b' : 'a'])),
  );
}
