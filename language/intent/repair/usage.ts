/** How a circuit is usually wired: marks against what common practice avoids, to choose between repairs that do the same. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  lugById,
  partById,
  switchById,
  type Circuit,
  type Joint,
  type LugId,
  type Part,
  type PartId,
  type Track,
} from '../../circuit/model.js';
import { factsOf, rowsOf, type Facts } from '../../checks/index.js';
import { polesOf, type Pole } from '../../electrics/index.js';
import { matchTracks, matchUnit, nearestArrangement, pickupsNamed, type Role } from '../../roles/index.js';
import { createView, type View } from './view.js';
import { leadOf } from './wiring.js';
import { trackMarks } from './track-usage.js';
import { append, getOrCreate, valueFor } from '../../collections.js';

/** Against a lug that is not wired as usual, and at most against a track that is. */
const oddLug = 0.5;
const usualTrack = 0.3;
/** Against a wire on the lead of a part that stands between two lugs, and against each further one on the end of a pickup's lead. */
export const oddLead = 0.8;

/**
 * Marks against what the joints alone show, by part, those against the whole at the end; `classes` is the smallest lug of each lug's class. `roles`
 * are those of the circuit as it was read: one changed wire does not change what a part is for. The
 * weights are judgements of common practice on the scale of the costs of changes, where a lug further along is a fifth.
 */
export function marksByPart(circuit: AnalysedCircuit, classes: Int32Array, roles: readonly Role[]): Float64Array {
  circuit.analysis.work?.charge('mark', circuit.lugs.length + circuit.joints.length + circuit.elements.length);
  const view = createView(circuit, classes, polesOf(circuit));
  const marks = new Float64Array(circuit.parts.length + 1);
  const addMark: AddMark = (part, mark) => void (marks[part] = (marks[part] ?? 0) + mark);
  marks[circuit.parts.length] = redundant(view);
  oddSiblings(view, addMark);
  switchMarks(view, addMark);
  oddPlaces(view, addMark);
  leadMarks(circuit, addMark);
  strangers(view, addMark);
  const byPractice = practiceMarks(circuit, roles);
  for (const element of circuit.elements) {
    if (element.kind === 'track') addMark(element.part, byPractice(element, trackMarks(view, element)));
    // Whoever buys a part does not bridge it.
    else if (view.of(element.a) === view.of(element.b)) addMark(element.part, 2);
    else if (element.kind === 'capacitor' && lies(view, element.a, element.b)) addMark(element.part, 1.8);
    else if (element.kind === 'capacitor' || element.kind === 'resistor')
      addMark(element.part, behind(view, element.a, element.b));
  }
  for (const part of circuit.parts) if (part.family === 'pickup') addMark(part.id, pickupMarks(view, part.lugs));
  return marks;
}

/** Marks against a track of which it is known what it is for: little where it is wired in a usual way, else so much more for each lug that is not. */
function practiceMarks(circuit: AnalysedCircuit, roles: readonly Role[]): (track: Track, marks: number) => number {
  const sure = roles.filter(({ confidence }) => confidence !== 'weak');
  const odd = new Map(
    sure.flatMap(({ unit, word }) =>
      matchTracks(circuit, unit, word).map(({ track, departs }) => [track.id, departs.length] as const),
    ),
  );
  return ({ id }, marks) => {
    const lugs = odd.get(id);
    if (lugs === undefined) return marks;
    return lugs === 0 ? Math.min(marks, usualTrack) : marks + oddLug * lugs;
  };
}

/** Against one part, so much. */
type AddMark = (part: PartId, mark: number) => void;

/** The same in one figure. */
export function marksOf(circuit: AnalysedCircuit, classes: Int32Array, roles: readonly Role[]): number {
  return marksByPart(circuit, classes, roles).reduce((sum, mark) => sum + mark, 0);
}

/** Against each position of a selector that plays something else than in the usual arrangement, and so many at most. */
const oddPosition = 0.5;
const mostOdd = 3;

/**
 * Marks against what the controls do, against positions that sound alike, selectors that play no usual arrangement, and parts that are
 * wired in no usual way: asked of the few changes that cure something.
 */
