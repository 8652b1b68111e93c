/** Joints folded into classes of lugs, and classes into nets, fast enough to try thousands of changes. */
import type { Circuit, LugId } from '../../circuit/model.js';
import { createForest, join, rootOf, type Setting } from '../../electrics/index.js';
import type { Change } from './change.js';

export interface Folding {
  /**
   * Smallest lug of each lug's class after these changes; the array is used again by the next call.
   */
  classes(changes: readonly Change[]): Int32Array;
  /** Equal for equal classes, of all lugs. */
  classKey(classes: Int32Array): number;
  /** Equal where these classes fold to nets that no element and no output can tell apart in this setting. */
  netKey(classes: Int32Array, setting: Setting): number;
}

export function createFolding(circuit: Circuit): Folding {
  const count = circuit.lugs.length;
  const sideA = Int32Array.from(circuit.joints, ({ a }) => a);
  const sideB = Int32Array.from(circuit.joints, ({ b }) => b);
  const classes = createForest(count);
  const nets = createForest(count);
  const letters = new Int32Array(count);
  const asked = askedLugs(circuit);
  const contacts = circuit.switches.map((device) =>
    device.positions.map(({ joins }) => joins.flatMap((lugs) => lugs.slice(1).flatMap((lug) => [lugs[0]!, lug]))),
  );
  const set = (change: Change, back: boolean): void => {
    for (const { mention, to } of change.moves) {
      const lug = back ? mention.lug : to;
      for (const { joint, side } of mention.ends) (side === 'a' ? sideA : sideB)[joint] = lug;
    }
  };
  return {
    classes(changes) {
      for (let lug = 0; lug < count; lug++) classes[lug] = lug;
      for (const change of changes) set(change, false);
      for (let index = 0; index < sideA.length; index++) {
        if (changes.some(({ removes }) => removes === circuit.joints[index])) continue;
        join(classes, sideA[index]!, sideB[index]!);
      }
      for (const { adds } of changes) if (adds !== undefined) join(classes, adds[0], adds[1]);
      for (const change of changes) set(change, true);
      for (let lug = 0; lug < count; lug++) classes[lug] = rootOf(classes, lug);
      return classes;
    },
    classKey(of) {
      let [high, low] = [17, 29];
      for (let lug = 0; lug < count; lug++) {
        high = (Math.imul(high, 0x01000193) ^ of[lug]!) >>> 0;
        low = (Math.imul(low, 0x85ebca6b) + of[lug]! + 1) >>> 0;
      }
      return combined(high, low);
    },
    netKey(of, { positions }) {
      for (let lug = 0; lug < count; lug++) nets[lug] = of[lug]!;
      for (let device = 0; device < contacts.length; device++) {
        const joins = contacts[device]![positions[device] ?? -1];
        if (joins === undefined) continue;
        for (let i = 0; i < joins.length; i += 2) join(nets, joins[i]!, joins[i + 1]!);
      }
      letters.fill(0);
      let [high, low, next] = [17, 29, 0];
      for (const lug of asked) {
        const root = rootOf(nets, lug);
        if (letters[root] === 0) letters[root] = ++next;
        high = (Math.imul(high, 0x01000193) ^ letters[root]!) >>> 0;
        low = (Math.imul(low, 0x85ebca6b) + letters[root]!) >>> 0;
      }
      return combined(high, low);
    },
  };
}

/** 52 bits: two circuits in a search of some thousand would have to meet by chance. */
function combined(high: number, low: number): number {
  return high * 0x100000 + (low & 0xfffff);
}

/** Lugs at which an element or the output could notice a difference. */
function askedLugs(circuit: Circuit): Int32Array {
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
  return Int32Array.from(lugs);
}
