/** Which branches lie on some path from one terminal to the other; the others carry nothing between them. */
// The invariant behind the assertions below: the ends of edges and the two terminals are nodes below `nodes`, and only nodes of the walk are on its path.

interface Line {
  readonly from: number;
  readonly to: number;
}

/**
 * The edges of the block (biconnected component) that a line from `source` to `target` would belong to: Tarjan's walk, with a
 * stack of edges, started at `source` over that line. Written without recursion, for large circuits.
 */
export function signalBlock<E extends Line>(nodes: number, edges: readonly E[], source: number, target: number): E[] {
  const at: number[][] = Array.from({ length: nodes }, () => []);
  edges.forEach((edge, i) => {
    at[edge.from]!.push(i);
    if (edge.to !== edge.from) at[edge.to]!.push(i);
  });
  const seen = new Int32Array(nodes).fill(-1);
  const low = new Int32Array(nodes);
  const next = new Int32Array(nodes);
  const enteredBy = new Int32Array(nodes).fill(-1);
  const used = new Uint8Array(edges.length);
  const trail: number[] = [];
  const path = [target];
  // The line from source to target is the first step of the walk: whatever is left on the trail at the end is in its block.
  seen[source] = 0;
  seen[target] = low[target] = 1;
  let clock = 2;
  while (path.length > 0) {
    const node = path.at(-1)!;
    const index = at[node]![next[node]!];
    if (index === undefined) {
      path.pop();
      const parent = path.at(-1);
      if (parent === undefined) break;
      low[parent] = Math.min(low[parent]!, low[node]!);
      // Nothing below this node reaches above its parent: that piece hangs on one point and drops off.
      if (low[node]! >= seen[parent]!) while (trail.pop() !== enteredBy[node]);
      continue;
    }
    next[node] = next[node]! + 1;
    if (used[index] === 1) continue;
    used[index] = 1;
    const edge = edges[index]!;
    const other = edge.from === node ? edge.to : edge.from;
    if (other === node) continue;
    trail.push(index);
    if (seen[other] !== -1) low[node] = Math.min(low[node]!, seen[other]!);
    else {
      seen[other] = low[other] = clock++;
      enteredBy[other] = index;
      path.push(other);
    }
  }
  return trail.map((index) => edges[index]!);
}
