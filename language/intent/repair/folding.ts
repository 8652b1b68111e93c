/** Joints folded into classes of lugs, and classes into nets, fast enough to try thousands of changes. */
import { type AnalysedCircuit, type Circuit, elementById, type LugId, partById } from '../../circuit/model.js';
import { type Setting, trackHalves } from '../../electrics/index.js';
import { createForest, join, rootOf } from '../../numerics/index.js';
import { type Change, goneWith } from './change.js';

export interface Folding {
  /** Smallest lug of each lug's class after these changes; the array is used again by the next call. */
  classes(changes: readonly Change[]): Int32Array;
  /** Equal for equal classes, of all lugs; of the last call of `classes`. */
  classKey(): number;
  /** Equal where the classes of the last call fold to nets that the output cannot tell apart in this setting of the switches; 0 where tip and sleeve are one. */
  netKey(setting: Setting): number;
  /** The same with the pots where they stand: a wiper at the end of its travel is one with it. */
  turnedKey(setting: Setting): number;
}

export function createFolding(circuit: AnalysedCircuit): Folding {
  const { work } = circuit.analysis;
  const count = circuit.lugs.length;
  const sideA = Int32Array.from(circuit.joints, ({ a }) => a);
  const sideB = Int32Array.from(circuit.joints, ({ b }) => b);
  const asked = askedLugs(circuit);
  const contacts = circuit.switches.map((device) =>
    device.positions.map(({ joins }) => joins.flatMap((lugs) => lugs.slice(1).flatMap((lug) => [lugs[0]!, lug]))),
  );
  const classes = createForest(count);
  // Classes that an element, the output or a contact touches are numbered, so that a setting is folded on few of them.
  const labelOf = new Int32Array(count);
  const labels = { count: 0, isStale: true };
  const parent = createForest(count);
  const reach = createForest(count);
  const letters = new Int32Array(count);
  const ties = tiesOf(circuit);
  const ends = endsOf(circuit);
  const { output } = circuit;

  const set = (change: Change, back: boolean): void => {
    for (const { mention, to } of change.moves) {
      const lug = back ? mention.lug : to;
      for (const { joint, side } of mention.ends) (side === 'a' ? sideA : sideB)[joint] = lug;
    }
  };
  const label = (lug: LugId): number => {
    const root = classes[lug]!;
    if (labelOf[root]! < 0) labelOf[root] = labels.count++;
    return labelOf[root]!;
  };
  const relabel = (): void => {
    labelOf.fill(-1);
    labels.count = 0;
    labels.isStale = false;
    for (const lug of asked) label(lug);
  };

  const keyOf = ({ positions }: Setting, turned: readonly LugId[]): number => {
    work?.charge('key', labels.count + asked.length + ties.length);
    if (labels.isStale) relabel();
    for (let i = 0; i < count; i++) parent[i] = i;
    for (let device = 0; device < contacts.length; device++) {
      const joins = contacts[device]![positions[device] ?? -1];
      if (joins === undefined) continue;
      for (let i = 0; i < joins.length; i += 2) join(parent, label(joins[i]!), label(joins[i + 1]!));
    }
    for (let i = 0; i < turned.length; i += 2) join(parent, label(turned[i]!), label(turned[i + 1]!));
    const netOf = (lug: LugId): number => rootOf(parent, labelOf[classes[lug]!]!);
    const [ground, hot] = output === undefined ? [-1, -1] : [netOf(output.sleeve), netOf(output.tip)];
    if (hot === ground) return 0;
    // What nothing but ground ties to the tip is neither heard nor read there.
    for (let i = 0; i < labels.count; i++) reach[i] = i;
    for (const lugs of ties) {
      let first = -1;
      for (const lug of lugs) {
        const net = netOf(lug);
        if (net === ground) continue;
        if (first < 0) first = net;
        else join(reach, first, net);
      }
    }
    const live = rootOf(reach, hot);
    letters.fill(0, 0, labels.count);
    let [high, low, next] = [17, 29, 1];
    for (const lug of asked) {
      const net = netOf(lug);
      if (letters[net] === 0) letters[net] = net !== ground && rootOf(reach, net) !== live ? 1 : ++next;
      high = Math.imul(high, 0x01000193) ^ letters[net]!;
      low = (Math.imul(low, 0x85ebca6b) + letters[net]!) | 0;
    }
    return combined(high, low);
  };

  return {
    classes(changes) {
      work?.charge('fold', 2 * count + sideA.length);
      labels.isStale = true;
      for (let lug = 0; lug < count; lug++) classes[lug] = lug;
      for (const change of changes) set(change, false);
      const cut = changes.flatMap(({ removes }) =>
        removes === undefined ? [] : goneWith(circuit, removes).map((joint) => circuit.joints.indexOf(joint)),
      );
      for (let index = 0; index < sideA.length; index++) {
        if (cut.length === 0 || !cut.includes(index)) join(classes, sideA[index]!, sideB[index]!);
      }
      for (const { adds } of changes) if (adds !== undefined) join(classes, adds[0], adds[1]);
      for (const change of changes) set(change, true);
      for (let lug = 0; lug < count; lug++) classes[lug] = rootOf(classes, lug);
      return classes;
    },
    classKey() {
      let [high, low] = [17, 29];
      for (let lug = 0; lug < count; lug++) {
        high = Math.imul(high, 0x01000193) ^ classes[lug]!;
        low = (Math.imul(low, 0x85ebca6b) + classes[lug]! + 1) | 0;
      }
      return combined(high, low);
    },
    netKey: (setting) => keyOf(setting, []),
    turnedKey: (setting) => keyOf(setting, ends(setting)),
  };
}

