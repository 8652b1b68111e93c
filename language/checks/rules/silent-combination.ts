/** Combinations of switches that are silent though each of their positions sounds with others. */
import { placeOfInstrument, placeOfPart, settingsOf, describeSettings } from '../facts/index.js';
import { silenceOf } from '../facts/signal/silence.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

type Claim = Statement;

export const silentCombination = defineRule<Claim>({
  id: 'silent-combination',
  severity: 'info',
  summary: 'a combination of switches at which nothing is heard and no expectation asks for silence',
  describe: (claim) => `Nothing is heard ${describeSettings(claim)}`,
  check(facts) {
    const { circuit } = facts;
    const { combined } = silenceOf(facts);
    if (combined.length === 0) return [];
    const involved = circuit.switches.filter(
      (device) =>
        device.rest === undefined &&
        new Set(combined.map((setting) => setting.positions[device.id])).size < device.positions.length,
    );
    return [
      {
        claim: settingsOf(circuit, facts.settings(), combined),
        why: 'This is usual where each pickup has its own switch: with all of them off nothing is heard. If it is intended, say so with an `expect … : silent` line.',
        range: involved[0] ? placeOfPart(circuit, involved[0].part) : placeOfInstrument(circuit),
        subjects: involved.map((device) => device.name),
      },
    ];
  },
});
