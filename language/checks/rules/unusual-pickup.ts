/** A pickup value outside the usual range. */
import { implausibleValues } from '../facts/plausible.js';
import { defineRule } from '../rule.js';

export const unusualPickup = defineRule({
  id: 'unusual-pickup',
  severity: 'info',
  summary: 'a pickup whose resistance, inductance or capacitance is unusual',
  check({ circuit }) {
    return circuit.parts
      .filter((part) => part.family === 'pickup')
      .flatMap((part) =>
        implausibleValues(part).map(({ property, quantity, usual }) => ({
          message: `the ${property} of ${part.name} is outside the usual ${usual.said}`,
          why: 'Right for a low-impedance or an active pickup; otherwise a prefix may be wrong.',
          range: quantity.range!,
          subjects: [part.name],
        })),
      );
  },
});
