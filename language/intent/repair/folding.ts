/** Joints folded into classes of lugs, and classes into nets, fast enough to try thousands of changes. */
import { type AnalysedCircuit, type Circuit, jackOutputs, type LugId, type Output } from '../../circuit/model.js';
import { lugsOfElements, type Setting, tiesOf, trackHalves } from '../../electrics/index.js';
import { createForest, join, rootOf } from '../../numerics/index.js';
import { type Change, goneWith, rewired } from './change.js';

export interface Folding {
  /** Smallest lug of each lug's class after these changes; the array is used again by the next call. */
  classes(changes: readonly Change[]): Int32Array;
  /** The usual output after the changes of the last call: with several jacks it depends on which tips are wired. */
  usual(): Output | undefined;
  /** Equal for equal classes, of all lugs; of the last call of `classes`. */
  classKey(): number;
  /** Equal where the classes of the last call fold to nets that this output cannot distinguish in this setting of the switches; 0 where tip and sleeve are one. */
  netKey(setting: Setting, output: Output | undefined): number;
  /** The same with the pots where they stand: a wiper at the end of its travel is one with it. */
  turnedKey(setting: Setting, output: Output | undefined): number;
  /** A number for the net that a lug is on, where the last of these keys was asked for. */
  netOf(lug: LugId): number;
}

export function createFolding(circuit: AnalysedCircuit): Folding {
  const fold = createFold(circuit);
  const classes = createForest(circuit.lugs.length);
  const asked = lugsOfElements(circuit);
  const labels = createLabels(classes, asked);
  const { keyOf, netOf } = createNetKey(circuit, labels, asked);
  const turned = turnedEnds(circuit);
  const usualAfter = createUsual(circuit);
  let usual = circuit.output;
  return {
    classes(changes) {
      labels.forget();
      fold(changes, classes);
      usual = usualAfter(changes);
      return classes;
    },
    usual: () => usual,
    classKey() {
      let [high, low] = [17, 29];
      for (let lug = 0; lug < classes.length; lug++) {
        const own = classes[lug] ?? 0;
        high = Math.imul(high, 0x01000193) ^ own;
        low = (Math.imul(low, 0x85ebca6b) + own + 1) | 0;
      }
      return combined(high, low);
    },
    netKey: (setting, output) => keyOf(setting, output, []),
    turnedKey: (setting, output) => keyOf(setting, output, turned(setting)),
    netOf,
  };
}

/** Writes the smallest lug of each lug's class, after some changes, into an array that is used again. */
function createFold(circuit: AnalysedCircuit): (changes: readonly Change[], classes: Int32Array) => void {
  const sideA = Int32Array.from(circuit.joints, ({ a }) => a);
  const sideB = Int32Array.from(circuit.joints, ({ b }) => b);
  const set = (change: Change, back: boolean): void => {
    for (const { mention, to } of change.moves) {
      const lug = back ? mention.lug : to;
      for (const { joint, side } of mention.ends) (side === 'a' ? sideA : sideB)[joint] = lug;
    }
  };
  return (changes, classes) => {
    const count = classes.length;
    circuit.analysis.work?.charge('fold', 2 * count + sideA.length);
    for (let lug = 0; lug < count; lug++) classes[lug] = lug;
    for (const change of changes) set(change, false);
    const cut = changes.flatMap(({ removes }) =>
      removes === undefined ? [] : goneWith(circuit, removes).map((joint) => circuit.joints.indexOf(joint)),
    );
    for (let index = 0; index < sideA.length; index++) {
      if (cut.length === 0 || !cut.includes(index)) join(classes, sideA[index] ?? 0, sideB[index] ?? 0);
    }
    for (const { adds } of changes) if (adds !== undefined) join(classes, adds[0], adds[1]);
    for (const change of changes) set(change, true);
    for (let lug = 0; lug < count; lug++) classes[lug] = rootOf(classes, lug);
  };
}

/** The usual output after some changes; it stays the same unless one of them touches the tip of one of several jacks. */
function createUsual(circuit: AnalysedCircuit): (changes: readonly Change[]) => Output | undefined {
  const outputs = jackOutputs(circuit);
  if (outputs.length < 2) return () => circuit.output;
  const tips = new Set(outputs.map(({ tip }) => tip));
  const isTouched = ({ moves, removes, adds }: Change): boolean =>
    moves.some(({ mention, to }) => tips.has(mention.lug) || tips.has(to)) ||
    (removes !== undefined && (tips.has(removes.a) || tips.has(removes.b))) ||
    adds?.some((lug) => tips.has(lug)) === true;
  return (changes) => (changes.some(isTouched) ? rewired(circuit, changes).output : circuit.output);
}

/** Numbers for the classes that an element, an output or a contact touches, so that a setting is folded on few of them. */
interface Labels {
  of(lug: LugId): number;
  count(): number;
  /** Numbers the classes anew where they have changed. */
  refresh(): void;
  forget(): void;
}

