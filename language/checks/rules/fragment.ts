/** A file without title and jack is read as a piece of an instrument. */
import { placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

type Claim = Statement;

export const fragment = defineRule<Claim>({
  id: 'fragment',
  severity: 'info',
  summary: 'no title and no jack: the file is read as a piece that others use',
  describe: () => 'No title and no jack: this is read as a piece that other files use, so its sound is not checked',
  check({ circuit, unread }) {
    if (circuit.output !== undefined || circuit.titleRange !== undefined || unread.any) return [];
    return [
      {
        claim: {},
        why: 'If this is a complete instrument, give it a title (`instrument "…"`) and a jack.',
        range: placeOfInstrument(circuit),
        subjects: [],
      },
    ];
  },
});
