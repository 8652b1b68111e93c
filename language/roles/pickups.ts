/** What speaks for where a pickup sits: its name, and its type. */
import { partById, type Circuit, type Part } from '../circuit/model.js';
import { rolesNamed } from './names.js';
import type { Evidence } from './role.js';

/** The pickups of an instrument, also those inside an assembly; one that is part of another pickup is not counted by itself. */
export function wholePickups(circuit: Circuit): readonly Part[] {
  return circuit.parts.filter(
    ({ family, parent }) => family === 'pickup' && (parent === undefined || partById(circuit, parent).family !== 'pickup'),
  );
}

export function evidenceOfPickup({ name, ancestry }: Part): readonly Evidence[] {
  const [word] = rolesNamed('pickup', name);
  return [
    ...(word === undefined ? [] : [{ word, weight: 4, says: `it is called ${name}` }]),
    ...(ancestry.includes('piezo') ? [{ word: 'piezo' as const, weight: 5, says: 'it is one by its type' }] : []),
  ];
}
