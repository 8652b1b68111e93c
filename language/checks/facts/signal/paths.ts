/** What leads to the tip, otherwise than through ground, with one element left out. */
import { type AnalysedCircuit, derive, derivation, type Element, type ElementId } from '../../../circuit/model.js';
import { netOf, type Nets } from '../../../electrics/index.js';
import { endsOf } from '../wiring/joined.js';
import { itemAt } from '../../../collections.js';

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

function makeWalk({ elements, analysis }: AnalysedCircuit, folded: Nets): Walk {
  const { count, tip, ground } = folded;
  analysis.work?.charge('rule', count + elements.length);
  const beside = neighbours(elements, folded);
  const unmet = (): Int32Array => new Int32Array(beside.length).fill(-1);
  const [found, end, low, parent] = [unmet(), unmet(), unmet(), unmet()];
  const lower = (node: number, time: number): void => {
    low[node] = Math.min(low[node] ?? time, time);
  };
  const next = new Int32Array(beside.length);
  let time = 0;
  const enter = (node: number): void => {
    found[node] = low[node] = time++;
  };
  if (tip >= 0 && tip !== ground) enter(tip);
  for (let node = time > 0 ? tip : -1; node >= 0;) {
    const step = next[node] ?? 0;
    next[node] = step + 1;
    const other = itemAt(beside, node)[step];
    if (other === undefined) {
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
  return { found, end, low, branches: (node) => itemAt(beside, node).filter((other) => parent[other] === node) };
}

/** What each node lies beside: an element beside the nets of its lugs, a net beside its elements. */
function neighbours(elements: readonly Element[], folded: Nets): readonly (readonly number[])[] {
  const { count, ground } = folded;
  const beside: number[][] = Array.from({ length: count + elements.length }, () => []);
  for (const element of elements) {
    const node = count + element.id;
    const own = itemAt(beside, node);
    for (const lug of endsOf(element)) {
      const net = netOf(folded, lug);
      if (net === ground || own.includes(net)) continue;
      own.push(net);
      itemAt(beside, net).push(node);
    }
  }
  return beside;
}
