/** Leads of parts, and those of them that lead to nothing. */
import { elementById, lugById, partOfLug, type Circuit, type LugId, type Part } from '../../../circuit/model.js';
import type { Facts } from '../facts.js';
import { endsOf, foldJoints, type Joined } from './joined.js';
import { ownPart } from '../words.js';
import { netOf } from '../../../electrics/index.js';

/** Leads of a part that are soldered to nothing, or only to splices and tags on which nothing else ends. */
export function looseLeads(facts: Facts, part: Part): readonly LugId[] {
  const { joined } = facts;
  const hasCompany = (lug: LugId): boolean => facts.endings(joined.classOf(lug)) > (isCarrier(facts.circuit, lug) ? 0 : 1);
  return leadsOf(facts, part).filter((lug) => !joined.isWired(lug) || !hasCompany(lug));
}

/** What stands on a lug's net besides itself and bare carriers. */
export function companyOf(facts: Facts, lug: LugId): readonly LugId[] {
  const { joined } = facts;
  return joined.members(joined.classOf(lug)).filter((other) => other !== lug && !isCarrier(facts.circuit, other));
}

/** True for a lug that only carries joints: a splice, a tag of a strip. */
export function isCarrier(circuit: Circuit, lug: LugId): boolean {
  const { ancestry } = partOfLug(circuit, lug);
  return ancestry.includes('junction') || ancestry.includes('tag-strip');
}

/** Lugs at which exactly one element of the part ends; where two meet (a tap, a link made inside) the lug may stay free. */
function leadsOf({ circuit, joined, endsInside }: Facts, part: Part): readonly LugId[] {
  if (part.family === 'assembly') return part.lugs.filter((lug) => endsInside()(lug) === 1);
  if (part.family !== 'pickup' && part.family !== 'passive' && part.family !== 'amplifier') return [];
  const elements = part.elements.map((id) => elementById(circuit, id));
  const ends = elements.flatMap((element) => [element.a, element.b]);
  const isLinked = (lug: LugId): boolean => joined.at(lug).some((joint) => joint.kind === 'inside');
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1 && !isLinked(lug));
}

/** How many ends of elements each lug of an assembly leads to inside it; of an assembly inside another, only those on the lug itself. */
export function endsInsideOf(circuit: Circuit): (lug: LugId) => number {
  const ownOf = circuit.lugs.map(({ part }) => ownPart(circuit, part).id);
  // The joints of two assemblies have no lug in common, so they can be folded together.
  const own = circuit.joints.filter(({ a, b }) => ownOf[a] === ownOf[b]);
  const inside = { of: foldJoints(circuit, own) };
  const atLug = new Map<LugId, number>();
  const atClass = new Map<number, number>();
  for (const end of circuit.elements.flatMap(endsOf)) {
    const classId = netOf(inside, end);
    atLug.set(end, (atLug.get(end) ?? 0) + 1);
    atClass.set(classId, (atClass.get(classId) ?? 0) + 1);
  }
  return (lug) => (ownOf[lug] === lugById(circuit, lug).part ? atClass.get(netOf(inside, lug)) : atLug.get(lug)) ?? 0;
}

/** How many lugs of each class are more than carriers of joints. */
export function endingsOf(circuit: Circuit, joined: Joined): (classId: number) => number {
  const counts = new Map<number, number>();
  return (classId) => {
    const count = counts.get(classId) ?? joined.members(classId).filter((lug) => !isCarrier(circuit, lug)).length;
    counts.set(classId, count);
    return count;
  };
}
