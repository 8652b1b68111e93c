/** Hot leads of pickups, by where joints bring them. */
import { lugById, partById, type LugId } from '../../circuit/model.js';
import type { Facts } from './facts.js';

/** Leads called hot that joints alone bring to a lug, ground left out. */
export function hotLeads({ circuit, joined }: Facts, lug: LugId): readonly LugId[] {
  const klass = joined.klass(lug);
  if (circuit.output !== undefined && klass === joined.klass(circuit.output.sleeve)) return [];
  return joined.members(klass).filter((other) => {
    const { part, name } = lugById(circuit, other);
    return partById(circuit, part).family === 'pickup' && (name === 'hot' || name === 'north-start');
  });
}
