/** A part that no wire reaches. */
import { ownPart, placeOfPart } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const unwiredPart = defineRule({
  id: 'unwired-part',
  severity: 'warning',
  summary: 'a part that no wire or solder joint reaches',
  check({ circuit, joined, loss }) {
    return circuit.parts
      .filter(
        (part) => part.id !== circuit.output?.part && joined.isUnwired(part.id) && !loss.touches(ownPart(circuit, part.id).id),
      )
      .map((part) => {
        const metal = part.lugs.some((lug) => joined.isWired(lug));
        return {
          message: metal
            ? `${part.name} is not wired: only its metal is joined to anything`
            : `${part.name} is not wired: no joint reaches it`,
          why: 'It is on the parts list, and nothing in the circuit would change without it.',
          range: placeOfPart(circuit, part.id),
          subjects: [part.name],
        };
      });
  },
});
