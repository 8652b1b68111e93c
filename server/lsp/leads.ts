/** What a lug of a type is for, in a word, as far as the type says it. */
import type { TypeInfo } from '../../language/circuit/index.js';

/** `common`, `throw 2`, or nothing. A common is joined in every position that joins its pole at all. */
export function leadsOf(type: TypeInfo, lug: string): string {
  const met = type.positions.map(({ joins }) => joins.find((group) => group.includes(lug)));
  const groups = met.filter((group) => group !== undefined);
  if (groups.length === 0 || type.positions.length < 2) return '';
  const at = type.positions.filter((_, i) => met[i] !== undefined).map(({ name }) => name);
  return at.length === type.positions.length ? 'in every position' : `at ${at.join(', ')}`;
}
