/** Faults of the structure that bring others with them. */
import { elementById, partById, type PartId } from '../../../circuit/model.js';
import type { Facts } from '../facts.js';
import { endsOf } from './ends.js';
import { looseLeads } from './leads.js';
import { isOpenPole } from './open-poles.js';

/**
 * True where a pickup or a stage has a loose lead, a pole is open, a wire comes back to its own lug, or a ground with pickups on it hangs free.
 * Silence, hanging coils, idle switches and the like then mostly follow from that, and are judged once it is fixed.
 */
export function hasStructuralFault(facts: Facts): boolean {
  const { circuit, joined } = facts;
  return (
    circuit.joints.some((joint) => joint.a === joint.b) ||
    facts.poles().some((pole) => isOpenPole(facts, pole)) ||
    circuit.parts.some(
      (part) => carriesSignal(facts, part.id) && !joined.isUnwired(part.id) && looseLeads(facts, part).length > 0,
    ) ||
    groundIsLost(facts)
  );
}

function carriesSignal({ circuit }: Facts, part: PartId): boolean {
  return partById(circuit, part).elements.some((id) => ['coil', 'gain'].includes(elementById(circuit, id).kind));
}

/** Metal that is never on ground and shares its net with an end of a coil or a stage: most likely the ground wire itself is misplaced. */
function groundIsLost({ circuit, joined, ground }: Facts): boolean {
  const free = new Set(ground().ungrounded.flatMap(({ lug, always }) => (always ? [joined.classOf(lug)] : [])));
  if (free.size === 0) return false;
  return circuit.elements.some(
    (element) => ['coil', 'gain'].includes(element.kind) && endsOf(element).some((lug) => free.has(joined.classOf(lug))),
  );
}
