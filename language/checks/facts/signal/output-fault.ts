/** Faults at the jack that silence the whole instrument, so that one finding tells them instead of twenty. */
import { lugById, partById, type LugId } from '../../../circuit/model.js';
import type { Facts, OutputFault } from '../facts.js';
import { isShortedAt } from './shorted.js';

export function outputFault(facts: Facts): OutputFault | undefined {
  const { circuit, joined } = facts;
  const { output } = circuit;
  if (output === undefined) return 'none';
  if (!joined.isWired(output.tip) || !joined.isWired(output.sleeve)) return 'unwired';
  if (isShorted(facts)) return 'shorted';
  if (groundSigns(facts, output.tip).length > 0 && groundSigns(facts, output.sleeve).length === 0) return 'swapped';
  return undefined;
}

/** With the pots at rest the wiper of a volume stands at the end of its track, and joins; a short that turning it lifts is none. */
function isShorted({ circuit, groups, signal }: Facts): boolean {
  if (!groups().every(({ folded, setting }) => isShortedAt(circuit, folded, setting))) return false;
  return groups().every(({ folded }) => folded.tip === folded.ground) || signal.neverHeard().size === signal.pickups.length;
}

/** What a ground net is known by, whatever the jack says: metal, pickups' ground leads, a minus. The jack's own metal does not count. */
function groundSigns(facts: Facts, from: LugId): readonly LugId[] {
  const { circuit, joined } = facts;
  const own = lugById(circuit, from).part;
  return joined.members(joined.classOf(from)).filter((id) => {
    const lug = lugById(circuit, id);
    const part = partById(circuit, lug.part);
    if (lug.part === own) return false;
    return lug.metal || (part.family === 'pickup' && lug.name === 'ground') || lug.name === 'minus';
  });
}
