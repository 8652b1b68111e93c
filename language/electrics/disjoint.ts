/** Disjoint sets over small whole numbers: how lugs fold into nets and nets into nodes. */

/** A fresh forest in which each of `count` members stands alone. */
export function createForest(count: number): Int32Array {
  const parent = new Int32Array(count);
  for (let i = 0; i < count; i++) parent[i] = i;
  return parent;
}

/** The member that stands for the whole set of `member`, which is always its smallest. */
export function rootOf(parent: Int32Array, member: number): number {
  let at = member;
  while (parent[at]! !== at) {
    // Halving the path as we walk keeps later walks short without a second pass.
    parent[at] = parent[parent[at]!]!;
    at = parent[at]!;
  }
  return at;
}

/** Joins two sets; the smaller member stays the root, so equal partitions have equal roots. */
export function join(parent: Int32Array, a: number, b: number): void {
  const rootA = rootOf(parent, a);
  const rootB = rootOf(parent, b);
  if (rootA < rootB) parent[rootB] = rootA;
  else if (rootB < rootA) parent[rootA] = rootB;
}

/** Numbers the sets 0, 1, 2 … by their smallest members; returns their count and writes each member's number into `of`. */
export function number(parent: Int32Array, of: Int32Array): number {
  let count = 0;
  for (let i = 0; i < parent.length; i++) {
    const root = rootOf(parent, i);
    of[i] = root === i ? count++ : of[root]!;
  }
  return count;
}
