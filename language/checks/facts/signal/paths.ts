/** What leads to the tip, otherwise than through ground, with one element left out. */
import { type AnalysedCircuit, derive, derivation, type ElementId } from '../../../circuit/model.js';
import type { Nets } from '../../../electrics/index.js';
import { elementEnds } from '../wiring/ends.js';

/** True for a net from which elements other than that one lead to the tip; a pot leads from each of its lugs to each other. */
export function reachedWithout(circuit: AnalysedCircuit, folded: Nets, out?: ElementId): (net: number) => boolean {
  const { found, low, end, branches } = walkOf(circuit, folded);
  const foundAt = (node: number): number => found[node] ?? -1;
  const endOf = (node: number): number => end[node] ?? -1;
  const node = out === undefined ? -1 : folded.count + out;
  const at = foundAt(node);
  return (net) => {
    const place = foundAt(net);
    if (place < 0) return false;
    if (at < 0 || place < at || place >= endOf(node)) return true;
    // Found behind the element: it is reached all the same where its branch of the walk leads back past the element.
    const branch = branches(node).find((other) => foundAt(other) <= place && place < endOf(other));
    return branch !== undefined && (low[branch] ?? at) < at;
  };
}

/** A walk in depth from the tip over nets and elements in turn, ground left out. A node is a net, or an element's id behind the nets. */
interface Walk {
  /** When each node was found, −1 where it was not; what was found behind it was found before `end`. */
  readonly found: Int32Array;
  readonly end: Int32Array;
  /** The earliest node that something found behind this one lies beside. */
  readonly low: Int32Array;
  /** Nodes that were found from this one. */
  branches(node: number): readonly number[];
}

/** The walk of a setting, taken once for all elements that are left out of it (articulation points after R. Tarjan, 1972). */
function walkOf(circuit: AnalysedCircuit, folded: Nets): Walk {
  const kept = derive(circuit, walks);
  const walk = kept.get(folded) ?? makeWalk(circuit, folded);
  kept.set(folded, walk);
  return walk;
}

const walks = derivation(['elements'], (): WeakMap<Nets, Walk> => new WeakMap());

function makeWalk(circuit: AnalysedCircuit, folded: Nets): Walk {
  const { count, tip, ground } = folded;
  circuit.analysis.work?.charge('rule', count + circuit.elements.length);
  const { first, nodes } = neighbours(circuit, folded);
  const size = count + circuit.elements.length;
  const unmet = (): Int32Array => new Int32Array(size).fill(-1);
  const [found, end, low, parent] = [unmet(), unmet(), unmet(), unmet()];
  const lower = (node: number, time: number): void => {
    low[node] = Math.min(low[node] ?? time, time);
  };
  const next = first.slice();
  let time = 0;
  const enter = (node: number): void => {
    found[node] = low[node] = time++;
  };
  if (tip >= 0 && tip !== ground) enter(tip);
  for (let node = time > 0 ? tip : -1; node >= 0;) {
    const step = next[node] ?? 0;
    next[node] = step + 1;
    const other = step < (first[node + 1] ?? 0) ? (nodes[step] ?? -1) : -1;
    if (other < 0) {
      end[node] = time;
      const above = parent[node] ?? -1;
      if (above >= 0) lower(above, low[node] ?? time);
      node = above;
    } else if ((found[other] ?? -1) < 0) {
      parent[other] = node;
      enter(other);
      node = other;
    } else if (other !== parent[node]) lower(node, found[other] ?? time);
  }
  const branches = (node: number): readonly number[] =>
    Array.from(nodes.subarray(first[node], first[node + 1])).filter((other) => parent[other] === node);
  return { found, end, low, branches };
}

/** What each node lies beside, an element beside the nets of its lugs and a net beside its elements: those of a node are `nodes` from its `first` up to that of the next. */
interface Beside {
  readonly first: Int32Array;
  readonly nodes: Int32Array;
}

/** In two passes over lists of numbers: it is made for every setting, and lists of their own would be millions in a large circuit. */
function neighbours(circuit: AnalysedCircuit, { of, count, ground }: Nets): Beside {
  const ends = elementEnds(circuit);
  const elements = circuit.elements.length;
  const first = new Int32Array(count + elements + 1);
  /** The net of an end; −1 for ground, and for one that an earlier end of the element is on. */
  const netAt = (element: number, end: number): number => {
    const net = of[ends.lugs[end] ?? -1] ?? -1;
    if (net === ground) return -1;
    for (let earlier = ends.first[element] ?? 0; earlier < end; earlier++) if (of[ends.lugs[earlier] ?? -1] === net) return -1;
    return net;
  };
  const each = (visit: (node: number, net: number) => void): void => {
    for (let element = 0; element < elements; element++) {
      for (let end = ends.first[element] ?? 0; end < (ends.first[element + 1] ?? 0); end++) {
        const net = netAt(element, end);
        if (net >= 0) visit(count + element, net);
      }
    }
  };
  const grow = (node: number): void => {
    first[node + 1] = (first[node + 1] ?? 0) + 1;
  };
  each((node, net) => {
    grow(node);
    grow(net);
  });
  for (let node = 0; node < count + elements; node++) first[node + 1] = (first[node + 1] ?? 0) + (first[node] ?? 0);
  const nodes = new Int32Array(first[count + elements] ?? 0);
  const free = first.slice();
  const put = (node: number, other: number): void => {
    const place = free[node] ?? 0;
    nodes[place] = other;
    free[node] = place + 1;
  };
  each((node, net) => {
    put(node, net);
    put(net, node);
  });
  return { first, nodes };
}
