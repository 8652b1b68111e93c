/** An amplifier stage without a battery across its plus and minus. */
import { partById } from '../../circuit/model.js';
import { label, listed, placeOfPart, whereSaid } from '../facts/index.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { defineRule } from '../rule.js';

export const noSupply = defineRule({
  id: 'no-supply',
  severity: 'error',
  summary: 'a buffer without a battery across its plus and minus',
  check(facts) {
    const { circuit, joined, loss } = facts;
    // A clip with a loose lead is told as such.
    const loose = circuit.parts.some(
      (part) => part.ancestry.includes('battery') && !joined.isUnwired(part.id) && looseLeads(facts, part).length > 0,
    );
    if (facts.outputFault() === 'none' || loose) return [];
    return facts.stages().flatMap(({ stage, fed, turned }) => {
      const part = partById(circuit, stage.part);
      if (joined.isUnwired(part.id) || loss.touches(part.id) || fed.length > 0) return [];
      const pins = [stage.plus, stage.minus];
      const free = pins.filter((lug) => !joined.isWired(lug)).map((lug) => label(circuit, lug));
      const message =
        turned.length > 0
          ? `the battery of ${part.name} is turned round: ${label(circuit, stage.plus)} gets its minus ${whereSaid(
              circuit,
              facts.settings(),
              turned.flatMap(({ settings }) => settings),
            )}`
          : free.length > 0
            ? `${part.name} has no supply: ${listed(free)} ${free.length > 1 ? 'are' : 'is'} soldered to nothing`
            : `${part.name} has no supply: no battery stands across ${listed(pins.map((lug) => label(circuit, lug)))} in any position`;
      return [
        {
          message: message.trimEnd(),
          why:
            turned.length > 0
              ? 'A stage fed the wrong way round is silent at best and may be destroyed: exchange plus and minus at the clip before a battery goes in.'
              : 'A stage without supply passes nothing. The plus of the battery goes to the plus of the stage; the minus often runs over the ring of a stereo jack, so that the plug switches it on.',
          range: placeOfPart(circuit, part.id),
          subjects: [part.name, ...pins.map((lug) => label(circuit, lug))],
        },
      ];
    });
  },
});
