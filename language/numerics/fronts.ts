/** The plan of an elimination in fronts: each unknown with the ones that its elimination touches, as a tree, so that a change redoes one path of it. */

export interface Fronts {
  readonly size: number;
  /** Step at which each unknown is eliminated. */
  readonly stepOf: Int32Array;
  /** Per step, the later steps that its elimination touches, in order. */
  readonly rest: readonly Int32Array[];
  /** The first of `rest`: where its contribution goes; −1 where nothing is left. */
  readonly parent: Int32Array;
  readonly children: readonly (readonly number[])[];
  /** The first step of the subtree that ends with each step: the steps from there to it are those that contribute to it. */
  readonly first: Int32Array;
  /** Places of `rest` in the front of the parent, which is the parent itself (0) and its own `rest` (from 1 on). */
  readonly places: readonly Int32Array[];
}

/**
 * Plans an elimination of `size` unknowns that are joined in pairs, fewest neighbours first and `last` last (the multifrontal method; Duff
 * and Reid, 1983): what a step takes from the ones after it goes to its parent alone, so a changed value reaches only the steps on the way
 * from it to the root.
 */
export function createFronts(size: number, pairs: readonly (readonly [number, number])[], last: number): Fronts {
  const neighbours = Array.from({ length: size }, () => new Set<number>());
  for (const [a, b] of pairs) {
    if (a < 0 || b < 0 || a === b) continue;
    neighbours[a]!.add(b);
    neighbours[b]!.add(a);
  }
  const queue = createQueue(neighbours, last);
  const order = new Int32Array(size);
  const turn = new Int32Array(size);
  const touched: (readonly number[])[] = Array.from({ length: size }, () => []);
  for (let at = 0; at < size; at++) {
    const pivot = at === size - 1 ? last : queue.next();
    order[at] = pivot;
    turn[pivot] = at;
    const left = [...neighbours[pivot]!];
    touched[pivot] = left;
    for (const one of left) {
      const of = neighbours[one]!;
      of.delete(pivot);
      for (const other of left) if (other !== one) of.add(other);
      queue.put(one);
    }
  }
  const above = Int32Array.from(touched, (left) => left.reduce((a, b) => (a < 0 || turn[b]! < turn[a]! ? b : a), -1));
  const stepOf = postorder(above, order);
  const rest: Int32Array[] = Array.from({ length: size });
  touched.forEach((left, unknown) => (rest[stepOf[unknown]!] = Int32Array.from(left, (other) => stepOf[other]!).sort()));
  const parent = Int32Array.from(rest, (steps) => steps[0] ?? -1);
  const children: number[][] = Array.from({ length: size }, () => []);
  const first = new Int32Array(size);
  parent.forEach((above, step) => {
    first[step] = children[step]!.length === 0 ? step : first[children[step]![0]!]!;
    if (above >= 0) children[above]!.push(step);
  });
  const places = rest.map((steps, step) => {
    const above = parent[step]!;
    return steps.map((one) => (one === above ? 0 : rest[above]!.indexOf(one) + 1));
  });
  return { size, stepOf, rest, parent, children, first, places };
}

/** Steps in which every subtree is a run of its own; the elimination stays the same one. */
function postorder(above: Int32Array, order: Int32Array): Int32Array {
  const stepOf = new Int32Array(above.length);
  const below: number[][] = Array.from({ length: above.length }, () => []);
  for (const unknown of order) if (above[unknown]! >= 0) below[above[unknown]!]!.push(unknown);
  let step = above.length;
  // Backwards: a step comes before all that contributes to it.
  const waiting = [...order].filter((unknown) => above[unknown]! < 0);
  while (waiting.length > 0) {
    const unknown = waiting.pop()!;
    stepOf[unknown] = --step;
    waiting.push(...below[unknown]!);
  }
  return stepOf;
}

/** Unknowns by the number of their neighbours; those whose number has changed since stand in it twice, and only the last place counts. */
function createQueue(neighbours: readonly ReadonlySet<number>[], last: number) {
  const byNumber: number[][] = [];
  const done = new Uint8Array(neighbours.length);
  let least = 0;
  const put = (unknown: number): void => {
    const { size } = neighbours[unknown]!;
    if (unknown === last || done[unknown] === 1) return;
    (byNumber[size] ??= []).push(unknown);
    least = Math.min(least, size);
  };
  for (let unknown = neighbours.length - 1; unknown >= 0; unknown--) put(unknown);
  return {
    put,
    next(): number {
      for (; ; least++) {
        const bucket = byNumber[least] ?? [];
        while (bucket.length > 0) {
          const unknown = bucket.pop()!;
          if (done[unknown] === 1 || neighbours[unknown]!.size !== least) continue;
          done[unknown] = 1;
          return unknown;
        }
      }
    },
  };
}
