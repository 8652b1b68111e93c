/** Which pickups could be heard at all with some nets, however the pots are turned: found without solving. */
import type { Circuit, PartId } from '../../../circuit/model.js';
import type { Nets } from '../../../electrics/index.js';
import { createForest, join, rootOf } from '../../../numerics/index.js';
import { endsOf } from '../wiring/joined.js';

/**
 * Parts with a coil that some elements lead to the tip, otherwise than through ground. A pot counts as leading from each of its lugs to each
 * other, so that what is left out is silent at every rotation; what is in may be silent all the same.
 */
export function audibleParts(circuit: Circuit, { count, of, tip, ground }: Nets): ReadonlySet<PartId> {
  const parts = new Set<PartId>();
  if (tip < 0 || tip === ground) return parts;
  const forest = createForest(count);
  const link = (lugs: readonly number[]): void => {
    const nets = lugs.map((lug) => of[lug]!).filter((net) => net !== ground);
    for (const net of nets) join(forest, nets[0]!, net);
  };
  const coupled = new Map<PartId, number[]>();
  for (const element of circuit.elements) {
    link(element.kind === 'track' ? [...endsOf(element), element.b] : endsOf(element));
    // Coupled coils hand over what no wire joins.
    if (element.kind === 'coil' && (element.coupling ?? 0) !== 0)
      coupled.set(element.part, [...(coupled.get(element.part) ?? []), element.a, element.b]);
  }
  for (const lugs of coupled.values()) link(lugs);
  const heard = rootOf(forest, tip);
  const ends = new Int32Array(count);
  for (const element of circuit.elements)
    for (const lug of element.kind === 'track' ? [...endsOf(element), element.b] : endsOf(element)) ends[of[lug]!]!++;
  // A winding that ends on nothing carries no current, whatever its other end is on.
  const isLoose = (lug: number): boolean => of[lug] !== ground && of[lug] !== tip && ends[of[lug]!] === 1;
  for (const element of circuit.elements) {
    if (element.kind !== 'coil') continue;
    if ((element.coupling ?? 0) === 0 && (isLoose(element.a) || isLoose(element.b))) continue;
    if ([element.a, element.b].some((lug) => of[lug] !== ground && rootOf(forest, of[lug]!) === heard)) parts.add(element.part);
  }
  return parts;
}
