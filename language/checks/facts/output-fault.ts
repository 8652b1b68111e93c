/** Faults at the jack that silence the whole instrument, so that one finding tells them instead of twenty. */
import type { LugId } from '../../circuit/model.js';
import type { Facts } from './index.js';

/**
 * `none`: no jack. `unwired`: tip or sleeve is soldered to nothing. `swapped`: the ground hangs on the tip and the hot side on the sleeve.
 * `shorted`: tip and sleeve are one net in every position.
 */
export type OutputFault = 'none' | 'unwired' | 'swapped' | 'shorted';

export function outputFault(facts: Facts): OutputFault | undefined {
  const { circuit, joined } = facts;
  const { output } = circuit;
  if (output === undefined) return 'none';
  if (!joined.isWired(output.tip) || !joined.isWired(output.sleeve)) return 'unwired';
  if (facts.groups().every((group) => group.folded.tip === group.folded.ground)) return 'shorted';
  if (groundSigns(facts, output.tip).length > 0 && groundSigns(facts, output.sleeve).length === 0) return 'swapped';
  return undefined;
}

/** What a ground net is known by, whatever the jack says: metal, pickups' ground leads, a minus. The jack's own metal does not count. */
function groundSigns(facts: Facts, from: LugId): readonly LugId[] {
  const { circuit, joined } = facts;
  const own = circuit.lugs[from]!.part;
  return joined.members(joined.klass(from)).filter((id) => {
    const lug = circuit.lugs[id]!;
    const part = circuit.parts[lug.part]!;
    if (lug.part === own) return false;
    return lug.metal || (part.family === 'pickup' && lug.name === 'ground') || lug.name === 'minus';
  });
}
