/** Whether two circuits are electrically one: the same elements between the same nets however the switches stand. */
import { amount } from '../../circuit/index.js';
import {
  type Band,
  type AnalysedCircuit,
  elementById,
  lugById,
  partById,
  shaftById,
  switchById,
  type Circuit,
  type Element,
  type LugId,
  type Quantity,
  type Switch,
  type TaperPoint,
} from '../../circuit/model.js';
import { combinationLimit, jointClasses, nets, screenedWires } from '../../electrics/index.js';
import type { Steps } from '../../steps.js';
import type { Match } from '../match/match.js';

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
export function* electricalSteps(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): Steps<Electrical> {
  if (!sameSettings(before, after, match) || !sameScreens(before, after, match) || !sameElements(before, after, match))
    return { same: false };
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
    before.rig.inputCapacitance === after.rig.inputCapacitance &&
    before.shafts.every(({ id, rest }) => {
      const now = shafts.to.get(id);
      return now === undefined || shaftById(after, now).rest === rest;
    })
  );
}

/** The capacitances of shielded wires, lug by lug. */
function sameScreens(before: AnalysedCircuit, after: AnalysedCircuit, { lugs }: Match): boolean {
  const keysOf = (circuit: AnalysedCircuit, as: (lug: LugId) => LugId | undefined): readonly string[] =>
    screenedWires(circuit)
      .flatMap(({ joint: { a, b }, screen, farad = 0 }) =>
        farad > 0
          ? [
              contactsKey(
                [[a, b], circuit.joints.flatMap((tie) => (tie.kind === 'screen' && tie.a === screen ? [tie.b] : []))],
                as,
              ) + ` ${farad}`,
            ]
          : [],
      )
      .sort();
  const [old, now] = [keysOf(before, (lug) => lugs.to.get(lug)), keysOf(after, (lug) => lug)];
  return old.length === now.length && old.every((key, index) => key === now[index]);
}

