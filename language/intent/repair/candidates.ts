/** The single changes that may repair a circuit, the likeliest first. */
import {
  elementById,
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Lug,
  type LugId,
  type Part,
} from '../../circuit/model.js';
import { polesOf } from '../../electrics/index.js';
import type { Change } from './change.js';
import { anywhere, type Ring } from './focus.js';
import { createLugAffinity } from './lug-affinity.js';
import { moveCost } from './likelihood.js';
import { oddLead } from './usage.js';
import { classOf, farEnd, groundClass, type Mention, type Wiring } from './wiring.js';
import { itemAt } from '../../collections.js';

/**
 * `classes`: the smallest lug of each lug's class as the circuit stands. Lugs of one class are one place to the current, so of all
 * lugs of a class that an end could go to only the likeliest is tried. `ring` chooses those of one ring around what is found.
 */
export function candidates(wiring: Wiring, classes: Int32Array, ring: Ring = anywhere): readonly Change[] {
  const { circuit } = wiring;
  circuit.analysis.work?.charge('rule', circuit.lugs.length + circuit.joints.length);
  chargePairs(wiring, ring);
  const changes = [
    ...moves(wiring, classes, ring),
    ...exchanges(wiring, classes, ring),
    ...turns(wiring, ring),
    ...removals(wiring, ring),
    ...additions(wiring, classes, ring),
    ...ties(wiring, classes, ring),
  ];
  return changes.sort((a, b) => a.cost - b.cost);
}

/**
 * Pays for all pairs of places before the first is looked at: where a ring holds more of them than the budget allows, as in a chain of thousands of
 * lugs, the search ends here and not after minutes.
 */
function chargePairs({ circuit, mentions, nameable }: Wiring, ring: Ring): void {
  const ends = countByLevel(mentions, (mention) => levelOf(circuit, mention, ring));
  const lugs = countByLevel(nameable, ({ id }) => ring.level(id));
  const pairs = (some: readonly number[], others: readonly number[]): number =>
    some.reduce((sum, a, low) => sum + others.reduce((row, b, high) => row + (ring.holds(low, high) ? a * b : 0), 0), 0);
  circuit.analysis.work?.charge('pair', Math.ceil(pairs(ends, lugs) + pairs(ends, ends) / 2 + pairs(lugs, lugs) / 2));
}

function countByLevel<T>(items: readonly T[], levelIn: (item: T) => number): readonly number[] {
  const levels = items.map(levelIn);
  return [0, 1, 2].map((level) => levels.filter((other) => other === level).length);
}

/** Items by how near they are, so that those of a ring are met without a look at all others. */
function createNear<T>(items: readonly T[], level: (item: T) => number, ring: Ring): (of: number) => readonly Placed<T>[] {
  const placed = items.map((item, index) => ({ item, index, level: level(item) }));
  const kept = new Map<number, readonly Placed<T>[]>();
  return (of) => {
    const known = kept.get(of) ?? placed.filter((other) => ring.holds(of, other.level));
    kept.set(of, known);
    return known;
  };
}

interface Placed<T> {
  readonly item: T;
  readonly index: number;
}

/** Those behind this index. */
function* behind<T>(placed: readonly Placed<T>[], index: number): Generator<Placed<T>> {
  let [low, high] = [0, placed.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (itemAt(placed, middle).index > index) high = middle;
    else low = middle + 1;
  }
  for (let at = low; at < placed.length; at++) yield itemAt(placed, at);
}

function moves({ circuit, mentions, nameable, at }: Wiring, classes: Int32Array, ring: Ring): readonly Change[] {
  const ground = groundClass(circuit, classes);
  const waits = circuit.lugs.map(({ id }) => freeness(circuit, at, id) === 2);
  const near = createNear(nameable, ({ id }) => ring.level(id), ring);
  return mentions.flatMap((mention) => {
    const best = new Map<number, Choice>();
    const homeward = comesFromMetal(circuit, mention) ? 0.8 : 0;
    const targets = near(levelOf(circuit, mention, ring));
    // An end may be written at another lug of the net it is taken from: taken off, it can leave a part of that net behind.
    for (const { item } of targets) {
      const { id } = item;
      if (id === mention.lug || joinsItself(circuit, mention, id)) continue;
      const own = classOf(classes, id);
      const onto = own === ground ? groundCost(circuit, id) : 0.05 * countAt(at, id) + leadCost(circuit, id);
      // What waits for a wire is likelier meant than what has some; and what comes from metal belongs on ground.
      const meant = (waits[id] === true ? 0.6 : 0) + (own === ground && lugById(circuit, id).takesMany ? homeward : 0);
      const cost = moveCost(circuit, mention.lug, id) + onto - meant;
      choose(best, own, { kind: 'move', moves: [{ mention, to: id }], cost }, leadMark(circuit, at, id));
    }
    circuit.analysis.work?.charge('change', best.size);
    return chosen(best);
  });
}

