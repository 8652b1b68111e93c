/** Elements that hang from a net by one end, so that no current can flow through them. */
import {
  type AnalysedCircuit,
  type Coil,
  derivation,
  derive,
  elementById,
  type ElementId,
  type LugId,
  partById,
} from '../../../circuit/model.js';
import { netOf, type Nets } from '../../../electrics/index.js';
import { createForest, join, rootOf } from '../../../numerics/index.js';
import { itemAt } from '../../../collections.js';

export interface HangingCoil {
  readonly coil: Coil;
  /** Its end that leads to the hot side, and the one that meets nothing. */
  readonly held: LugId;
  readonly free: LugId;
}

/** Coils that hang by one end, directly or through others, from a net on the signal's side; those that hang from ground are at rest. */
export function hangingCoils(circuit: AnalysedCircuit, folded: Nets): readonly HangingCoil[] {
  const edges = edgesIn(circuit, folded);
  const anchors = new Set([
    folded.ground,
    folded.tip,
    ...circuit.jacks.flatMap((id) => partById(circuit, id).lugs.map((lug) => netOf(folded, lug))),
  ]);
  const pruned = prune(edges, anchors, folded.count);
  circuit.analysis.work?.charge('rule', pruned.length);
  if (pruned.length === 0) return [];
  const isPruned = new Uint8Array(edges.length);
  for (const { edge } of pruned) isPruned[edge] = 1;
  const live = reachedFromTip(edges, isPruned, folded);
  // What hangs together is a tree, so that only its root can be on what stays. The root of what was taken away last is known first.
  const roots = new Map<number, number>();
  for (const { free, held } of [...pruned].reverse()) roots.set(free, roots.get(held) ?? held);
  const stays = new Uint8Array(folded.count);
  for (const net of anchors) stays[net] = 1;
  for (let edge = 0; edge < edges.length; edge++) {
    if (isPruned[edge] === 1 || !isEdge(edges, edge)) continue;
    stays[edges.from[edge] ?? -1] = 1;
    stays[edges.to[edge] ?? -1] = 1;
  }
  return pruned.flatMap(({ edge, held }) => {
    const coil = elementById(circuit, itemAt(edges.elements, edge));
    if (coil.kind !== 'coil') return [];
    const root = roots.get(held) ?? held;
    if (root === folded.ground || stays[root] !== 1 || !live(root)) return [];
    return [held === edges.from[edge] ? { coil, held: coil.a, free: coil.b } : { coil, held: coil.b, free: coil.a }];
  });
}

/** What elements tie together, by the number of the tie: the two nets of each, which are one where it ties nothing. */
interface Edges {
  readonly length: number;
  readonly elements: readonly ElementId[];
  readonly from: Int32Array;
  readonly to: Int32Array;
}

function isEdge({ from, to }: Edges, edge: number): boolean {
  return from[edge] !== to[edge];
}

function edgesIn(circuit: AnalysedCircuit, { of }: Nets): Edges {
  const { elements, a, b } = derive(circuit, ties);
  return { length: elements.length, elements, from: a.map((lug) => of[lug] ?? -1), to: b.map((lug) => of[lug] ?? -1) };
}

const ties = derivation(['elements'], ({ elements }) => {
  const found: { readonly element: ElementId; readonly a: LugId; readonly b: LugId }[] = [];
  for (const element of elements) {
    const { id } = element;
    if (element.kind === 'track') {
      found.push({ element: id, a: element.a, b: element.wiper });
      found.push({ element: id, a: element.wiper, b: element.leavesTo ?? element.b });
    } else if (element.kind === 'gain') {
      for (const a of [element.a, element.b, element.inverting])
        if (a !== undefined) found.push({ element: id, a, b: element.minus });
    } else found.push({ element: id, a: element.a, b: element.b });
  }
  return {
    elements: found.map(({ element }) => element),
    a: Int32Array.from(found, ({ a }) => a),
    b: Int32Array.from(found, ({ b }) => b),
  };
});

/** An edge that is taken away: the net at which it ends on nothing else, and the one that it hangs from. */
interface Hold {
  readonly edge: number;
  readonly free: number;
  readonly held: number;
}

/** Takes away, again and again, what ends on a net where nothing else is. Each net is the free end of one edge at most, and what stays is never one. */
function prune(edges: Edges, anchors: ReadonlySet<number>, count: number): readonly Hold[] {
  const left = new Int32Array(count);
  // The sum of the edges that are left on a net: where that is one, it is the edge.
  const sum = new Int32Array(count);
  const add = (net: number, edge: number, by: 1 | -1): number => {
    sum[net] = (sum[net] ?? 0) + by * edge;
    return (left[net] = (left[net] ?? 0) + by);
  };
  for (let edge = 0; edge < edges.length; edge++) {
    if (!isEdge(edges, edge)) continue;
    add(edges.from[edge] ?? -1, edge, 1);
    add(edges.to[edge] ?? -1, edge, 1);
  }
  const pruned: Hold[] = [];
  const queue: number[] = [];
  for (let net = 0; net < count; net++) if (left[net] === 1 && !anchors.has(net)) queue.push(net);
  for (let net = queue.pop(); net !== undefined; net = queue.pop()) {
    if (left[net] !== 1) continue;
    const edge = sum[net] ?? -1;
    const other = (edges.from[edge] === net ? edges.to[edge] : edges.from[edge]) ?? -1;
    pruned.push({ edge, free: net, held: other });
    add(net, edge, -1);
    if (add(other, edge, -1) === 1 && !anchors.has(other)) queue.push(other);
  }
  return pruned;
}

/** Nets from which current gets to the tip without passing ground. */
function reachedFromTip(edges: Edges, isPruned: Uint8Array, { count, ground, tip }: Nets): (net: number) => boolean {
  const forest = createForest(count);
  for (let edge = 0; edge < edges.length; edge++) {
    const [from, to] = [edges.from[edge] ?? -1, edges.to[edge] ?? -1];
    if (isPruned[edge] !== 1 && from !== ground && to !== ground) join(forest, from, to);
  }
  return (net) => tip >= 0 && rootOf(forest, net) === rootOf(forest, tip);
}
