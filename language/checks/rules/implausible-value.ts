/** A value of a pot, resistor, capacitor or inductor that no such part in an instrument has. */
import { describeValue, implausibleValues, valueClaim, type ValueClaim } from '../facts/plausible.js';
import { defineRule } from '../rule.js';

type Claim = ValueClaim;

export const implausibleValue = defineRule<Claim>({
  id: 'implausible-value',
  severity: 'warning',
  summary: 'a pot, resistor, capacitor or inductor far outside the values in use',
  describe: (claim) => `${describeValue(claim)}: a prefix may be wrong`,
  check({ circuit }) {
    return circuit.parts
      .filter((part) => part.family !== 'pickup')
      .flatMap((part) =>
        implausibleValues(part).map(({ property, quantity, usual, range }) => ({
          claim: valueClaim(part, { property, quantity, usual }),
          why: 'k is a thousand ohms and M a million; p, n and µ are a thousand apart. A tone capacitor is tens of nF, a treble bleed hundreds of pF.',
          range,
          subjects: [part.name],
        })),
      );
  },
});
