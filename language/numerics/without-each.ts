/** The sets that links make with one batch of them left out, for each batch in turn. */
// The invariant behind the assertions below: links join members below `count`, a parent is a member, and a batch's number is below that of the batches.
import { createForest } from './union-find.js';

/** Two members that belong together. */
export type Link = readonly [number, number];

/**
 * Leaves out each batch in turn and shows the sets that all other links make: `rootOf` answers the same for members of one set, until
 * `visit` returns. Half of the batches is joined once for all of the other half, and so on, so that each link is joined as often as the
 * number of batches can be halved, and not once for each batch.
 */
export function withoutEach(
  count: number,
  always: Iterable<Link>,
  batches: readonly Iterable<Link>[],
  visit: (batch: number, rootOf: (member: number) => number) => void,
): void {
  const sets = createUndoable(count);
  const leaveOut = (from: number, to: number): void => {
    if (to - from === 1) {
      visit(from, sets.rootOf);
      return;
    }
    const middle = (from + to) >> 1;
    const before = sets.joined();
    for (let batch = middle; batch < to; batch++) sets.join(batches[batch]!);
    leaveOut(from, middle);
    sets.undo(before);
    for (let batch = from; batch < middle; batch++) sets.join(batches[batch]!);
    leaveOut(middle, to);
    sets.undo(before);
  };
  sets.join(always);
  if (batches.length > 0) leaveOut(0, batches.length);
}

interface Undoable {
  join(links: Iterable<Link>): void;
  rootOf(member: number): number;
  /** How many joins were made, which `undo` goes back to. */
  joined(): number;
  undo(to: number): void;
}

/** The smaller set goes below the larger, and no path is made shorter, so that each join can be taken back. */
function createUndoable(count: number): Undoable {
  const parent = createForest(count);
  const size = new Int32Array(count).fill(1);
  const moved: number[] = [];
  const rootOf = (member: number): number => {
    let at = member;
    while (parent[at]! !== at) at = parent[at]!;
    return at;
  };
  return {
    rootOf,
    join(links) {
      for (const [a, b] of links) {
        const [x, y] = [rootOf(a), rootOf(b)];
        if (x === y) continue;
        const [above, below] = size[x]! < size[y]! ? [y, x] : [x, y];
        parent[below] = above;
        size[above]! += size[below]!;
        moved.push(below);
      }
    },
    joined: () => moved.length,
    undo(to) {
      while (moved.length > to) {
        const below = moved.pop()!;
        size[parent[below]!]! -= size[below]!;
        parent[below] = below;
      }
    },
  };
}
