/** Disjoint sets over small whole numbers: how lugs fold into nets and nets into nodes. */
// The invariant behind the assertions below: a parent is a member too, and whoever asks gives members of the forest.

/** Parents by member. Plain arrays serve what lives for one setting: short typed arrays cost more to make than to use. */
export type Forest = Int32Array | number[];

/** A fresh forest in which each of `count` members stands alone. */
export function createForest(count: number): Int32Array {
  const parent = new Int32Array(count);
  for (let i = 0; i < count; i++) parent[i] = i;
  return parent;
}

/** The same as a plain array. */
export function createSets(count: number): number[] {
  const parent = new Array<number>(count);
  for (let i = 0; i < count; i++) parent[i] = i;
  return parent;
}

/** `count` numbers, all `value`. */
export function filled(count: number, value: number): number[] {
  const numbers = new Array<number>(count);
  for (let i = 0; i < count; i++) numbers[i] = value;
  return numbers;
}

/** The member that stands for the whole set of `member`, which is always its smallest. */
export function rootOf(parent: Forest, member: number): number {
  let at = member;
  while (parent[at]! !== at) {
    // Halving the path as we walk keeps later walks short without a second pass.
    parent[at] = parent[parent[at]!]!;
    at = parent[at]!;
  }
  return at;
}

/** Joins two sets; the smaller member stays the root, so equal partitions have equal roots. */
export function join(parent: Forest, a: number, b: number): void {
  const rootA = rootOf(parent, a);
  const rootB = rootOf(parent, b);
  if (rootA < rootB) parent[rootB] = rootA;
  else if (rootB < rootA) parent[rootA] = rootB;
}

/** Numbers the sets 0, 1, 2 … by their smallest members; returns their count and writes each member's number into `of`. */
export function number(parent: Forest, of: Forest): number {
  let count = 0;
  for (let i = 0; i < parent.length; i++) {
    const root = rootOf(parent, i);
    of[i] = root === i ? count++ : of[root]!;
  }
  return count;
}
