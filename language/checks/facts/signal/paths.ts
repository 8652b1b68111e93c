/** What leads to the tip, otherwise than through ground, with one element left out. */
import { type AnalysedCircuit, derive, derivation, type ElementId } from '../../../circuit/model.js';
import type { Nets } from '../../../electrics/index.js';
import { endsOf } from '../wiring/joined.js';

/** True for a net from which elements other than that one lead to the tip; a pot leads from each of its lugs to each other. */
export function reachedWithout(circuit: AnalysedCircuit, folded: Nets, out?: ElementId): (net: number) => boolean {
  const { found, low, end, branches } = walkOf(circuit, folded);
  const node = out === undefined ? -1 : folded.count + out;
  const at = node < 0 ? -1 : found[node]!;
  return (net) => {
    const place = found[net]!;
    if (place < 0) return false;
    if (at < 0 || place < at || place >= end[node]!) return true;
    // Found behind the element: it is reached all the same where its branch of the walk leads back past the element.
    const branch = branches(node).find((other) => found[other]! <= place && place < end[other]!)!;
    return low[branch]! < at;
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

function makeWalk({ elements, analysis }: AnalysedCircuit, folded: Nets): Walk {
  const { count, of, tip, ground } = folded;
  analysis.work?.charge('rule', count + elements.length);
  const beside: number[][] = Array.from({ length: count + elements.length }, () => []);
  for (const element of elements) {
    const node = count + element.id;
    for (const lug of endsOf(element)) {
      const net = of[lug]!;
      if (net === ground || beside[node]!.includes(net)) continue;
      beside[node]!.push(net);
      beside[net]!.push(node);
    }
  }
  const [found, end, low, parent] = [0, 0, 0, 0].map(() => new Int32Array(beside.length).fill(-1)) as [
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  const next = new Int32Array(beside.length);
  let time = 0;
  const enter = (node: number): void => {
    found[node] = low[node] = time++;
  };
  if (tip >= 0 && tip !== ground) enter(tip);
  for (let node = time > 0 ? tip : -1; node >= 0;) {
    const other = beside[node]![next[node]!++];
    if (other === undefined) {
      end[node] = time;
      const above = parent[node]!;
      if (above >= 0) low[above] = Math.min(low[above]!, low[node]!);
      node = above;
    } else if (found[other]! < 0) {
      parent[other] = node;
      enter(other);
      node = other;
    } else if (other !== parent[node]) low[node] = Math.min(low[node]!, found[other]!);
  }
  return { found, end, low, branches: (node) => beside[node]!.filter((other) => parent[other] === node) };
}
