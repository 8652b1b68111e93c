/** A pole whose throws in use are all soldered together: it passes the same in every position. */
import { lugLabel, lugLabels, abridged, placeOfLug, type Facts, type Pole } from '../facts/index.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly throws: readonly string[]; readonly common: string };
}

export const bridgedThrows = defineRule<Claim>({
  id: 'bridged-throws',
  severity: 'warning',
  summary: 'all throws in use of a pole are soldered together, so the pole selects nothing',
  describe: ({ subjects: { throws, common } }) =>
    `${abridged(throws)} are joined together: ${common} is on the same net in every position, so this pole selects nothing`,
  check(facts) {
    const { circuit } = facts;
    return facts.poles().flatMap((pole): readonly Report<Claim>[] => {
      const { common, device } = pole;
      const used = pole.throws.filter((lug) => facts.joined.isWired(lug));
      const [first, second] = used;
      if (common === undefined || first === undefined || second === undefined || !isBridged(facts, pole)) return [];
      if (!facts.poles().some((other) => other.device === device && choosesSomething(facts, other))) return [];
      return [
        {
          claim: { subjects: { throws: lugLabels(circuit, used), common: lugLabel(circuit, common) } },
          why: 'Usually a solder bridge between neighbouring lugs, or one jumper too many. If the signal only has to pass through, it can bypass the switch.',
          range: placeOfLug(circuit, second),
          related: [{ message: 'joined to this', range: placeOfLug(circuit, first) }],
          subjects: lugLabels(circuit, used),
        },
      ];
    });
  },
});

function isBridged({ joined }: Facts, { common, contacts, throws }: Pole): boolean {
  if (common === undefined || !joined.isWired(common)) return false;
  const used = throws.filter((lug) => joined.isWired(lug));
  const classes = new Set(used.map((lug) => joined.classOf(lug)));
  // With the common on the same net the pole is a tie point; with a position that meets nothing it still switches on and off.
  if (used.length < 2 || classes.size !== 1 || classes.has(joined.classOf(common))) return false;
  return contacts.every((position) => position.some((contact) => contact.some((lug) => used.includes(lug))));
}

/** Where no pole of a switch chooses anything, the switch is idle as a whole, and reported as such. */
function choosesSomething(facts: Facts, pole: Pole): boolean {
  return pole.throws.some((lug) => facts.joined.isWired(lug)) && !isBridged(facts, pole);
}
