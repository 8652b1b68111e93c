/** Elements that hang from a net by one end, so that no current can flow through them. */
import type { Circuit, Coil, LugId } from '../../circuit/model.js';
import { createForest, join, rootOf } from '../../electrics/disjoint.js';
import type { Nets } from '../../electrics/index.js';

export interface HangingCoil {
  readonly coil: Coil;
  /** Its end that leads to the hot side, and the one that meets nothing. */
  readonly held: LugId;
  readonly free: LugId;
}

interface Edge {
  readonly element: number;
  readonly a: number;
  readonly b: number;
}

/** Coils that hang by one end, directly or through others, from a net on the signal's side; those that hang from ground are at rest. */
export function hangingCoils(circuit: Circuit, folded: Nets): readonly HangingCoil[] {
  const edges = edgesOf(circuit, folded);
  const anchors = new Set([
    folded.ground,
    folded.tip,
    ...circuit.jacks.flatMap((id) => circuit.parts[id]!.lugs.map((lug) => folded.of[lug]!)),
  ]);
  const pruned = prune(edges, anchors, folded.count);
  const standing = new Set([...anchors, ...edges.filter((edge) => !pruned.has(edge)).flatMap(({ a, b }) => [a, b])]);
  const live = reachedFromTip(edges, pruned, folded);
  return [...pruned].flatMap((edge) => {
    const coil = circuit.elements[edge.element]!;
    if (coil.kind !== 'coil') return [];
    circuit.work?.charge('rule', folded.count + pruned.size);
    const forest = createForest(folded.count);
    for (const other of pruned) if (other !== edge) join(forest, other.a, other.b);
    const holds = (net: number): boolean =>
      [...standing].some((held) => held !== folded.ground && live(held) && rootOf(forest, held) === rootOf(forest, net));
    if (holds(edge.a)) return [{ coil, held: coil.a, free: coil.b }];
    return holds(edge.b) ? [{ coil, held: coil.b, free: coil.a }] : [];
  });
}

function edgesOf(circuit: Circuit, folded: Nets): readonly Edge[] {
  const edges: Edge[] = [];
  const add = (element: number, a: LugId, b: LugId): void => {
    const [from, to] = [folded.of[a]!, folded.of[b]!];
    if (from !== to) edges.push({ element, a: from, b: to });
  };
  for (const element of circuit.elements) {
    if (element.kind === 'track') {
      add(element.id, element.a, element.wiper);
      add(element.id, element.wiper, element.leavesTo ?? element.b);
    } else if (element.kind === 'gain') {
      add(element.id, element.a, element.minus);
      add(element.id, element.b, element.minus);
    } else add(element.id, element.a, element.b);
  }
  return edges;
}

/** Takes away, again and again, what ends on a net where nothing else is. */
function prune(edges: readonly Edge[], anchors: ReadonlySet<number>, count: number): ReadonlySet<Edge> {
  const at: Edge[][] = Array.from({ length: count }, () => []);
  for (const edge of edges) {
    at[edge.a]!.push(edge);
    at[edge.b]!.push(edge);
  }
  const left = at.map((list) => list.length);
  const pruned = new Set<Edge>();
  const queue = left.flatMap((degree, net) => (degree === 1 && !anchors.has(net) ? [net] : []));
  for (let net = queue.pop(); net !== undefined; net = queue.pop()) {
    const edge = at[net]!.find((one) => !pruned.has(one));
    if (edge === undefined) continue;
    pruned.add(edge);
    const other = edge.a === net ? edge.b : edge.a;
    left[net]!--;
    if (--left[other]! === 1 && !anchors.has(other)) queue.push(other);
  }
  return pruned;
}

/** Nets from which current gets to the tip without passing ground. */
function reachedFromTip(edges: readonly Edge[], pruned: ReadonlySet<Edge>, folded: Nets): (net: number) => boolean {
  const forest = createForest(folded.count);
  for (const edge of edges) {
    if (!pruned.has(edge) && edge.a !== folded.ground && edge.b !== folded.ground) join(forest, edge.a, edge.b);
  }
  return (net) => folded.tip >= 0 && rootOf(forest, net) === rootOf(forest, folded.tip);
}
