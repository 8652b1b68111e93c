/** Leads of parts, and those of them that lead to nothing. */
import type { Circuit, LugId, Part } from '../../circuit/model.js';
import type { Facts } from './index.js';
import { endsOf, foldJoints } from './joined.js';
import { ownPart } from './words.js';

/** Leads of a part that are soldered to nothing, or only to splices and tags on which nothing else ends. */
export function looseLeads(facts: Facts, part: Part): readonly LugId[] {
  const { joined } = facts;
  const hasCompany = (lug: LugId): boolean =>
    joined.members(joined.klass(lug)).some((other) => other !== lug && !isCarrier(facts, other));
  return leadsOf(facts, part).filter((lug) => !joined.isWired(lug) || !hasCompany(lug));
}

/** What stands on a lug's net besides itself and bare carriers. */
export function companyOf(facts: Facts, lug: LugId): readonly LugId[] {
  const { joined } = facts;
  return joined.members(joined.klass(lug)).filter((other) => other !== lug && !isCarrier(facts, other));
}

/** True for a lug that only carries joints: a splice, a tag of a strip. */
export function isCarrier({ circuit }: Facts, lug: LugId): boolean {
  const { ancestry } = circuit.parts[circuit.lugs[lug]!.part]!;
  return ancestry.includes('junction') || ancestry.includes('tag-strip');
}

/** Lugs at which exactly one element of the part ends; where two meet (a tap, a link made inside) the lug may stay free. */
function leadsOf({ circuit, joined }: Facts, part: Part): readonly LugId[] {
  if (part.family === 'assembly') return part.lugs.filter((lug) => endsInside(circuit, part, lug) === 1);
  if (part.family !== 'pickup' && part.family !== 'passive' && part.family !== 'amplifier') return [];
  const elements = part.elements.map((id) => circuit.elements[id]!);
  const ends = elements.flatMap((element) => [element.a, element.b]);
  const isLinked = (lug: LugId): boolean => joined.at(lug).some((joint) => joint.kind === 'inside');
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1 && !isLinked(lug));
}

/** How many elements inside an assembly end on one of its lugs. */
function endsInside(circuit: Circuit, assembly: Part, lug: LugId): number {
  const inside = foldJoints(
    circuit,
    circuit.joints.filter((joint) => [joint.a, joint.b].every((end) => isWithin(circuit, assembly, end))),
  );
  return circuit.elements.flatMap(endsOf).filter((end) => inside[end] === inside[lug]).length;
}

function isWithin(circuit: Circuit, assembly: Part, lug: LugId): boolean {
  return ownPart(circuit, circuit.lugs[lug]!.part).id === assembly.id;
}