/** Of changes that come to the same, the likeliest so far. */
interface Choice {
  readonly change: Change;
  readonly cost: number;
}

/** `mark` is against the place, which is counted again where the circuit that comes of it is looked at. */
function choose(best: Map<number, Choice>, key: number, change: Change, mark: number): void {
  const cost = change.cost + mark;
  const known = best.get(key);
  if (known === undefined || cost < known.cost) best.set(key, { change, cost });
}

function chosen(best: ReadonlyMap<number, Choice>): readonly Change[] {
  return [...best.values()].map(({ change }) => change);
}

/** Against a wire on the lead of a part between two lugs, and on from the end of a pickup's lead. */
function leadMark(circuit: Circuit, at: Wiring['at'], lug: LugId): number {
  const { metal, part: id } = lugById(circuit, lug);
  const { inPlace, family } = partById(circuit, id);
  return inPlace || (family === 'pickup' && !metal && countAt(at, lug) > 0) ? oddLead : 0;
}

/** True for a wire whose other end is on a case, a frame, a bridge, or a lead called ground. */
function comesFromMetal(circuit: Circuit, { ends }: Mention): boolean {
  return ends.every((end) => {
    const { metal, name } = lugById(circuit, farEnd(circuit, end));
    return metal || name === 'ground';
  });
}

/** Of the lugs on ground those that take many wires are meant, not a pot's lug that is itself led there. */
function groundCost(circuit: Circuit, lug: LugId): number {
  return lugById(circuit, lug).takesMany ? 0 : 0.9;
}

/** Wires end on the lugs of switches, pots and jacks, seldom on the lead of a pickup or of a part between two lugs. */
function leadCost(circuit: Circuit, lug: LugId): number {
  const { family } = partOfLug(circuit, lug);
  return family === 'control' || family === 'switch' || family === 'jack' ? 0 : 0.25;
}

function joinsItself(circuit: Circuit, mention: Mention, to: LugId): boolean {
  return mention.ends.some((end) => farEnd(circuit, end) === to);
}

/** An end is as near as the lug it is on, or as those that it comes from. */
function levelOf(circuit: Circuit, { lug, ends }: Mention, ring: Ring): number {
  const far = ends.map((end) => ring.level(farEnd(circuit, end)));
  return Math.min(ring.level(lug), ...far);
}

function exchanges({ circuit, mentions }: Wiring, classes: Int32Array, ring: Ring): readonly Change[] {
  const changes: Change[] = [];
  const level = (mention: Mention): number => levelOf(circuit, mention, ring);
  const near = createNear(mentions, level, ring);
  for (const [i, one] of mentions.entries()) {
    for (const { item: other } of behind(near(level(one)), i)) {
      if (classes[one.lug] === classes[other.lug]) continue;
      if (joinsItself(circuit, one, other.lug) || joinsItself(circuit, other, one.lug)) continue;
      const cost = exchangeCost(circuit, one, other);
      if (cost === undefined) continue;
      circuit.analysis.work?.charge('change', 1);
      changes.push({
        kind: 'exchange',
        moves: [
          { mention: one, to: other.lug },
          { mention: other, to: one.lug },
        ],
        cost,
      });
    }
  }
  return changes;
}

