/** More combinations of switches than are tried. */
import { placeOfInstrument } from '../facts/index.js';
import { defineRule } from '../rule.js';
import { figure, type Figure } from '../../claim.js';
import { untriedText } from '../../electrics/index.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly figures: { readonly switches: Figure; readonly combinations: Figure; readonly limit: Figure };
}

export const untriedPositions = defineRule<Claim>({
  id: 'untried-positions',
  severity: 'info',
  summary: 'more combinations of switches than are tried, so not all are checked',
  describe: ({ figures: { switches, combinations, limit } }) =>
    untriedText({ switches: switches.value, combinations: combinations.value, limit: limit.value }),
  check(facts) {
    const untried = facts.untried();
    if (facts.circuit.output === undefined || untried === undefined) return [];
    const [, ...others] = facts.leftOut();
    const count = (value: number): Figure => figure(value, 'count', 15);
    return [
      {
        claim: {
          figures: { switches: count(untried.switches), combinations: count(untried.combinations), limit: count(untried.limit) },
        },
        why: [
          ...others.map((sentence) => `${sentence}.`),
          'Rules about silence, phase and idle switches hold only for what was tried.',
        ].join(' '),
        range: placeOfInstrument(facts.circuit),
        subjects: [],
      },
    ];
  },
});