function createLabels(classes: Int32Array, asked: readonly LugId[]): Labels {
  const labelOf = new Int32Array(classes.length);
  let [count, isStale] = [0, true];
  const of = (lug: LugId): number => {
    const root = classes[lug] ?? 0;
    const known = labelOf[root] ?? -1;
    return known < 0 ? (labelOf[root] = count++) : known;
  };
  return {
    of,
    count: () => count,
    refresh() {
      if (!isStale) return;
      labelOf.fill(-1);
      [count, isStale] = [0, false];
      for (const lug of asked) of(lug);
    },
    forget() {
      isStale = true;
    },
  };
}

/** Two lugs that a contact, or a wiper at the end of its travel, joins. */
interface Link {
  readonly a: LugId;
  readonly b: LugId;
}

function createNetKey(
  circuit: AnalysedCircuit,
  labels: Labels,
  asked: readonly LugId[],
): {
  keyOf(setting: Setting, output: Output | undefined, turned: readonly Link[]): number;
  netOf(lug: LugId): number;
} {
  const { work } = circuit.analysis;
  const contacts = contactLinks(circuit);
  const ties = tiesOf(circuit);
  const parent = createForest(circuit.lugs.length);
  const reach = createForest(circuit.lugs.length);
  const letters = new Int32Array(circuit.lugs.length);
  const netOf = (lug: LugId): number => rootOf(parent, labels.of(lug));
  const link = (links: readonly Link[]): void => {
    for (const { a, b } of links) join(parent, labels.of(a), labels.of(b));
  };
  /** What nothing but ground ties to the tip is neither heard nor read there. */
  const reachWithout = (ground: number): void => {
    for (let i = 0; i < labels.count(); i++) reach[i] = i;
    for (const lugs of ties) {
      let first = -1;
      for (const lug of lugs) {
        const net = netOf(lug);
        if (net === ground) continue;
        if (first < 0) first = net;
        else join(reach, first, net);
      }
    }
  };
  const spell = (ground: number, hot: number): number => {
    letters.fill(0, 0, labels.count());
    const live = rootOf(reach, hot);
    let [high, low, last] = [17, 29, 1];
    const write = (net: number): void => {
      let letter = letters[net] ?? 0;
      if (letter === 0) letters[net] = letter = net !== ground && rootOf(reach, net) !== live ? 1 : ++last;
      high = Math.imul(high, 0x01000193) ^ letter;
      low = (Math.imul(low, 0x85ebca6b) + letter) | 0;
    };
    write(hot);
    write(ground);
    for (const lug of asked) write(netOf(lug));
    return combined(high, low);
  };
  const keyOf = ({ positions }: Setting, output: Output | undefined, turned: readonly Link[]): number => {
    work?.charge('key', labels.count() + asked.length + ties.length);
    labels.refresh();
    for (let i = 0; i < parent.length; i++) parent[i] = i;
    for (let device = 0; device < contacts.length; device++) link(contacts[device]?.[positions[device] ?? -1] ?? []);
    link(turned);
    if (output === undefined) return 0;
    const [ground, hot] = [netOf(output.sleeve), netOf(output.tip)];
    if (hot === ground) return 0;
    reachWithout(ground);
    return spell(ground, hot);
  };
  return { keyOf, netOf };
}

/** By switch and position, what its contacts join. */
function contactLinks(circuit: Circuit): readonly (readonly (readonly Link[])[])[] {
  return circuit.switches.map(({ positions }) =>
    positions.map(({ joins }) => joins.flatMap(([a, ...others]) => (a === undefined ? [] : others.map((b) => ({ a, b }))))),
  );
}

/**
 * Lugs that a wiper at the end of its travel joins: a volume at 0 lays the output on ground, and nothing has to be solved to know it.
 * None where a stage is in the circuit: whether it has a supply is asked of wires and contacts alone.
 */
function turnedEnds(circuit: Circuit): (setting: Setting) => readonly Link[] {
  const tracks = circuit.elements.filter((element) => element.kind === 'track');
  const isStaged = circuit.elements.some(({ kind }) => kind === 'gain');
  const kept = new Map<Setting, readonly Link[]>();
  return (setting) => {
    const known = kept.get(setting);
    if (known !== undefined) return known;
    const links = isStaged
      ? []
      : tracks.flatMap((track) =>
          trackHalves(track, setting.rotations[track.shaft] ?? circuit.shafts[track.shaft]?.rest ?? 10).flatMap(
            ({ kind, a, b }) => (kind === 'join' ? [{ a, b }] : []),
          ),
        );
    kept.set(setting, links);
    return links;
  };
}

/** 52 bits: two circuits in a search of some thousand would have to meet by chance. */
function combined(high: number, low: number): number {
  return (high >>> 0) * 0x100000 + ((low ^ (low >>> 13)) & 0xfffff);
}
