/** Whether two circuits are electrically one: the same elements between the same nets however the switches stand. */
import {
  lugById,
  partById,
  shaftById,
  type Circuit,
  type Element,
  type LugId,
  type Quantity,
  type Switch,
} from '../circuit/model.js';
import { combinationLimit, jointClasses, nets } from '../electrics/index.js';
import type { Steps } from '../steps.js';
import type { Match } from './match.js';

export interface Electrical {
  readonly same: boolean;
  /** Why that could not be made sure, where it could not. */
  readonly note?: string;
}

/**
 * True exactly where every element has its like with equal values, both rigs and outputs are alike, and for every combination of the
 * positions of all switches (momentary ones and jacks too) the lugs of elements, jacks and metal fold into the same nets. A part that nothing
 * is joined to is no part of the circuit. Beyond 4,096 combinations only joints and contacts that are the same lug by lug count as the same. In small
 * steps, one for each combination where all must be tried.
 */
export function* electricalSteps(before: Circuit, after: Circuit, match: Match): Steps<Electrical> {
  if (!sameSettings(before, after, match) || !sameElements(before, after, match)) return { same: false };
  const lugs = significant(before, after, match);
  if (lugs === undefined || !sameOutput(before, after, match)) return { same: false };
  yield;
  if (sameFold(before, after, match)) return { same: true };
  return yield* sameInEachPosition(before, after, match, lugs);
}

function sameSettings(before: Circuit, after: Circuit, { shafts }: Match): boolean {
  return (
    before.rig.cable === after.rig.cable &&
    before.rig.input === after.rig.input &&
    before.shafts.every(({ id, rest }) => {
      const now = shafts.to[id]!;
      return now === -1 || shaftById(after, now).rest === rest;
    })
  );
}

function sameElements(before: Circuit, after: Circuit, { elements }: Match): boolean {
  const loose = { before: looseParts(before), after: looseParts(after) };
  const isCounted = (element: Element, parts: ReadonlySet<number>): boolean => !parts.has(element.part);
  return (
    before.elements.every((element) => {
      const now = after.elements[elements.to[element.id]!];
      if (now === undefined) return !isCounted(element, loose.before);
      if (!isCounted(element, loose.before) && !isCounted(now, loose.after)) return true;
      return elementKey(element) === elementKey(now);
    }) && after.elements.every((element) => elements.from[element.id] !== -1 || !isCounted(element, loose.after))
  );
}

/** Parts of which no lug is joined to another part's. */
function looseParts(circuit: Circuit): ReadonlySet<number> {
  const joined = new Set<number>();
  for (const { a, b } of circuit.joints) {
    const [one, other] = [lugById(circuit, a).part, lugById(circuit, b).part];
    if (one !== other) joined.add(one).add(other);
  }
  return new Set(circuit.parts.flatMap(({ id }) => (joined.has(id) ? [] : [id])));
}

/** All numbers of an element. */
export function elementKey(element: Element): string {
  const plain = Object.entries(element).filter(([name]) => !notValues.has(name));
  return JSON.stringify(
    plain.map(([name, value]) => [name, typeof value === 'object' ? quantityKey(value as Quantity) : (value as unknown)]).sort(),
  );
}

const notValues = new Set(['id', 'part', 'name', 'a', 'b', 'wiper', 'shaft', 'leavesTo', 'plus', 'minus']);

function quantityKey({ value, tolerance, known }: Quantity): string {
  return `${value} ${tolerance} ${known}`;
}

function sameOutput({ output: old }: Circuit, { output: now }: Circuit, { lugs }: Match): boolean {
  if (old === undefined || now === undefined) return old === now;
  return lugs.to[old.tip] === now.tip && lugs.to[old.sleeve] === now.sleeve;
}

interface Significant {
  /** Lugs of the old circuit whose nets count, each with its like. */
  readonly pairs: readonly (readonly [LugId, LugId])[];
  /** Metal that stands in one circuit alone: it must be on ground. */
  readonly metal: { readonly before: readonly LugId[]; readonly after: readonly LugId[] };
}

/** Absent where a lug that counts has no like. */
function significant(before: Circuit, after: Circuit, { lugs }: Match): Significant | undefined {
  const old = countedLugs(before);
  const now = countedLugs(after);
  const metal = { before: [] as LugId[], after: [] as LugId[] };
  const pairs: [LugId, LugId][] = [];
  for (const [lug, isMetal] of old) {
    const now = lugs.to[lug]!;
    if (now !== -1) pairs.push([lug, now]);
    else if (isMetal) metal.before.push(lug);
    else return undefined;
  }
  for (const [lug, isMetal] of now) {
    const was = lugs.from[lug]!;
    if (was !== -1) {
      if (!old.has(was)) pairs.push([was, lug]);
    } else if (isMetal) metal.after.push(lug);
    else return undefined;
  }
  return { pairs, metal };
}

