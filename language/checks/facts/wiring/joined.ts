/** Which lugs are soldered to what, without switches and elements. */
import {
  type Circuit,
  formOf,
  isBuiltIn,
  type Joint,
  lugById,
  type LugId,
  partById,
  type PartId,
  partOfLug,
} from '../../../circuit/model.js';
import { createForest, join, rootOf } from '../../../numerics/index.js';
import { groupBy, itemAt } from '../../../collections.js';
import { netOf } from '../../../electrics/index.js';

export interface Joined {
  /** Joints that name a lug, in the order of the text. */
  at(lug: LugId): readonly Joint[];
  /** True where a lug is joined to something outside its own part (or by a wire or solder joint of the instrument's own). */
  isWired(lug: LugId): boolean;
  /** Number of joints of that kind. */
  wires(lug: LugId): number;
  /** Equal for lugs that joints alone fold together. */
  classOf(lug: LugId): number;
  /** Lugs of a class. */
  members(classId: number): readonly LugId[];
  /** True for a part of which no lug but its metal is wired, and which has such lugs. */
  isUnwired(part: PartId): boolean;
}

export function createJoined(circuit: Circuit): Joined {
  const at: Joint[][] = circuit.lugs.map(() => []);
  for (const joint of circuit.joints) {
    itemAt(at, joint.a).push(joint);
    if (joint.b !== joint.a) itemAt(at, joint.b).push(joint);
  }
  const classes = { of: foldJoints(circuit, circuit.joints) };
  const classOf = (lug: LugId): number => netOf(classes, lug);
  const members = groupBy(
    circuit.lugs.map(({ id }) => id),
    classOf,
  );
  const outward = countOutward(circuit, at);
  return {
    at: (lug) => itemAt(at, lug),
    isWired: (lug) => (outward[lug] ?? 0) > 0,
    wires: (lug) => outward[lug] ?? 0,
    classOf,
    members: (classId) => members.get(classId) ?? [],
    isUnwired(id) {
      const part = partById(circuit, id);
      const working = part.lugs.filter((lug) => !lugById(circuit, lug).metal);
      return !part.inPlace && working.length > 0 && working.every((lug) => outward[lug] === 0);
    },
  };
}

/** Smallest lug of each lug's class, counting only these joints. */
export function foldJoints(circuit: Circuit, joints: readonly Joint[]): Int32Array {
  const forest = createForest(circuit.lugs.length);
  for (const joint of joints) join(forest, joint.a, joint.b);
  return forest.map((_, lug) => rootOf(forest, lug));
}

/**
 * How many joints lead from each lug to something else than its own part: what a type joins inside a part says nothing about whether the part
 * is wired, and a joint to a lug of the assembly around it is one where something is soldered to that lug from outside.
 */
function countOutward(circuit: Circuit, at: readonly (readonly Joint[])[]): Int32Array {
  const counts = new Int32Array(circuit.lugs.length).fill(-1);
  const isInside = (inner: PartId, outer: PartId): boolean => {
    for (let part = partById(circuit, inner).parent; part !== undefined; part = partById(circuit, part).parent)
      if (part === outer) return true;
    return false;
  };
  const isOutward = (joint: Joint, lug: LugId): boolean => {
    const { a, b } = joint;
    const other = a === lug ? b : a;
    const [own, its] = [partOfLug(circuit, lug).id, partOfLug(circuit, other).id];
    if (own === its) return formOf(joint) !== undefined && !isBuiltIn(joint, own);
    return !isInside(its, own);
  };
  /** A lug of the assembly around it is the lug itself to whoever wires it. */
  const outwardBy = (joint: Joint, lug: LugId): number => {
    if (!isOutward(joint, lug)) return 0;
    const other = joint.a === lug ? joint.b : joint.a;
    const [own, its] = [partOfLug(circuit, lug).id, partOfLug(circuit, other).id];
    if (!isInside(own, its)) return 1;
    // What else is soldered to it inside counts as well.
    const inward = itemAt(at, other).filter(({ a, b }) => isInside(partOfLug(circuit, a === other ? b : a).id, its)).length;
    return countAt(other) + inward - 1;
  };
  // An assembly lies within another at most sixteen deep, so this ends.
  const countAt = (lug: LugId): number => {
    const known = counts[lug] ?? -1;
    if (known >= 0) return known;
    const count = itemAt(at, lug).reduce((sum, joint) => sum + outwardBy(joint, lug), 0);
    counts[lug] = count;
    return count;
  };
  for (const { id } of circuit.lugs) countAt(id);
  return counts;
}
