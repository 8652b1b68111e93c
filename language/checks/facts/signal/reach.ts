/** Which lugs the signal can get to: from a lug to the output's tip without passing ground, or to ground without passing the tip. */
import type { Circuit, LugId, PartId } from '../../../circuit/model.js';
import { netOf, type Nets } from '../../../electrics/index.js';
import { type Link, withoutEach } from '../../../numerics/index.js';
import { endsOf } from '../wiring/ends.js';
import { itemAt } from '../../../collections.js';

/**
 * Of these leads of parts those from which elements of other parts conduct to `target` (a net); what touches `barrier` is left out.
 * Capacitors count: they pass the signal.
 */
export function reachingWithoutOwn(
  circuit: Circuit,
  folded: Nets,
  target: number,
  barrier: number,
  leads: ReadonlyMap<PartId, readonly LugId[]>,
): readonly LugId[] {
  if (target < 0) return [];
  const leadsByBatch = [...leads.values()];
  const others: Link[] = [];
  const own = new Map<PartId, Link[]>([...leads.keys()].map((part) => [part, []]));
  for (const element of circuit.elements) {
    const links = own.get(element.part) ?? others;
    const [first, ...rest] = endsOf(element)
      .map((lug) => netOf(folded, lug))
      .filter((net) => net !== barrier);
    if (first !== undefined) for (const net of rest) links.push([first, net]);
  }
  const found: LugId[] = [];
  withoutEach(folded.count, others, [...own.values()], (batch, rootOf) => {
    const goal = rootOf(target);
    for (const lug of itemAt(leadsByBatch, batch)) {
      const net = netOf(folded, lug);
      if (net !== barrier && rootOf(net) === goal) found.push(lug);
    }
  });
  return found;
}