export function marksOnCloseLook(circuit: AnalysedCircuit, roles: readonly Role[]): number {
  const facts = factsOf(circuit);
  const effects = facts.effects().map(({ role }) => (role === 'mixed' ? 0.6 : role === 'nothing' ? 1 : 0));
  const settings = facts.settings();
  const sounds = new Set(settings.map((setting) => facts.signal.sound(setting).text));
  return (
    effects.reduce<number>((sum, mark) => sum + mark, 0) +
    (0.7 * (settings.length - sounds.size)) / Math.max(1, settings.length / 5) +
    roles.reduce((sum, role) => sum + oddPosition * oddPositions(facts, role) + oddLug * oddLugs(circuit, role), 0)
  );
}

/** How many lugs of a switch, a small part or a pickup are not wired as in the nearest usual way; those of pots count in `marksByPart`. */
function oddLugs(circuit: AnalysedCircuit, { unit, word, confidence }: Role): number {
  // A small part whose place is the slip has its value alone to speak for it.
  if (unit.kind === 'pot' || (unit.kind !== 'passive' && confidence === 'weak')) return 0;
  return matchUnit(circuit, unit, word).reduce((sum, { departs }) => sum + departs.length, 0);
}

/** How many positions of a selector are not as usual, the other switches as they come. */
function oddPositions(facts: Facts, { unit, word, confidence }: Role): number {
  if (unit.kind !== 'switch' || word !== 'selector' || confidence === 'weak') return 0;
  const odd = rowsOf(facts, switchById(facts.circuit, unit.switch)).map((row) =>
    Math.min(mostOdd, nearestArrangement(row.map((setting) => facts.signal.sound(setting).text))?.length ?? 0),
  );
  return odd.reduce((sum, count) => sum + count, 0) / Math.max(1, odd.length);
}

/** True for two ends of which one is on ground and the other on a pickup's own lead or the output: treble gone for good. */
function lies({ of, ground, tip, isSource }: View, a: LugId, b: LugId): boolean {
  const [x, y] = [of(a), of(b)];
  const other = x === ground ? y : y === ground ? x : -1;
  return other >= 0 && (other === tip || isSource(other));
}

/** A branch that hangs on the output's side of a volume, where its input's side is free: it belongs before the volume, or across it. */
function behind({ circuit, of, ground, tip, inputs }: View, a: LugId, b: LugId): number {
  const other = of(a) === tip ? of(b) : of(b) === tip ? of(a) : -1;
  // A stage gives its signal through a capacitor.
  if (circuit.elements.some((element) => element.kind === 'gain' && of(element.b) === other)) return 0;
  return other >= 0 && other !== ground && inputs.length > 0 && !inputs.includes(tip) && !inputs.includes(other) ? 1 : 0;
}

/** The lead called hot on ground, the one called ground not. */
function pickupMarks({ circuit, of, ground }: View, lugs: readonly LugId[]): number {
  const named = (name: string): LugId | undefined => lugs.find((lug) => lugById(circuit, lug).name === name);
  const [hot, cold] = [named('hot'), named('ground')];
  return hot !== undefined && cold !== undefined && of(hot) === ground && of(cold) !== ground ? 0.5 : 0;
}

/** The same lead of like parts goes to the same net, where most of at least three do. */
function oddSiblings(view: View, addMark: AddMark): void {
  const { circuit, of } = view;
  const groups = new Map<string, Map<number, PartId[]>>();
  for (const lug of circuit.lugs) {
    const part = partById(circuit, lug.part);
    // The two leads of a capacitor or a resistor are alike.
    if (part.family === 'screen' || part.family === 'passive' || part.parent !== undefined) continue;
    const key = `${part.family === 'pickup' ? 'pickup' : part.family === 'control' ? controlKey(view, part) : part.type}.${lug.name}`;
    const nets = getOrCreate(groups, key, () => new Map<number, PartId[]>());
    append(nets, of(lug.id), part.id);
  }
  for (const nets of groups.values()) {
    const sizes = [...nets.values()].map(({ length }) => length);
    const all = sizes.reduce((sum, size) => sum + size, 0);
    const most = Math.max(...sizes);
    if (all < 3 || most <= all / 2) continue;
    for (const parts of nets.values()) if (parts.length < most) for (const part of parts) addMark(part, 0.9);
  }
}

