/** Combinations of switches that are silent though each of their positions sounds with others. */
import { placeOfInstrument, placeOfPart, whereSaid } from '../facts/index.js';
import { silenceOf } from '../facts/signal/silence.js';
import { defineRule } from '../rule.js';

export const silentCombination = defineRule({
  id: 'silent-combination',
  severity: 'info',
  summary: 'a combination of switches at which nothing is heard and no expectation asks for silence',
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
        message: `silent ${whereSaid(circuit, facts.settings(), combined)}`,
        why: 'Usual where each pickup has a switch of its own: all off is silent. An `expect … : silent` line says that it is meant.',
        range: involved[0] ? placeOfPart(circuit, involved[0].part) : placeOfInstrument(circuit),
        subjects: involved.map((device) => device.name),
      },
    ];
  },
});
