/** A pickup value outside the usual range. */
import { describeValue, implausibleValues, valueClaim, type ValueClaim } from '../facts/plausible.js';
import { defineRule } from '../rule.js';

type Claim = ValueClaim;

export const unusualPickup = defineRule<Claim>({
  id: 'unusual-pickup',
  severity: 'info',
  summary: 'a pickup whose resistance, inductance or capacitance is unusual',
  describe: describeValue,
  check({ circuit }) {
    return circuit.parts
      .filter((part) => part.family === 'pickup')
      .flatMap((part) =>
        implausibleValues(part).map(({ property, quantity, usual, range }) => ({
          claim: valueClaim(part, { property, quantity, usual }),
          why: 'This is normal for a low-impedance or active pickup; otherwise a prefix may be wrong.',
          range,
          subjects: [part.name],
        })),
      );
  },
});
