/** Elements that hang from a net by one end, so that no current can flow through them. */
import {
  type AnalysedCircuit,
  type Circuit,
  type Coil,
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

interface Edge {
  readonly element: ElementId;
  readonly a: number;
  readonly b: number;
}

/** Coils that hang by one end, directly or through others, from a net on the signal's side; those that hang from ground are at rest. */
export function hangingCoils(circuit: AnalysedCircuit, folded: Nets): readonly HangingCoil[] {
  const edges = edgesOf(circuit, folded);
  const anchors = new Set([
    folded.ground,
    folded.tip,
    ...circuit.jacks.flatMap((id) => partById(circuit, id).lugs.map((lug) => netOf(folded, lug))),
  ]);
  const pruned = prune(edges, anchors, folded.count);
  const live = reachedFromTip(edges, pruned, folded);
  circuit.analysis.work?.charge('rule', pruned.size);
  // What hangs together is a tree, so that only its root can be on what stays. The root of what was taken away last is known first.
  const roots = new Map<number, number>();
  for (const { free, held } of [...pruned.values()].reverse()) roots.set(free, roots.get(held) ?? held);
  const stays = new Set(anchors);
  for (const edge of edges) if (!pruned.has(edge)) stays.add(edge.a).add(edge.b);
  return [...pruned].flatMap(([edge, { held }]) => {
    const coil = elementById(circuit, edge.element);
    if (coil.kind !== 'coil') return [];
    const root = roots.get(held) ?? held;
    if (root === folded.ground || !stays.has(root) || !live(root)) return [];
    return [held === edge.a ? { coil, held: coil.a, free: coil.b } : { coil, held: coil.b, free: coil.a }];
  });
}

function edgesOf(circuit: Circuit, folded: Nets): readonly Edge[] {
  const edges: Edge[] = [];
  const add = (element: ElementId, a: LugId, b: LugId): void => {
    const [from, to] = [netOf(folded, a), netOf(folded, b)];
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

/** The net at which an edge ends on nothing else, and the one that it hangs from. */
interface Hold {
  readonly free: number;
  readonly held: number;
}

/** Takes away, again and again, what ends on a net where nothing else is. Each net is the free end of one edge at most, and what stays is never one. */
function prune(edges: readonly Edge[], anchors: ReadonlySet<number>, count: number): ReadonlyMap<Edge, Hold> {
  const at: Edge[][] = Array.from({ length: count }, () => []);
  for (const edge of edges) {
    itemAt(at, edge.a).push(edge);
    itemAt(at, edge.b).push(edge);
  }
  const left = at.map((list) => list.length);
  const pruned = new Map<Edge, Hold>();
  const queue = left.flatMap((degree, net) => (degree === 1 && !anchors.has(net) ? [net] : []));
  for (let net = queue.pop(); net !== undefined; net = queue.pop()) {
    const edge = itemAt(at, net).find((one) => !pruned.has(one));
    if (edge === undefined) continue;
    const other = edge.a === net ? edge.b : edge.a;
    pruned.set(edge, { free: net, held: other });
    left[net] = itemAt(left, net) - 1;
    const rest = itemAt(left, other) - 1;
    left[other] = rest;
    if (rest === 1 && !anchors.has(other)) queue.push(other);
  }
  return pruned;
}

/** Nets from which current gets to the tip without passing ground. */
function reachedFromTip(edges: readonly Edge[], pruned: ReadonlyMap<Edge, Hold>, folded: Nets): (net: number) => boolean {
  const forest = createForest(folded.count);
  for (const edge of edges) {
    if (!pruned.has(edge) && edge.a !== folded.ground && edge.b !== folded.ground) join(forest, edge.a, edge.b);
  }
  return (net) => folded.tip >= 0 && rootOf(forest, net) === rootOf(forest, folded.tip);
}
