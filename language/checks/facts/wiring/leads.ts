/** Leads of parts, and those of them that lead to nothing. */
import {
  elementById,
  isBuiltIn,
  lugById,
  partOfLug,
  type Circuit,
  type Joint,
  type LugId,
  type Part,
  type PartId,
} from '../../../circuit/model.js';
import type { Facts } from '../facts.js';
import { endsOf } from './ends.js';
import { foldJoints, type Joined } from './joined.js';
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

/** True for a lug of an assembly that leads on to something inside: to whoever wires it, it is that. */
export function isPad(circuit: Circuit, joined: Joined, lug: LugId): boolean {
  const { id, family } = partOfLug(circuit, lug);
  return family === 'assembly' && joined.at(lug).some((joint) => isBuiltIn(joint, id));
}

/** What a lug is joined to, in the order of the text; for a lug of the assembly around it, what that is joined to from outside. */
export function joinedTo(circuit: Circuit, joined: Joined, lug: LugId): readonly LugId[] {
  return joined.at(lug).flatMap((joint) => {
    const other = joint.a === lug ? joint.b : joint.a;
    const isOutside =
      joint.holder !== undefined && joint.holder === lugById(circuit, other).part && partOfLug(circuit, lug).id !== joint.holder;
    if (!isOutside) return [other];
    return joined.at(other).flatMap((outer) => (outer.holder === joint.holder ? [] : [outer.a === other ? outer.b : outer.a]));
  });
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
  const isLinked = (lug: LugId): boolean => joined.at(lug).some((joint) => isBuiltIn(joint, part.id));
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1 && !isLinked(lug));
}

/** How many ends of elements each lug of an assembly leads to inside it. */
export function endsInsideOf(circuit: Circuit): (lug: LugId) => number {
  const depths: number[] = [];
  // A part follows the assembly around it.
  for (const { id, parent } of circuit.parts) depths[id] = parent === undefined ? 0 : (depths[parent] ?? 0) + 1;
  const ends = circuit.elements.flatMap(endsOf);
  const countsFrom = (depth: number): ReadonlyMap<LugId, number> => {
    // Two assemblies of one depth have no lug in common, so that their joints can be folded together.
    const within = circuit.joints.filter((joint) => (joint.holder === undefined ? -1 : (depths[joint.holder] ?? 0)) >= depth);
    const classes = { of: foldJoints(circuit, depth === 0 ? [...within, ...betweenOwnLugs(circuit)] : within) };
    const counts = new Map<number, number>();
    for (const end of ends) counts.set(netOf(classes, end), (counts.get(netOf(classes, end)) ?? 0) + 1);
    return new Map(
      circuit.lugs.flatMap(({ id, part }) =>
        depths[part] === depth ? [[id, counts.get(netOf(classes, id)) ?? 0] as const] : [],
      ),
    );
  };
  const known = new Map<number, ReadonlyMap<LugId, number>>();
  return (lug) => {
    const depth = depths[lugById(circuit, lug).part] ?? 0;
    const counts = known.get(depth) ?? countsFrom(depth);
    known.set(depth, counts);
    return counts.get(lug) ?? 0;
  };
}

/** Joints of the instrument itself from a part to the same part. */
function betweenOwnLugs(circuit: Circuit): readonly Joint[] {
  const ownOf = (lug: LugId): PartId => ownPart(circuit, partOfLug(circuit, lug).id).id;
  return circuit.joints.filter(({ holder, a, b }) => holder === undefined && ownOf(a) === ownOf(b));
}

/** How many lugs of each class are more than carriers of joints. */
export function endingsOf(circuit: Circuit, joined: Joined): (classId: number) => number {
  const counts = new Map<number, number>();
  return (classId) => {
    const count =
      counts.get(classId) ??
      joined.members(classId).filter((lug) => !isCarrier(circuit, lug) && !isPad(circuit, joined, lug)).length;
    counts.set(classId, count);
    return count;
  };
}
