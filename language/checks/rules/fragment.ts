/** A file without title and jack is read as a piece of an instrument. */
import { placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const fragment = defineRule({
  id: 'fragment',
  severity: 'info',
  summary: 'no title and no jack: the file is read as a piece that others use',
  check({ circuit, loss }) {
    if (circuit.output !== undefined || circuit.titleRange !== undefined || loss.any) return [];
    return [
      {
        message: 'no title and no jack: read as a piece that other files use, so what it sounds like is not checked',
        why: 'For an instrument of its own, give it a title (`instrument "…"`) and a jack.',
        range: placeOfInstrument(circuit),
        subjects: [],
      },
    ];
  },
});