/** Capacitors to ground that a pole chooses among lie on its throws; the one that does not is odd. */
function oddPlaces({ circuit, of, ground }: View, addMark: AddMark): void {
  const throws = new Map<number, number>();
  polesOf(circuit).forEach((pole, index) => {
    if (pole.common !== undefined && pole.throws.length > 2) for (const lug of pole.throws) throws.set(of(lug), index);
  });
  const groups = new Map<string, { readonly part: PartId; readonly pole: number }[]>();
  for (const { family, type, lugs, id } of circuit.parts) {
    if (family !== 'passive' || !lugs.some((lug) => of(lug) === ground)) continue;
    for (const lug of lugs) {
      const key = `${type}.${lugById(circuit, lug).name}`;
      append(groups, key, { part: id, pole: throws.get(of(lug)) ?? -1 });
    }
  }
  for (const places of groups.values()) {
    for (const pole of new Set(places.map((one) => one.pole))) {
      const here = places.filter((one) => one.pole === pole).length;
      if (pole < 0 || here < 3 || here <= places.length / 2) continue;
      for (const one of places) if (one.pole !== pole) addMark(one.part, 0.9);
    }
  }
}

/** Volumes are alike, and tones are: those with a capacitor between one of their lugs and ground. */
function controlKey({ of, drained, isSource }: View, { type, lugs }: Part): string {
  return lugs.some((lug) => drained.has(of(lug)) && !isSource(of(lug))) ? `${type} tone` : type;
}

/** The poles of one switch face one way: where the common of another goes a throw of this one should not, with something else on its common. */
function isTurned({ circuit, of, ground }: View, { device, throws }: Pole, common: LugId): boolean {
  const touches = (lug: LugId): boolean => throws.some((own) => of(own) === of(lug));
  return polesOf(circuit).some(
    (other) =>
      other.device === device &&
      other.common !== undefined &&
      other.common !== common &&
      of(other.common) !== ground &&
      of(other.common) !== of(common) &&
      touches(other.common),
  );
}

/** Jumpers across a switch: two that cross each other are a phase switch; one alone is half of one, or a slip. */
function crossings({ circuit, of }: View, addMark: AddMark): void {
  for (const joint of circuit.joints) {
    if (!isAcross(circuit, joint)) continue;
    const mate = crossingMate(circuit, joint);
    addMark(lugById(circuit, joint.a).part, mate !== undefined && of(mate[0]) === of(mate[1]) ? 0.1 : 0.5);
  }
}

/** The two lugs that a jumper from `A1` to `B2` asks to be joined as well: `A2` and `B1`. */
export function crossingMate(circuit: Circuit, joint: Joint): readonly [LugId, LugId] | undefined {
  if (!isAcross(circuit, joint)) return undefined;
  const { part, name } = lugById(circuit, joint.a);
  const { name: other } = lugById(circuit, joint.b);
  const named = (wanted: string): LugId | undefined =>
    partById(circuit, part).lugs.find((lug) => lugById(circuit, lug).name === wanted);
  const [c, d] = [named(name.charAt(0) + other.slice(1)), named(other.charAt(0) + name.slice(1))];
  return c === undefined || d === undefined ? undefined : [c, d];
}

/** `A1` to `B2`: crossed, as a phase switch is and little else. */
function isAcross(circuit: Circuit, { a, b }: Joint): boolean {
  const [one, other] = [lugById(circuit, a), lugById(circuit, b)];
  if (one.part !== other.part || partById(circuit, one.part).family !== 'switch') return false;
  return one.name[0] !== other.name[0] && one.name.slice(1) !== other.name.slice(1);
}

/** Against a wire between what is called after one pickup and what is called after another. */
const strange = 0.6;