/**
 * Lugs that a wiper at the end of its travel joins, two by two: a volume at 0 lays the output on ground, and nothing has to be solved to know it.
 * None where a stage is in the circuit: whether it has a supply is asked of wires and contacts alone.
 */
function endsOf(circuit: Circuit): (setting: Setting) => readonly LugId[] {
  const tracks = circuit.elements.filter((element) => element.kind === 'track');
  const isStaged = circuit.elements.some(({ kind }) => kind === 'gain');
  const kept = new Map<Setting, readonly LugId[]>();
  return (setting) => {
    const known = kept.get(setting);
    if (known !== undefined) return known;
    const lugs = isStaged
      ? []
      : tracks.flatMap((track) =>
          trackHalves(track, setting.rotations[track.shaft] ?? circuit.shafts[track.shaft]?.rest ?? 10).flatMap(
            ({ kind, a, b }) => (kind === 'join' ? [a, b] : []),
          ),
        );
    kept.set(setting, lugs);
    return lugs;
  };
}

/** Lugs that an element ties to each other; coupled coils feel each other wherever they are. */
function tiesOf(circuit: Circuit): readonly (readonly LugId[])[] {
  return circuit.elements.map((element) => {
    switch (element.kind) {
      case 'track':
        return [element.a, element.wiper, element.leavesTo ?? element.b];
      case 'gain':
        return [element.a, element.b, element.plus, element.minus];
      case 'coil': {
        const others = partById(circuit, element.part).elements.map((id) => elementById(circuit, id));
        return (element.coupling ?? 0) === 0 ? [element.a, element.b] : others.flatMap(({ a, b }) => [a, b]);
      }
      default:
        return [element.a, element.b];
    }
  });
}

/** 52 bits: two circuits in a search of some thousand would have to meet by chance. */
function combined(high: number, low: number): number {
  return (high >>> 0) * 0x100000 + ((low ^ (low >>> 13)) & 0xfffff);
}

/** Lugs at which an element or the output could notice a difference. */
function askedLugs(circuit: Circuit): readonly LugId[] {
  const lugs = new Set<LugId>();
  if (circuit.output !== undefined) lugs.add(circuit.output.tip).add(circuit.output.sleeve);
  for (const element of circuit.elements) {
    lugs.add(element.a).add(element.b);
    if (element.kind === 'track') {
      lugs.add(element.wiper);
      if (element.leavesTo !== undefined) lugs.add(element.leavesTo);
    }
    if (element.kind === 'gain') lugs.add(element.plus).add(element.minus);
  }
  return [...lugs];
}
