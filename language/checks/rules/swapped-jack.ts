/** Tip and sleeve exchanged at the jack. */
import { exchangeLugs, fixWith } from '../edits.js';
import { lugLabel, placeOfLug } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly tip: string; readonly sleeve: string };
}

export const swappedJack = defineRule<Claim>({
  id: 'swapped-jack',
  severity: 'error',
  summary: 'ground on the tip and the hot side on the sleeve of the jack',
  describe: ({ subjects: { tip, sleeve } }) =>
    `Tip and sleeve are exchanged: ${tip} is on ground and ${sleeve} is on the hot side`,
  check(facts) {
    const { circuit } = facts;
    const { output } = circuit;
    if (output === undefined || facts.outputFault() !== 'swapped') return [];
    const [tip, sleeve] = [lugLabel(circuit, output.tip), lugLabel(circuit, output.sleeve)];
    return [
      {
        claim: { subjects: { tip, sleeve } },
        why: 'The bushing, the plug and all the metal that you touch are then on the signal, so it hums, and louder when you touch it. The tip is the contact that bends over the end of the plug; the sleeve is the ring around the bushing.',
        range: placeOfLug(circuit, output.tip),
        related: [{ message: 'and the hot side here', range: placeOfLug(circuit, output.sleeve) }],
        fixes: fixWith(`exchange ${tip} and ${sleeve}`, exchangeLugs(circuit, output.tip, output.sleeve)),
        subjects: [tip, sleeve],
      },
    ];
  },
});
