/** Which pickups could be heard at all with some nets, however the pots are turned: found without solving. */
import { type AnalysedCircuit, derivation, derive, type Element, type LugId, type PartId } from '../../../circuit/model.js';
import { netOf, type Nets } from '../../../electrics/index.js';
import { createForest, join, rootOf } from '../../../numerics/index.js';
import { countEnds, endsOf, listEnds } from '../wiring/ends.js';

/**
 * Parts with a coil that some elements lead to the tip, otherwise than through ground. A pot counts as leading from each of its lugs to each
 * other, so that what is left out is silent at every rotation; what is in may be silent all the same.
 */
export function audibleParts(circuit: AnalysedCircuit, folded: Nets): ReadonlySet<PartId> {
  const { count, tip, ground } = folded;
  const parts = new Set<PartId>();
  if (tip < 0 || tip === ground) return parts;
  const forest = createForest(count);
  const link = (lugs: readonly LugId[]): void => {
    const [first, ...others] = lugs.map((lug) => netOf(folded, lug)).filter((net) => net !== ground);
    if (first !== undefined) for (const net of others) join(forest, first, net);
  };
  const coupled = new Map<PartId, LugId[]>();
  for (const element of circuit.elements) {
    link(lugsOf(element));
    // Coupled coils hand over what no wire joins.
    if (element.kind === 'coil' && (element.coupling ?? 0) !== 0)
      coupled.set(element.part, [...(coupled.get(element.part) ?? []), element.a, element.b]);
  }
  for (const lugs of coupled.values()) link(lugs);
  const heard = rootOf(forest, tip);
  const ends = countEnds(folded, derive(circuit, allEnds));
  // A winding that ends on nothing carries no current, whatever its other end is on.
  const isLoose = (lug: LugId): boolean => {
    const net = netOf(folded, lug);
    return net !== ground && net !== tip && ends[net] === 1;
  };
  const isHeardAt = (lug: LugId): boolean => {
    const net = netOf(folded, lug);
    return net !== ground && rootOf(forest, net) === heard;
  };
  for (const element of circuit.elements) {
    if (element.kind !== 'coil') continue;
    if ((element.coupling ?? 0) === 0 && (isLoose(element.a) || isLoose(element.b))) continue;
    if (isHeardAt(element.a) || isHeardAt(element.b)) parts.add(element.part);
  }
  return parts;
}

const allEnds = derivation(['elements'], ({ elements }) => listEnds(elements, lugsOf));

/** The far end of a track counts even where it leads elsewhere. */
function lugsOf(element: Element): readonly LugId[] {
  return element.kind === 'track' ? [...endsOf(element), element.b] : endsOf(element);
}