/** Two wires of one part at each other's place: its leads, or what ends on two of its lugs; or those of two parts of one type, taken for each other. */
function exchangeCost(circuit: AnalysedCircuit, one: Mention, other: Mention): number | undefined {
  const [a, b] = [lugById(circuit, one.lug), lugById(circuit, other.lug)];
  if (a.part === b.part)
    return isMirror(circuit, one.lug, other.lug) ? turnCost(1) : 0.35 + moveCost(circuit, one.lug, other.lug);
  const far = farParts(circuit, other);
  if (farParts(circuit, one).some((part) => far.includes(part))) return 1.7;
  const isTwin = partById(circuit, a.part).type === partById(circuit, b.part).type && a.name === b.name;
  return isTwin ? 1 + moveCost(circuit, one.lug, other.lug) : undefined;
}

/** The parts that the wires ending here come from. */
function farParts(circuit: Circuit, mention: Mention): readonly number[] {
  return mention.ends.map((end) => lugById(circuit, farEnd(circuit, end)).part);
}

function turns({ circuit, at }: Wiring, ring: Ring): readonly Change[] {
  return circuit.parts.flatMap((part) => {
    const level = Math.min(...part.lugs.map((lug) => ring.level(lug)));
    // What touches one place only is asked with what leads there from a place that is named.
    if (part.parent !== undefined || !ring.holds(0, level)) return [];
    return turnsOf(circuit, part).flatMap((pairs): readonly Change[] => {
      const moves = pairs.flatMap(([a, b]) => [
        ...itemAt(at, a).map((mention) => ({ mention, to: b })),
        ...itemAt(at, b).map((mention) => ({ mention, to: a })),
      ]);
      const touched = pairs.filter(([a, b]) => countAt(at, a) + countAt(at, b) > 0);
      // With one end on each lug it is an exchange, and with one end in all a move.
      if (touched.length === 1 && touched.every(([a, b]) => countAt(at, a) <= 1 && countAt(at, b) <= 1)) return [];
      return moves.length === 0 ? [] : [{ kind: 'turn', moves, part: part.id, cost: turnCost(touched.length) }];
    });
  });
}

/** A part held wrongly, with wires on so many of its pairs of lugs: one slip, of which there are few, where an end can go to a hundred lugs. */
function turnCost(pairs: number): number {
  return 1.2 + 0.1 * pairs;
}

/** True for the two lugs that a turned track, or a pole counted from its other end, exchanges. */
function isMirror(circuit: AnalysedCircuit, one: LugId, other: LugId): boolean {
  const part = partOfLug(circuit, one);
  const poles = polesOf(circuit).filter(({ device }) => device.part === part.id);
  return [...trackEnds(circuit, part), ...poles.flatMap(({ throws }) => mirroredThrows(throws))].some(
    (pair) => pair.includes(one) && pair.includes(other),
  );
}

type LugPair = readonly [LugId, LugId];

/** Both ends of each track. */
function trackEnds(circuit: Circuit, part: Part): readonly LugPair[] {
  return part.elements.flatMap((id): readonly LugPair[] => {
    const element = elementById(circuit, id);
    return element.kind === 'track' ? [[element.a, element.leavesTo ?? element.b]] : [];
  });
}

/** Each throw of a pole with the one in its place when they are counted from the other end. */
function mirroredThrows(throws: readonly LugId[]): readonly LugPair[] {
  const half = throws.slice(0, Math.floor(throws.length / 2));
  return half.flatMap((lug, at): readonly LugPair[] => {
    const other = throws[throws.length - 1 - at];
    return other === undefined ? [] : [[lug, other]];
  });
}

/** Ways to hold a part wrongly: its two leads, the ends of its tracks, its rows mirrored. */
function turnsOf(circuit: AnalysedCircuit, part: Part): readonly (readonly (readonly [LugId, LugId])[])[] {
  const [one, other, ...more] = part.lugs.filter((lug) => !lugById(circuit, lug).metal);
  const turns: (readonly (readonly [LugId, LugId])[])[] = [];
  const hasTwoLeads = part.family === 'pickup' || part.family === 'passive' || part.family === 'assembly';
  if (hasTwoLeads && one !== undefined && other !== undefined && more.length === 0) turns.push([[one, other]]);
  const ends = trackEnds(circuit, part);
  if (ends.length > 0) turns.push(ends);
  if (ends.length > 1) for (const pair of ends) turns.push([pair]);
  const coils = part.elements.map((id) => elementById(circuit, id)).filter((element) => element.kind === 'coil');
  if (coils.length > 1)
    for (const coil of coils) if (isOutside(circuit, coil.a) && isOutside(circuit, coil.b)) turns.push([[coil.a, coil.b]]);
  if (part.family === 'switch') turns.push(...mirrored(part));
  turns.push(...polesTurned(circuit, part));
  return turns;
}

