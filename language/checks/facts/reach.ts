/** Which lugs the signal can get to: from a lug to the output's tip without passing ground, or to ground without passing the tip. */
import type { Circuit, LugId, PartId } from '../../circuit/model.js';
import { createForest, join, rootOf } from '../../electrics/disjoint.js';
import type { Nets } from '../../electrics/index.js';
import { endsOf } from './joined.js';

/**
 * Nets that conduct to `target` (a net) through elements, those of `without` and whatever touches `barrier` left out.
 * Capacitors count: they pass the signal.
 */
export function reaching(
  circuit: Circuit,
  folded: Nets,
  target: number,
  barrier: number,
  without?: PartId,
): (lug: LugId) => boolean {
  const forest = createForest(folded.count);
  for (const element of circuit.elements) {
    if (element.part === without) continue;
    const nets = endsOf(element)
      .map((lug) => folded.of[lug]!)
      .filter((net) => net !== barrier);
    for (const net of nets.slice(1)) join(forest, nets[0]!, net);
  }
  const goal = target < 0 ? -1 : rootOf(forest, target);
  return (lug) => goal >= 0 && folded.of[lug] !== barrier && rootOf(forest, folded.of[lug]!) === goal;
}