/** Lugs of elements, of jacks and of metal; the value is true where only its being metal makes it count. */
function countedLugs(circuit: Circuit): ReadonlyMap<LugId, boolean> {
  const loose = looseParts(circuit);
  const counted = new Map<LugId, boolean>();
  for (const lug of circuit.lugs) if (lug.metal) counted.set(lug.id, true);
  for (const part of circuit.jacks) for (const lug of partById(circuit, part).lugs) counted.set(lug, false);
  for (const element of circuit.elements) {
    if (loose.has(element.part)) continue;
    for (const lug of endsOf(element)) counted.set(lug, false);
  }
  return counted;
}

function endsOf(element: Element): readonly LugId[] {
  const more =
    element.kind === 'track'
      ? [element.wiper, ...(element.leavesTo === undefined ? [] : [element.leavesTo])]
      : element.kind === 'gain'
        ? [element.plus, element.minus]
        : [];
  return [element.a, element.b, ...more];
}

/** Joints fold the same lugs and contacts are the same, lug by lug: no switch need be turned. */
function sameFold(before: Circuit, after: Circuit, { lugs, switches }: Match): boolean {
  if (before.lugs.length !== after.lugs.length || lugs.to.includes(-1) || switches.to.includes(-1)) return false;
  if (before.switches.length !== after.switches.length) return false;
  const [old, now] = [jointClasses(before).of, jointClasses(after).of];
  if (!isBijection(before.lugs.map(({ id }) => [old[id]!, now[lugs.to[id]!]!]))) return false;
  return before.switches.every((device) => {
    const other = after.switches[switches.to[device.id]!];
    if (other === undefined || device.positions.length !== other.positions.length) return false;
    return device.positions.every(
      ({ joins }, index) =>
        contactsKey(joins, (lug) => lugs.to[lug]!) === contactsKey(other.positions[index]!.joins, (lug) => lug),
    );
  });
}

/** Contacts as a text that does not hang on their order. */
export function contactsKey(joins: readonly (readonly LugId[])[], as: (lug: LugId) => number): string {
  return joins
    .map((group) =>
      group
        .map(as)
        .sort((a, b) => a - b)
        .join('+'),
    )
    .sort()
    .join(' ');
}

/** True where equal on the left means equal on the right and the other way round. */
function isBijection(pairs: readonly (readonly [number, number])[]): boolean {
  const to = new Map<number, number>();
  const from = new Map<number, number>();
  return pairs.every(([left, right]) => {
    if (!to.has(left) && !from.has(right)) {
      to.set(left, right);
      from.set(right, left);
    }
    return to.get(left) === right && from.get(right) === left;
  });
}

/** Switches of both circuits that are turned together, or one that stands in one of them alone. */
interface Turned {
  readonly before?: Switch;
  readonly after?: Switch;
}

function* sameInEachPosition(
  before: Circuit,
  after: Circuit,
  { switches }: Match,
  { pairs, metal }: Significant,
): Steps<Electrical> {
  const turned: Turned[] = [
    ...before.switches.map((device) => {
      const now = after.switches[switches.to[device.id]!];
      return now === undefined ? { before: device } : { before: device, after: now };
    }),
    ...after.switches.filter(({ id }) => switches.from[id] === -1).map((device) => ({ after: device })),
  ];
  if (
    turned.some(
      ({ before: old, after: now }) =>
        old !== undefined && now !== undefined && (old.positions.length !== now.positions.length || old.rest !== now.rest),
    )
  )
    return { same: false };
  const counts = turned.map((device) => Math.max(1, (device.before ?? device.after)!.positions.length));
  const combinations = counts.reduce((product, count) => product * count, 1);
  if (combinations > combinationLimit) {
    return {
      same: false,
      note: `the switches make ${combinations.toLocaleString('en')} combinations, more than ${combinationLimit.toLocaleString('en')}, so that a joint on another lug counts as a change`,
    };
  }
  for (let number = 0; number < combinations; number++) {
    yield;
    const positions = { before: before.switches.map(() => 0), after: after.switches.map(() => 0) };
    let rest = number;
    turned.forEach((device, index) => {
      const at = rest % counts[index]!;
      rest = Math.floor(rest / counts[index]!);
      if (device.before !== undefined) positions.before[device.before.id] = at;
      if (device.after !== undefined) positions.after[device.after.id] = at;
    });
    const [old, now] = [nets(before, positions.before), nets(after, positions.after)];
    if (!isBijection(pairs.map(([a, b]) => [old.of[a]!, now.of[b]!]))) return { same: false };
    if (metal.before.some((lug) => old.of[lug] !== old.ground) || metal.after.some((lug) => now.of[lug] !== now.ground))
      return { same: false };
  }
  return { same: true };
}
