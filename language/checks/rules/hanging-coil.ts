/** A coil that hangs from the hot side by one end. */
import { type Coil, elementById, type LugId, partById } from '../../circuit/model.js';
import type { Setting } from '../../electrics/index.js';
import type { Steps } from '../../steps.js';
import { type Facts, label, placeOfLug, whereSaid } from '../facts/index.js';
import { hangingCoils } from '../facts/wiring/dangling.js';
import { coilName } from '../facts/words.js';
import { defineRule, type Report } from '../rule.js';

export const hangingCoil = defineRule({
  id: 'hanging-coil',
  severity: 'warning',
  summary: 'a coil that hangs from the hot side by one end, its other end open',
  *checkSteps(facts): Steps<readonly Report[]> {
    const { circuit, joined, hearing, loss } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || loss.any) return [];
    const found = new Map<number, { coil: Coil; held: LugId; free: LugId; settings: Setting[] }>();
    for (const group of facts.groups()) {
      yield;
      for (const { coil, held, free } of hangingCoils(circuit, group.folded)) {
        // A lead soldered to nothing and a pickup never heard are told as such; a winding past its tap hangs by nature.
        if (hearing.dead().has(coil.part) || !joined.isWired(free) || isPastTap(facts, coil, held)) continue;
        const item = found.get(coil.id) ?? { coil, held, free, settings: [] };
        item.settings.push(...group.settings);
        found.set(coil.id, item);
      }
    }
    return [...found.values()].map(({ coil, held, free, settings }) => {
      const name = coilName(circuit, coil);
      return {
        message:
          `${name} hangs from the hot side by ${label(circuit, held)} ${whereSaid(circuit, facts.settings(), settings)}`.trimEnd() +
          `: ${label(circuit, free)} leads nowhere`,
        why: 'A coil with one end on the signal is an aerial for hum and adds its capacitance. Switch the hot end off, or let the coil rest on ground, or short it.',
        range: placeOfLug(circuit, free),
        subjects: [partById(circuit, coil.part).name, label(circuit, held), label(circuit, free)],
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