function isOutside(circuit: Circuit, lug: LugId): boolean {
  return lugById(circuit, lug).inner !== true;
}

/** The common of a pole taken for one of its throws, and its throws counted from the other end. */
function polesTurned(circuit: AnalysedCircuit, { id }: Part): readonly (readonly (readonly [LugId, LugId])[])[] {
  return polesOf(circuit).flatMap(({ device, common, throws }) => {
    if (device.part !== id || common === undefined) return [];
    const reversed = mirroredThrows(throws);
    return [...throws.map((lug) => [[common, lug] as const]), ...(reversed.length > 0 ? [reversed] : [])];
  });
}

/** Rows read from the other end, and two rows taken for each other. */
function mirrored(part: Part): readonly (readonly (readonly [LugId, LugId])[])[] {
  const rows = part.rows;
  const turns: (readonly (readonly [LugId, LugId])[])[] = [];
  const pairsOf = (lugs: readonly (LugId | null)[], others: readonly (LugId | null)[]): readonly (readonly [LugId, LugId])[] =>
    lugs.flatMap((lug, i) => {
      const other = others[i];
      return lug === null || other === null || other === undefined || lug >= other ? [] : [[lug, other] as const];
    });
  const across = rows.flatMap((row) => pairsOf(row, [...row].reverse()));
  if (across.length > 0) turns.push(across);
  const [first, second, ...more] = rows;
  const along = first === undefined || second === undefined || more.length > 0 ? [] : pairsOf(first, second);
  if (along.length > 0) turns.push(along);
  return turns;
}

/** A wire that leaves a lug bare was put somewhere for a reason; one between two lugs that have others is likely one too many. */
function removals({ circuit, runs, at }: Wiring, ring: Ring): readonly Change[] {
  return runs.flatMap((joint): readonly Change[] => {
    const level = Math.min(ring.level(joint.a), ring.level(joint.b));
    if (!ring.holds(0, level)) return [];
    const isInside = lugById(circuit, joint.a).part === lugById(circuit, joint.b).part;
    const isSpare = [joint.a, joint.b].every((lug) => countAt(at, lug) > 1);
    return [{ kind: 'remove', moves: [], removes: joint, cost: isSpare ? 1.35 : isInside ? 1.8 : 2.6 }];
  });
}

/** A wire between two nets; one that starts at a lug to which nothing is soldered is the likeliest to have been forgotten. */
function additions({ circuit, nameable, at }: Wiring, classes: Int32Array, ring: Ring): readonly Change[] {
  const best = new Map<number, Choice>();
  const near = createNear(nameable, ({ id }) => ring.level(id), ring);
  const waiting = nameable.map(({ id }) => freeness(circuit, at, id));
  const affinityOf = createLugAffinity(circuit);
  for (const [i, a] of nameable.entries()) {
    const x = classOf(classes, a.id);
    for (const { item: b, index: j } of behind(near(ring.level(a.id)), i)) {
      const y = classOf(classes, b.id);
      if (x === y) continue;
      const key = Math.min(x, y) * classes.length + Math.max(x, y);
      const free = Math.max(itemAt(waiting, i), itemAt(waiting, j));
      const affinity = affinityOf(a, b);
      const near = 0.3 - affinity;
      const cost = 4 - free + near + partnerCost(a, b, at) + (affinity < 0.3 && isStranded(circuit, at, a, b) ? 0.6 : 0);
      if (!best.has(key)) circuit.analysis.work?.charge('change', 1);
      const change: Change = { kind: 'add', moves: [], adds: inOrder(a, b, at), cost };
      choose(best, key, change, leadMark(circuit, at, a.id) + leadMark(circuit, at, b.id));
    }
  }
  return chosen(best);
}

/** Wires at a lug on which more hangs than a treble bleed: one that carries nothing else waits for its wire all the same. */
function wiresAt(circuit: Circuit, at: Wiring['at'], lug: LugId): number {
  return itemAt(at, lug).filter(({ ends }) => ends.some((end) => partOfLug(circuit, farEnd(circuit, end)).family !== 'passive'))
    .length;
}

