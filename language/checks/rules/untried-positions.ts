/** More combinations of switches than are tried. */
import { placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';

export const untriedPositions = defineRule({
  id: 'untried-positions',
  severity: 'info',
  summary: 'more combinations of switches than are tried, so not all are checked',
  check(facts) {
    if (facts.circuit.output === undefined || facts.triedAll()) return [];
    const [first, ...others] = facts.leftOut();
    return [
      {
        message: first!,
        why: [
          ...others.map((sentence) => `${sentence}.`),
          'Rules about silence, phase and idle switches hold for what was tried alone.',
        ].join(' '),
        range: placeOfInstrument(facts.circuit),
        subjects: [],
      },
    ];
  },
});
