/** What leads to the tip, otherwise than through ground, with one element left out. */
import type { Circuit, ElementId } from '../../circuit/model.js';
import { createForest, join, rootOf, type Nets } from '../../electrics/index.js';
import { endsOf } from './joined.js';

/** True for a net from which elements other than that one lead to the tip; a pot leads from each of its lugs to each other. */
export function reachedWithout(circuit: Circuit, { count, of, tip, ground }: Nets, out?: ElementId): (net: number) => boolean {
  const forest = createForest(count);
  for (const element of circuit.elements) {
    if (element.id === out) continue;
    const nets = endsOf(element)
      .map((lug) => of[lug]!)
      .filter((net) => net !== ground);
    for (const net of nets) join(forest, nets[0]!, net);
  }
  return (net) => tip >= 0 && net !== ground && rootOf(forest, net) === rootOf(forest, tip);
}
