/** No jack, or a jack whose tip or sleeve is soldered to nothing. */
import { lugById } from '../../circuit/model.js';
import { placeOfInstrument, placeOfPart } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';

export const noOutput = defineRule({
  id: 'no-output',
  severity: 'error',
  summary: 'no jack, or nothing soldered to its tip or sleeve',
  check(facts): readonly Report[] {
    const { circuit, joined, loss } = facts;
    const { output } = circuit;
    if (output === undefined) {
      // A file without title and jack is a piece that others use; `fragment` says so.
      if (circuit.titleRange === undefined || loss.any) return [];
      return [
        {
          message: 'no jack: nothing leaves the instrument',
          why: 'Declare one (`part output : jack`), wire its tip to the signal and its sleeve to ground.',
          range: placeOfInstrument(circuit),
          subjects: [],
        },
      ];
    }
    if (loss.touches(output.part)) return [];
    const lacks = {
      tip: 'no signal leaves the instrument',
      sleeve: 'the signal has no return, and nothing is grounded',
    };
    return (['tip', 'sleeve'] as const)
      .filter((lug) => !joined.isWired(output[lug]))
      .map((lug) => ({
        message: `${lugById(circuit, output[lug]).label} is soldered to nothing: ${lacks[lug]}`,
        why: 'The plug takes the signal from the tip and returns it through the sleeve; both need a wire.',
        range: placeOfPart(circuit, output.part),
        subjects: [lugById(circuit, output[lug]).label],
      }));
  },
});
