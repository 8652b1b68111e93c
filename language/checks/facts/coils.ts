/** How coils are called in messages. */
import { elementById, partById, type Circuit, type Coil } from '../../circuit/model.js';

/** `neck`, or `neck.north` where the pickup has more than one coil. */
export function coilName(circuit: Circuit, coil: Coil): string {
  const part = partById(circuit, coil.part);
  const coils = part.elements.filter((id) => elementById(circuit, id).kind === 'coil');
  return coils.length > 1 ? `${part.name}.${coil.name}` : part.name;
}
