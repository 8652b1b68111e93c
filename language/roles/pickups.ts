/** What speaks for where a pickup sits: its name, and its type. */
import type { Part } from '../circuit/model.js';
import { rolesNamed } from './names.js';
import type { Evidence } from './role.js';

export function evidenceOfPickup({ name, ancestry }: Part): readonly Evidence[] {
  const [word] = rolesNamed('pickup', name);
  return [
    ...(word === undefined ? [] : [{ word, weight: 4, says: `it is called ${name}` }]),
    ...(ancestry.includes('piezo') ? [{ word: 'piezo' as const, weight: 5, says: 'it is one by its type' }] : []),
  ];
}
