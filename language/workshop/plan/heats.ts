/** As few heatings of flat metal as can be: which end of a wire between two plates is soldered at the bench. */

/** A wire between two flat spots that both want it at the bench; only one end can have it there. */
export type Conflict = readonly [a: number, b: number];

export interface Cover {
  /** Spots that are heated once more. */
  readonly chosen: ReadonlySet<number>;
  /** No choice heats fewer than this many once more. */
  readonly bound: number;
  /** True where the search was whole, so that the bound is reached. */
  readonly exact: boolean;
}

/** Conflicts that are searched whole; beyond, the bound is shown beside what was found. */
const most = 24;

/**
 * Each conflict makes one of its two spots pay a second heat, and a spot pays once: the fewest is a least vertex cover. Searched by branching
 * on a spot with most conflicts (taken, or all its neighbours taken); a matching is the lower bound (weak duality: the edges of a
 * matching need a spot each).
 */
export function fewestReheats(conflicts: readonly Conflict[]): Cover {
  const edges = distinct(conflicts);
  const loops = edges.filter(([a, b]) => a === b).map(([a]) => a);
  const open = edges.filter(([a, b]) => !loops.includes(a) && !loops.includes(b));
  const greedy = greedyCover(open);
  const spots = new Set(open.flat()).size;
  const bound = matching(open) + loops.length;
  if (spots > most) return { chosen: new Set([...loops, ...greedy]), bound, exact: greedy.size + loops.length === bound };
  const best = search(open, new Set(), greedy);
  return { chosen: new Set([...loops, ...best]), bound: best.size + loops.length, exact: true };
}

function distinct(conflicts: readonly Conflict[]): Conflict[] {
  const seen = new Map(conflicts.map(([a, b]) => [`${Math.min(a, b)} ${Math.max(a, b)}`, [a, b] as const]));
  return [...seen.values()];
}

function search(open: readonly Conflict[], taken: ReadonlySet<number>, best: ReadonlySet<number>): ReadonlySet<number> {
  if (open.length === 0) return taken.size < best.size ? taken : best;
  if (taken.size + matching(open) >= best.size) return best;
  const spot = busiest(open);
  const near = open.flatMap(([a, b]) => (a === spot ? [b] : b === spot ? [a] : []));
  const without = (spots: readonly number[]): Conflict[] => open.filter(([a, b]) => !spots.includes(a) && !spots.includes(b));
  const first = search(without([spot]), new Set([...taken, spot]), best);
  return search(without(near), new Set([...taken, ...near]), first);
}

function greedyCover(open: readonly Conflict[]): Set<number> {
  const chosen = new Set<number>();
  let left = open;
  while (left.length > 0) {
    const spot = busiest(left);
    chosen.add(spot);
    left = left.filter(([a, b]) => a !== spot && b !== spot);
  }
  return chosen;
}

function busiest(open: readonly Conflict[]): number {
  const degree = new Map<number, number>();
  for (const spot of open.flat()) degree.set(spot, (degree.get(spot) ?? 0) + 1);
  return [...degree].reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0];
}

/** Edges that share no spot, taken as they come: as many as any cover at least needs. */
function matching(open: readonly Conflict[]): number {
  const used = new Set<number>();
  let size = 0;
  for (const [a, b] of open) {
    if (used.has(a) || used.has(b)) continue;
    used.add(a).add(b);
    size++;
  }
  return size;
}
