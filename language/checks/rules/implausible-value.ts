/** A value of a pot, resistor, capacitor or inductor that no such part in an instrument has. */
import { implausibleValues } from '../facts/plausible.js';
import { defineRule } from '../rule.js';

export const implausibleValue = defineRule({
  id: 'implausible-value',
  severity: 'warning',
  summary: 'a pot, resistor, capacitor or inductor far outside the values in use',
  check({ circuit }) {
    return circuit.parts
      .filter((part) => part.family !== 'pickup')
      .flatMap((part) =>
        implausibleValues(part).map(({ property, quantity, usual }) => ({
          message: `the ${property} of ${part.name} is outside the values in use, ${usual.said}: a prefix may be wrong`,
          why: 'k is a thousand ohms and M a million; p, n and µ are a thousand apart. A tone capacitor is tens of nF, a treble bleed hundreds of pF.',
          range: quantity.range!,
          subjects: [part.name],
        })),
      );
  },
});
