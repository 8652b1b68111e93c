/** A part that no wire reaches. */
import { ownPart, placeOfPart } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind?: 'metal-only';
  readonly subjects: { readonly part: string };
}

export const unwiredPart = defineRule<Claim>({
  id: 'unwired-part',
  severity: 'warning',
  summary: 'a part that no wire or solder joint reaches',
  describe: ({ kind, subjects: { part } }) =>
    `${part} is not wired: ${kind === undefined ? 'nothing is connected to it' : 'only its metal is connected to anything'}`,
  check({ circuit, joined, unread }) {
    return circuit.parts
      .filter(
        (part) => part.id !== circuit.output?.part && joined.isUnwired(part.id) && !unread.touches(ownPart(circuit, part.id).id),
      )
      .map((part) => {
        const metal = part.lugs.some((lug) => joined.isWired(lug));
        return {
          claim: { ...(metal ? { kind: 'metal-only' } : {}), subjects: { part: part.name } },
          why: 'It is on the parts list, but the circuit would be the same without it.',
          range: placeOfPart(circuit, part.id),
          subjects: [part.name],
        };
      });
  },
});
