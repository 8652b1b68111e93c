/** How coils are called in messages. */
import type { Circuit, Coil } from '../../circuit/model.js';

/** `neck`, or `neck.north` where the pickup has more than one coil. */
export function coilName(circuit: Circuit, coil: Coil): string {
  const part = circuit.parts[coil.part]!;
  const coils = part.elements.filter((id) => circuit.elements[id]!.kind === 'coil');
  return coils.length > 1 ? `${part.name}.${coil.name}` : part.name;
}
