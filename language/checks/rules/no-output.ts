/** No jack, or a jack whose tip or sleeve is soldered to nothing. */
import { lugById } from '../../circuit/model.js';
import { placeOfInstrument, placeOfPart } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';

type Claim =
  { readonly kind: 'no-jack' } | { readonly kind: 'open-tip' | 'open-sleeve'; readonly subjects: { readonly lug: string } };

export const noOutput = defineRule<Claim>({
  id: 'no-output',
  severity: 'error',
  summary: 'no jack, or nothing soldered to its tip or sleeve',
  describe(claim) {
    if (claim.kind === 'no-jack') return 'No jack: no signal leaves the instrument';
    const lack =
      claim.kind === 'open-tip' ? 'no signal leaves the instrument' : 'the signal has no return, and nothing is grounded';
    return `${claim.subjects.lug} is not soldered to anything: ${lack}`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, joined, unread } = facts;
    const { output } = circuit;
    if (output === undefined) {
      // A file without title and jack is a piece that others use; `fragment` says so.
      if (circuit.titleRange === undefined || unread.any) return [];
      return [
        {
          claim: { kind: 'no-jack' },
          why: 'Declare one (`part output : jack`), and wire its tip to the signal and its sleeve to ground.',
          range: placeOfInstrument(circuit),
          subjects: [],
        },
      ];
    }
    if (unread.touches(output.part)) return [];
    return (['tip', 'sleeve'] as const)
      .filter((lug) => !joined.isWired(output[lug]))
      .map((lug) => ({
        claim: { kind: `open-${lug}`, subjects: { lug: lugById(circuit, output[lug]).label } },
        why: 'The signal leaves through the tip and returns through the sleeve; both need a wire.',
        range: placeOfPart(circuit, output.part),
        subjects: [lugById(circuit, output[lug]).label],
      }));
  },
});