/** One waits for a wire, and on the other, which serves nothing by itself, ends a single one: that end is likelier to be moved. */
function isStranded(circuit: Circuit, at: Wiring['at'], a: Lug, b: Lug): boolean {
  const [free, other] = countAt(at, a.id) === 0 ? [a, b] : [b, a];
  const [only, ...more] = itemAt(at, other.id);
  if (countAt(at, free.id) > 0 || only === undefined || more.length > 0 || other.metal) return false;
  if (wiresAt(circuit, at, other.id) === 0) return false;
  // Leads of one pickup meet at a switch.
  if (only.ends.every((end) => lugById(circuit, farEnd(circuit, end)).part === free.part)) return false;
  const { family } = partById(circuit, other.part);
  return family === 'switch' || family === 'control';
}

/** From the lug that waits for a wire to the one that has some, from a part's lug to a place where many meet. */
function inOrder(a: Lug, b: Lug, at: Wiring['at']): readonly [LugId, LugId] {
  const rank = ({ id, takesMany }: Lug): number => (takesMany ? 10 : 0) + countAt(at, id);
  return rank(a) <= rank(b) ? [a.id, b.id] : [b.id, a.id];
}

/** On ground a wire goes to where most meet; elsewhere to the lug with the fewest. */
function partnerCost(a: Lug, b: Lug, at: Wiring['at']): number {
  const counts = [countAt(at, a.id), countAt(at, b.id)] as const;
  const partner = counts[0] <= counts[1] ? b : a;
  const isChain = a.takesMany && b.takesMany;
  if (partner.takesMany && Math.max(...counts) > 0) return (isChain ? 0.1 : 0.2) - 0.02 * Math.min(Math.max(...counts), 9);
  return 0.2 + 0.05 * (counts[0] + counts[1]);
}

/** A screen that is tied at neither end, to metal on ground: of the parts that its wire joins, else where most meet. */
function ties({ circuit, nameable, at }: Wiring, classes: Int32Array, ring: Ring): readonly Change[] {
  const ground = groundClass(circuit, classes);
  const hubs = nameable.filter(({ id, takesMany }) => takesMany && classes[id] === ground);
  return circuit.joints.flatMap((joint): readonly Change[] => {
    const { screen, statement } = joint;
    if (screen === undefined || !ring.holds(ring.level(screen), ring.level(screen))) return [];
    if (circuit.joints.some(({ kind, a }) => kind === 'screen' && a === screen)) return [];
    if (circuit.joints.filter((other) => other.statement === statement && other.screen !== undefined).length > 1) return [];
    const ends = [joint.a, joint.b].map((lug) => lugById(circuit, lug).part);
    return hubs.map(({ id, part }) => ({
      kind: 'add',
      moves: [],
      adds: [screen, id],
      cost: 2 + (ends.includes(part) ? 0 : 0.4) - 0.02 * Math.min(countAt(at, id), 9),
    }));
  });
}

/** How many mentions a lug has. */
function countAt(at: Wiring['at'], lug: LugId): number {
  return itemAt(at, lug).length;
}

/** A lead, a wiper, metal to which nothing is soldered wait for a wire; the free end of a tone's track and a spare throw do less. */
function freeness(circuit: Circuit, at: Wiring['at'], lug: LugId): number {
  const { metal, part: id, name } = lugById(circuit, lug);
  const part = partById(circuit, id);
  if ((part.family === 'passive' ? countAt(at, lug) : wiresAt(circuit, at, lug)) > 0) return 0;
  if (part.inPlace) return 0;
  if (metal || part.family === 'pickup' || part.family === 'passive' || part.family === 'amplifier') return 2;
  if (part.family === 'jack') return name === 'tip' || name === 'sleeve' ? 2 : 0.5;
  if (part.family !== 'control') return 1.4;
  const track = part.elements.map((element) => elementById(circuit, element)).find((element) => element.kind === 'track');
  const others = part.lugs.filter((other) => countAt(at, other) > 0 && !lugById(circuit, other).metal).length;
  return track?.kind === 'track' && track.wiper === lug ? 2 : others < 2 ? 1.8 : 1;
}
