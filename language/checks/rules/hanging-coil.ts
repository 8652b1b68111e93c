/** A coil that hangs from the hot side by one end. */
import { type Coil, elementById, type LugId, partById } from '../../circuit/model.js';
import type { Setting } from '../../electrics/index.js';
import type { Steps } from '../../steps.js';
import { type Facts, lugLabel, placeOfLug, settingsOf, describeSettings } from '../facts/index.js';
import { hangingCoils } from '../facts/wiring/dangling.js';
import { coilName } from '../facts/words.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly coil: string; readonly held: string; readonly free: string };
}

export const hangingCoil = defineRule<Claim>({
  id: 'hanging-coil',
  severity: 'warning',
  summary: 'a coil that hangs from the hot side by one end while its other end is open',
  describe({ subjects: { coil, held, free }, ...claim }) {
    const where = describeSettings(claim);
    return `${coil} hangs from the hot side by ${held}${where && ` ${where}`}: ${free} is open`;
  },
  *checkSteps(facts): Steps<readonly Report<Claim>[]> {
    const { circuit, joined, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    const found = new Map<string, { coil: Coil; held: LugId; free: LugId; settings: Setting[] }>();
    for (const group of facts.groups()) {
      yield;
      for (const { coil, held, free } of hangingCoils(circuit, group.folded)) {
        // A lead soldered to nothing and a pickup never heard are reported as such; a winding past its tap hangs by nature.
        if (signal.neverHeard().has(coil.part) || !joined.isWired(free) || isPastTap(facts, coil, held)) continue;
        // It may hang by one end here and by the other there.
        const key = `${coil.id} ${held}`;
        const item = found.get(key) ?? { coil, held, free, settings: [] };
        item.settings.push(...group.settings);
        found.set(key, item);
      }
    }
    return [...found.values()].map(({ coil, held, free, settings }) => {
      return {
        claim: {
          subjects: { coil: coilName(circuit, coil), held: lugLabel(circuit, held), free: lugLabel(circuit, free) },
          ...settingsOf(circuit, facts.settings(), settings),
        },
        why: 'A coil with only one end on the signal picks up hum like an aerial and adds its capacitance. Let the switch disconnect its hot end or short the coil, or let the coil hang from ground.',
        range: placeOfLug(circuit, free),
        subjects: [partById(circuit, coil.part).name, lugLabel(circuit, held), lugLabel(circuit, free)],
      };
    });
  },
});

function isPastTap({ circuit }: Facts, coil: Coil, held: LugId): boolean {
  return partById(circuit, coil.part).elements.some((id) => {
    const other = elementById(circuit, id);
    return other.id !== coil.id && (other.a === held || other.b === held);
  });
}
