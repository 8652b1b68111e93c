/** A lead of a pickup, of a two-lead part or of a buffer that is soldered to nothing. */
import type { Circuit, LugId, Part } from '../../circuit/model.js';
import { endsOf, foldJoints, label, ownPart, placeOfPart, type Facts } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const looseLead = defineRule({
  id: 'loose-lead',
  severity: 'error',
  summary: 'a lead of a pickup or of a two-lead part is soldered to nothing',
  check(facts) {
    const { circuit, joined, loss } = facts;
    const parts = circuit.parts.filter((part) => !joined.isUnwired(part.id) && !loss.touches(ownPart(circuit, part.id).id));
    return parts.flatMap((part) =>
      looseLeads(facts, part).map((lug) => ({
        message: `${label(circuit, lug)} is soldered to nothing: ${consequence(circuit, part)}`,
        why: `Current has to come back the way it went out: ${part.name} needs both ends of its path soldered. A lead that is not wanted is cut back and insulated, and the finding set aside.`,
        range: placeOfPart(circuit, part.id),
        subjects: [label(circuit, lug)],
      })),
    );
  },
});

/** Leads of a part that are soldered to nothing. */
export function looseLeads({ circuit, joined }: Facts, part: Part): readonly LugId[] {
  return leadsOf(circuit, part).filter((lug) => !joined.isWired(lug));
}

/** Lugs at which exactly one element of the part ends; where two meet (a tap, a link made inside) the lug may stay free. */
function leadsOf(circuit: Circuit, part: Part): readonly LugId[] {
  if (part.family === 'assembly') return part.lugs.filter((lug) => endsInside(circuit, part, lug) === 1);
  if (part.family !== 'pickup' && part.family !== 'passive' && part.family !== 'amplifier') return [];
  const elements = part.elements.map((id) => circuit.elements[id]!);
  const ends = elements.flatMap((element) => [element.a, element.b]);
  const inside = circuit.joints.filter((joint) => joint.kind === 'inside').flatMap((joint) => [joint.a, joint.b]);
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1 && !inside.includes(lug));
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

function consequence(circuit: Circuit, part: Part): string {
  if (part.family === 'passive' || part.family === 'assembly') return `no current flows through ${part.name}`;
  if (part.family === 'amplifier') return `no signal passes ${part.name}`;
  return part.elements.length > 1 ? 'its coil is open' : `${part.name} is open and cannot be heard`;
}
