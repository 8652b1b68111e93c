/** The single changes of one circuit, tried: cheap questions to all of them, the whole of the checks to those that answer well. */
import type { Circuit, LugId } from '../../circuit/model.js';
import type { Finding } from '../../source.js';
import { candidates } from './candidates.js';
import { rewired, type Change } from './change.js';
import { createFolding, type Folding } from './folding.js';
import type { Screen, Wanting } from './screen.js';
import { marksOf, soundMarks } from './usage.js';
import { isCurable, weigh, type Weighed } from './weigh.js';
import { isLead, wiringOf } from './wiring.js';

/** Work done and allowed, counted in circuits looked at; one that is asked what it cures counts for a hundred. */
export interface Budget {
  readonly limit: number;
  steps: number;
}

const askingCost = 100;
/** Circuits asked whether they cure anything, at most. */
const mostAsked = 400;
/** A change far from everything that is found cures it less likely. */
const farAway = 1.5;
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
  const base = screen.ask(folding.classes([]), () => circuit, Infinity);
  return { circuit, folding, screen, base, before };
}

/** Changes after which no more than `most` claims fail, nothing else being worse than before. */
export function* screened(start: Start, budget: Budget, most: number): Generator<undefined, readonly Tried[]> {
  const { circuit, folding, screen, base } = start;
  const seen = new Map<number, Wanting>();
  const near = neighbourhood(start);
  const crowded = new Set(start.before.flatMap(({ rule, subjects }) => (rule === 'crowded-lug' ? subjects : [])));
  const relieves = ({ kind, moves }: Change, labels: ReadonlySet<string>): boolean =>
    kind === 'move' && labels.has(circuit.lugs[moves[0]!.mention.lug]!.label);
  const classes = folding.classes([]);
  const baseKey = folding.classKey(classes);
  const tried: Tried[] = [];
  for (const change of candidates(wiringOf(circuit), classes.slice())) {
    if (budget.steps >= budget.limit) break;
    if (++budget.steps % 64 === 0) yield;
    const folded = folding.classes([change]);
    const key = folding.classKey(folded);
    if (key === baseKey && !relieves(change, crowded)) continue;
    let made: Circuit | undefined;
    const make = (): Circuit => (made ??= rewired(circuit, [change]));
    let wanting = seen.get(key);
    if (wanting === undefined) seen.set(key, (wanting = screen.ask(folded, make, most)));
    if (wanting.claims > most || wanting.silence > base.silence || wanting.loose > base.loose) continue;
    const away = base.claims === 0 && !touches(change, near) ? farAway : 0;
    tried.push({ change, wanting, cost: change.cost + marksOf(make(), folded) + wanting.silence + wanting.loose + away });
  }
  return tried.sort((a, b) => a.cost - b.cost);
}

/** Those that cure something and bring nothing, `most` of them that leave nothing. */
export function* verified(
  start: Start,
  tried: readonly Tried[],
  budget: Budget,
  most: number,
): Generator<undefined, readonly Cure[]> {
  const { circuit, before, base } = start;
  const isBetter = ({ wanting }: Tried): boolean =>
    base.claims > 0 || wanting.silence < base.silence || wanting.loose < base.loose;
  const ordered = [...tried.filter(isBetter), ...tried.filter((one) => !isBetter(one))];
  const cures: Cure[] = [];
  let whole = 0;
  for (const { change, cost } of ordered.slice(0, mostAsked)) {
    if (budget.steps >= budget.limit || whole >= most) break;
    budget.steps += askingCost;
    yield;
    const made = rewired(circuit, [change]);
    const weighed = weigh(made, before);
    if (weighed === undefined || !weighed.cured.some(isCurable)) continue;
    // A crowded lug is relieved by another lug of its net, not by another net.
    if (weighed.cured.every(({ rule }) => rule === 'crowded-lug') && !isAlike(start, change)) continue;
    if (weighed.left.length === 0) whole++;
    const idle = isIdle(start, change) ? idleWire : 0;
    cures.push({ changes: [change], circuit: made, ...weighed, cost: cost + idle + soundMarks(made) });
  }
  return cures;
}

/** True where a change leaves every lug on its net. */
function isAlike({ folding }: Start, change: Change): boolean {
  const before = folding.classKey(folding.classes([]));
  return folding.classKey(folding.classes([change])) === before;
}

/** True for a wire that, where it is moved to, does nothing that its absence would not do. */
function isIdle({ circuit, folding, screen }: Start, change: Change): boolean {
  if (change.kind !== 'move' || change.moves[0]!.mention.ends.length > 1) return false;
  const joint = circuit.joints[change.moves[0]!.mention.ends[0]!.joint]!;
  if (isLead(circuit, joint)) return false;
  const moved = screen.keys(folding.classes([change]), folding);
  return moved === screen.keys(folding.classes([{ kind: 'remove', moves: [], removes: joint, cost: 0 }]), folding);
}

/** Lugs of the parts that findings name, and whatever is joined to them. */
function neighbourhood({ circuit, before, folding }: Start): ReadonlySet<LugId> {
  const subjects = new Set(before.flatMap((finding) => finding.subjects));
  const classes = folding.classes([]);
  const named = circuit.lugs.filter(({ label, part }) => subjects.has(label) || subjects.has(circuit.parts[part]!.name));
  const near = new Set(named.map(({ id }) => classes[id]!));
  return new Set(circuit.lugs.filter(({ id }) => near.has(classes[id]!)).map(({ id }) => id));
}

function touches({ moves, removes, adds }: Change, near: ReadonlySet<LugId>): boolean {
  const lugs = [
    ...moves.flatMap(({ mention, to }) => [mention.lug, to]),
    ...(removes ? [removes.a, removes.b] : []),
    ...(adds ?? []),
  ];
  return lugs.some((lug) => near.has(lug));
}
