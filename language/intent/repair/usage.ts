/** How a circuit is usually wired: marks against what common practice avoids, to choose between repairs that do the same. */
import type { Circuit, Joint, LugId } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { polesOf, type Pole } from '../../checks/facts/poles.js';
import { createView, type View } from './view.js';
import { leadOf } from './wiring.js';
import { trackMarks } from './track-usage.js';

/**
 * Marks against what the joints alone show, `classes` being the smallest lug of each lug's class. The weights are judgements of common
 * practice on the scale of the costs of changes, where a lug further along is a fifth.
 */
export function marksOf(circuit: Circuit, classes: Int32Array): number {
  const view = createView(circuit, classes);
  let marks = oddSiblings(view) + redundant(view) + switchMarks(view) + leadMarks(circuit);
  for (const element of circuit.elements) {
    if (element.kind === 'track') marks += trackMarks(view, element);
    // Whoever buys a part does not bridge it.
    else if (view.of(element.a) === view.of(element.b)) marks += 2;
    else if (element.kind === 'capacitor' && lies(view, element.a, element.b)) marks += 1.2;
    else if (element.kind === 'capacitor' || element.kind === 'resistor') marks += behind(view, element.a, element.b);
  }
  for (const part of circuit.parts) if (part.family === 'pickup') marks += pickupMarks(view, part.lugs);
  return marks;
}

/** Marks against what the controls do, and against positions that sound alike. */
export function soundMarks(circuit: Circuit): number {
  const facts = factsOf(circuit);
  const roles = facts.effects().map(({ role }) => (role === 'mixed' ? 0.6 : role === 'nothing' ? 1 : 0));
  const settings = facts.settings();
  const sounds = new Set(settings.map((setting) => facts.hearing.sound(setting).text));
  return (
    roles.reduce<number>((sum, mark) => sum + mark, 0) +
    (0.7 * (settings.length - sounds.size)) / Math.max(1, settings.length / 5)
  );
}

/** True for two ends of which one is on ground and the other on a pickup's own lead or the output: treble gone for good. */
function lies({ of, ground, tip, isSource }: View, a: LugId, b: LugId): boolean {
  const [x, y] = [of(a), of(b)];
  const other = x === ground ? y : y === ground ? x : -1;
  return other >= 0 && (other === tip || isSource(other));
}

/** A branch that hangs on the output's side of a volume, where its input's side is free: it belongs before the volume, or across it. */
function behind({ of, ground, tip, inputs }: View, a: LugId, b: LugId): number {
  const other = of(a) === tip ? of(b) : of(b) === tip ? of(a) : -1;
  return other >= 0 && other !== ground && inputs.length > 0 && !inputs.includes(tip) && !inputs.includes(other) ? 0.4 : 0;
}

/** The lead called hot on ground, the one called ground not. */
function pickupMarks({ circuit, of, ground }: View, lugs: readonly LugId[]): number {
  const named = (name: string): LugId | undefined => lugs.find((lug) => circuit.lugs[lug]!.name === name);
  const [hot, cold] = [named('hot'), named('ground')];
  return hot !== undefined && cold !== undefined && of(hot) === ground && of(cold) !== ground ? 0.5 : 0;
}

/** The same lead of like parts goes to the same net, where most of at least three do. */
function oddSiblings({ circuit, of }: View): number {
  const groups = new Map<string, Map<number, number>>();
  for (const lug of circuit.lugs) {
    const part = circuit.parts[lug.part]!;
    if (part.family === 'screen' || part.parent !== undefined) continue;
    const key = `${part.family === 'pickup' ? 'pickup' : part.type}.${lug.name}`;
    const counts = groups.get(key) ?? groups.set(key, new Map()).get(key)!;
    counts.set(of(lug.id), (counts.get(of(lug.id)) ?? 0) + 1);
  }
  let marks = 0;
  for (const counts of groups.values()) {
    const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
    const most = Math.max(...counts.values());
    if (all >= 3 && most > all / 2) marks += 0.6 * (all - most);
  }
  return marks;
}

const poles = new WeakMap<Circuit['switches'], readonly Pole[]>();

/** Poles hang on the switches alone, which no change of joints touches. */
function polesIn(circuit: Circuit): readonly Pole[] {
  const known = poles.get(circuit.switches) ?? polesOf(circuit);
  poles.set(circuit.switches, known);
  return known;
}

/** `A1` to `B2`: crossed, as a phase switch is and little else. */
function isAcross(circuit: Circuit, { a, b }: Joint): boolean {
  const [one, other] = [circuit.lugs[a]!, circuit.lugs[b]!];
  if (one.part !== other.part || circuit.parts[one.part]!.family !== 'switch') return false;
  return one.name[0] !== other.name[0] && one.name.slice(1) !== other.name.slice(1);
}

/** Wires go from lug to lug: not onto the lead of a part that stands between two lugs, nor on from the end of a pickup's lead. */
function leadMarks(circuit: Circuit): number {
  const onPickups = new Map<LugId, number>();
  let marks = 0;
  for (const joint of circuit.joints) {
    if (joint.kind !== 'wire' && joint.kind !== 'solder') continue;
    for (const lug of [joint.a, joint.b]) {
      const { part: id, metal } = circuit.lugs[lug]!;
      const part = circuit.parts[id]!;
      if (part.inPlace && leadOf(circuit, joint) !== id) marks += 0.8;
      if (part.family === 'pickup' && !metal) onPickups.set(lug, (onPickups.get(lug) ?? 0) + 1);
    }
  }
  for (const count of onPickups.values()) marks += 0.4 * (count - 1);
  return marks;
}

/** Wires that join what is joined already: seldom on the signal, often on ground. */
function redundant({ circuit, of, ground }: View): number {
  const joints = new Map<number, number>();
  const lugs = new Map<number, Set<LugId>>();
  for (const { a, b, kind } of circuit.joints) {
    if (kind === 'touch' || a === b) continue;
    joints.set(of(a), (joints.get(of(a)) ?? 0) + 1);
    (lugs.get(of(a)) ?? lugs.set(of(a), new Set()).get(of(a))!).add(a).add(b);
  }
  let marks = 0;
  for (const [root, count] of joints) marks += Math.max(0, count - lugs.get(root)!.size + 1) * (root === ground ? 0.15 : 0.6);
  return marks;
}

/** A pole in use with throws left over; a throw on its own common; a jumper from one pole to another number on the next. */
function switchMarks({ circuit, of, isWired }: View): number {
  let marks = 0.3 * circuit.joints.filter((joint) => isAcross(circuit, joint)).length;
  for (const pole of polesIn(circuit)) {
    if (pole.common === undefined || !isWired(pole.common)) continue;
    const used = pole.throws.filter(isWired);
    marks += 0.2 * (pole.throws.length - used.length);
    if (used.some((lug) => of(lug) === of(pole.common!))) marks += 0.4;
  }
  return marks;
}
