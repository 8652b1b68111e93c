/** Tip and sleeve exchanged at the jack. */
import { exchangeLugs } from '../edits.js';
import { label, placeOfLug } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const swappedJack = defineRule({
  id: 'swapped-jack',
  severity: 'error',
  summary: 'ground on the tip and the hot side on the sleeve of the jack',
  check(facts) {
    const { circuit } = facts;
    const { output } = circuit;
    if (output === undefined || facts.outputFault() !== 'swapped') return [];
    const [tip, sleeve] = [label(circuit, output.tip), label(circuit, output.sleeve)];
    return [
      {
        message: `${tip} carries the ground and ${sleeve} the hot side: tip and sleeve are exchanged`,
        why: 'The bushing, the plug and all the metal you touch then stand on the signal: it hums until the strings are let go, and louder at a touch. The tip is the contact that bends over the end of the plug; the sleeve is the ring around the bushing.',
        range: placeOfLug(circuit, output.tip),
        related: [{ message: 'and the hot side here', range: placeOfLug(circuit, output.sleeve) }],
        fixes: [{ title: `exchange ${tip} and ${sleeve}`, edits: exchangeLugs(circuit, output.tip, output.sleeve) }],
        subjects: [tip, sleeve],
      },
    ];
  },
});