function sameElements(before: Circuit, after: Circuit, { elements }: Match): boolean {
  const loose = { before: looseParts(before), after: looseParts(after) };
  const isCounted = (element: Element, parts: ReadonlySet<number>): boolean => !parts.has(element.part);
  return (
    before.elements.every((element) => {
      const partner = elements.to.get(element.id);
      if (partner === undefined) return !isCounted(element, loose.before);
      const now = elementById(after, partner);
      if (!isCounted(element, loose.before) && !isCounted(now, loose.after)) return true;
      return elementKey(element) === elementKey(now);
    }) && after.elements.every((element) => elements.from.has(element.id) || !isCounted(element, loose.after))
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
  return JSON.stringify(
    elementValues(element)
      .map(([name, value]) => [name, valueKey(value)])
      .sort(),
  );
}

/** What an element holds besides its ends and its names, by name. */
export function elementValues(element: Element): readonly (readonly [name: string, value: unknown])[] {
  return Object.entries(element).filter(([name]) => !notValues.has(name));
}

const notValues = new Set(['id', 'part', 'name', 'a', 'b', 'wiper', 'shaft', 'leavesTo', 'plus', 'minus', 'inverting']);

function valueKey(value: unknown): unknown {
  if (Array.isArray(value)) return itemTexts(value as readonly (Band | TaperPoint)[]);
  return typeof value === 'object' && value !== null ? quantityKey(value as Quantity) : value;
}

/** The bands of a stage, or the points of a measured taper. */
export function itemTexts(items: readonly (Band | TaperPoint)[]): readonly string[] {
  return items.map((item) => ('travel' in item ? `${figure(10 * item.travel)} ${figure(100 * item.share)}%` : bandText(item)));
}

function figure(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** `bass 12 dB at 80 Hz`, with its knob where it has one. */
function bandText(band: Band): string {
  const hz = amount(band.hz, 'hertz', 4);
  if (band.kind === 'pole') return `pole at ${hz}`;
  return `${band.kind} ${band.db} dB at ${hz}${band.shaft === undefined ? '' : ' with a knob'}`;
}

function quantityKey({ value, tolerance, known }: Quantity): string {
  return `${value} ${tolerance} ${known}`;
}

function sameOutput({ output: old }: Circuit, { output: now }: Circuit, { lugs }: Match): boolean {
  if (old === undefined || now === undefined) return old === now;
  return lugs.to.get(old.tip) === now.tip && lugs.to.get(old.sleeve) === now.sleeve;
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
    const now = lugs.to.get(lug);
    if (now !== undefined) pairs.push([lug, now]);
    else if (isMetal) metal.before.push(lug);
    else return undefined;
  }
  for (const [lug, isMetal] of now) {
    const was = lugs.from.get(lug);
    if (was !== undefined) {
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
        ? [element.plus, element.minus, ...(element.inverting === undefined ? [] : [element.inverting])]
        : [];
  return [element.a, element.b, ...more];
}

/** Joints fold the same lugs and contacts are the same, lug by lug: no switch need be turned. */
function sameFold(before: AnalysedCircuit, after: AnalysedCircuit, { lugs, switches }: Match): boolean {
  if (before.lugs.length !== after.lugs.length || lugs.to.size < before.lugs.length) return false;
  if (before.switches.length !== after.switches.length) return false;
  const [old, now] = [jointClasses(before).of, jointClasses(after).of];
  if (!isBijection([...lugs.to].map(([was, is]) => [old[was], now[is]]))) return false;
  return before.switches.every((device) => {
    const partner = switches.to.get(device.id);
    if (partner === undefined) return false;
    const contacts = device.positions.map(({ joins }) => contactsKey(joins, (lug) => lugs.to.get(lug)));
    const others = switchById(after, partner).positions.map(({ joins }) => contactsKey(joins, (lug) => lug));
    return contacts.length === others.length && contacts.every((key, index) => key === others[index]);
  });
}

/** Contacts as a text that does not hang on their order, each lug by the id that `as` gives it, if any. */
export function contactsKey(joins: readonly (readonly LugId[])[], as: (lug: LugId) => LugId | undefined): string {
  return joins
    .map((group) =>
      group
        .map((lug) => as(lug) ?? -1)
        .sort((a, b) => a - b)
        .join('+'),
    )
    .sort()
    .join(' ');
}

/** True where equal on the left means equal on the right and the other way round. */
function isBijection<T>(pairs: readonly (readonly [T, T])[]): boolean {
  const to = new Map<T, T>();
  const from = new Map<T, T>();
  return pairs.every(([left, right]) => {
    if (!to.has(left) && !from.has(right)) {
      to.set(left, right);
      from.set(right, left);
    }
    return to.get(left) === right && from.get(right) === left;
  });
}

/** Switches of both circuits that are turned together, or one that stands in one of them alone. */
interface SwitchPair {
  readonly before?: Switch;
  readonly after?: Switch;
  /** In how many positions; at least one. */
  readonly count: number;
}

/** Absent where a switch of both circuits has other positions, or rests otherwise. */
function turnedSwitches(before: Circuit, after: Circuit, { to, from }: Match['switches']): readonly SwitchPair[] | undefined {
  const turned: SwitchPair[] = [];
  for (const device of before.switches) {
    const count = Math.max(1, device.positions.length);
    const partner = to.get(device.id);
    if (partner === undefined) turned.push({ before: device, count });
    else {
      const now = switchById(after, partner);
      if (device.positions.length !== now.positions.length || device.rest !== now.rest) return undefined;
      turned.push({ before: device, after: now, count });
    }
  }
  for (const device of after.switches)
    if (!from.has(device.id)) turned.push({ after: device, count: Math.max(1, device.positions.length) });
  return turned;
}

function* sameInEachPosition(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  { switches }: Match,
  { pairs, metal }: Significant,
): Steps<Electrical> {
  const turned = turnedSwitches(before, after, switches);
  if (turned === undefined) return { same: false };
  const combinations = turned.reduce((product, { count }) => product * count, 1);
  if (combinations > combinationLimit) {
    return {
      same: false,
      note: `the switches make ${combinations.toLocaleString('en')} combinations, more than ${combinationLimit.toLocaleString('en')}, so a joint on another lug counts as an electrical change`,
    };
  }
  for (let number = 0; number < combinations; number++) {
    yield;
    const positions = { before: before.switches.map(() => 0), after: after.switches.map(() => 0) };
    let rest = number;
    for (const { before: old, after: now, count } of turned) {
      const at = rest % count;
      rest = Math.floor(rest / count);
      if (old !== undefined) positions.before[old.id] = at;
      if (now !== undefined) positions.after[now.id] = at;
    }
    const [old, now] = [nets(before, positions.before), nets(after, positions.after)];
    if (!isBijection(pairs.map(([a, b]) => [old.of[a], now.of[b]]))) return { same: false };
    if (metal.before.some((lug) => old.of[lug] !== old.ground) || metal.after.some((lug) => now.of[lug] !== now.ground))
      return { same: false };
  }
  return { same: true };
}