/** A control that is called after a pickup is wired to that one, its own capacitor and its own other control. */
function strangers({ circuit, of, ground }: View, addMark: AddMark): void {
  const owner = derive(circuit, owners);
  for (const { kind, a, b } of circuit.joints) {
    if ((kind !== 'wire' && kind !== 'solder') || of(a) === ground) continue;
    const [one, other] = [lugById(circuit, a).part, lugById(circuit, b).part];
    const [x, y] = [owner.get(one), owner.get(other)];
    if (x !== undefined && y !== undefined && x !== y) addMark(one, strange);
  }
}

/** The one pickup that a part is, or is called after; names hang on no joint. */
const owners = derivation(['contacts'], ({ parts }): ReadonlyMap<PartId, PartId> => {
  const pickups = parts.filter(({ family, parent }) => family === 'pickup' && parent === undefined);
  return new Map(
    parts.flatMap(({ id, name, family }) => {
      if (family === 'switch' || family === 'jack') return [];
      const [own, ...more] = family === 'pickup' ? [id] : pickupsNamed(name, pickups).pickups.map((pickup) => pickup.id);
      return own === undefined || more.length > 0 ? [] : [[id, own] as const];
    }),
  );
});

/** Wires go from lug to lug: not onto the lead of a part that stands between two lugs, nor on from the end of a pickup's lead. */
function leadMarks(circuit: Circuit, addMark: AddMark): void {
  const onPickups = new Map<LugId, number>();
  let onTip = 0;
  for (const joint of circuit.joints) {
    if (joint.kind !== 'wire' && joint.kind !== 'solder') continue;
    for (const lug of [joint.a, joint.b]) {
      const { part: id, metal } = lugById(circuit, lug);
      const part = partById(circuit, id);
      if (part.inPlace && leadOf(circuit, joint) !== id) addMark(id, oddLead);
      if (part.family === 'jack' && circuit.output?.tip === lug) onTip++;
      if (part.family === 'pickup' && !metal) onPickups.set(lug, (onPickups.get(lug) ?? 0) + 1);
    }
  }
  // One wire goes to the jack; what else is wanted there ends on the controls.
  if (onTip > 1 && circuit.output !== undefined) addMark(circuit.output.part, 0.6 * (onTip - 1));
  for (const [lug, count] of onPickups) addMark(lugById(circuit, lug).part, oddLead * (count - 1));
}

/** Wires that join what is joined already: seldom on the signal, often on ground. */
function redundant({ circuit, of, ground }: View): number {
  const joints = new Map<number, number>();
  const lugs = new Map<number, Set<LugId>>();
  for (const { a, b, kind } of circuit.joints) {
    if (kind === 'touch' || a === b) continue;
    joints.set(of(a), (joints.get(of(a)) ?? 0) + 1);
    getOrCreate(lugs, of(a), () => new Set<LugId>())
      .add(a)
      .add(b);
  }
  let marks = 0;
  for (const [root, count] of joints)
    marks += Math.max(0, count - valueFor(lugs, root).size + 1) * (root === ground ? 0.15 : 0.6);
  return marks;
}

/** A pole in use with throws left over; a throw on its own common; a jumper from one pole to another number on the next. */
function switchMarks(view: View, addMark: AddMark): void {
  const { circuit, of, isWired } = view;
  crossings(view, addMark);
  for (const pole of polesOf(circuit)) {
    const { common } = pole;
    if (common === undefined || !isWired(common)) continue;
    const used = pole.throws.filter(isWired);
    addMark(pole.device.part, 0.2 * (pole.throws.length - used.length));
    // The one throw that is left over of many is the likeliest to wait for something.
    const choosesTones = used.every((lug) => view.drained.has(of(lug)));
    if (used.length > 2 && pole.throws.length - used.length === 1 && !choosesTones) addMark(pole.device.part, 0.4);
    if (used.some((lug) => of(lug) === of(common))) addMark(pole.device.part, 0.4);
    if (isTurned(view, pole, common)) addMark(pole.device.part, 0.5);
  }
}
