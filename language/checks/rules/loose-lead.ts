/** A lead of a pickup, of a two-lead part or of a buffer that is soldered to nothing. */
import type { Circuit, LugId, Part } from '../../circuit/model.js';
import { label, labels, listed, ownPart, placeOfPart, type Facts } from '../facts/index.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { defineRule } from '../rule.js';

export const looseLead = defineRule({
  id: 'loose-lead',
  severity: 'error',
  summary: 'a lead of a pickup or of a two-lead part that leads to nothing',
  check(facts) {
    const { circuit, joined, loss } = facts;
    const parts = circuit.parts.filter((part) => !joined.isUnwired(part.id) && !loss.touches(ownPart(circuit, part.id).id));
    return parts.flatMap((part) =>
      looseLeads(facts, part).map((lug) => ({
        message: `${label(circuit, lug)} ${ending(facts, lug)}: ${consequence(circuit, part)}`,
        why: `Current has to come back the way it went out: ${part.name} needs both ends of its path soldered. A lead that is not wanted is cut back and insulated, and the finding set aside.`,
        range: placeOfPart(circuit, part.id),
        subjects: [label(circuit, lug)],
      })),
    );
  },
});

/** A lead on a splice or a tag on which nothing else ends is as loose as one in the air. */
function ending({ circuit, joined }: Facts, lug: LugId): string {
  const carriers = joined.members(joined.klass(lug)).filter((other) => other !== lug);
  return carriers.length === 0
    ? 'is soldered to nothing'
    : `ends on ${listed(labels(circuit, carriers))}, where nothing else does`;
}

function consequence(circuit: Circuit, part: Part): string {
  if (part.family === 'passive' || part.family === 'assembly') return `no current flows through ${part.name}`;
  if (part.family === 'amplifier') return `no signal passes ${part.name}`;
  return part.elements.length > 1 ? 'its coil is open' : `${part.name} is open and cannot be heard`;
}
