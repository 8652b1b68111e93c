/** An amplifier stage without a battery across its plus and minus. */
import { partById } from '../../circuit/model.js';
import { netOf } from '../../electrics/index.js';
import { describeSettings, lugLabel, abridged, placeOfPart, settingsOf } from '../facts/index.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, reportsOf } from '../rule.js';
import { turnedDiode } from './turned-diode.js';
import type { Statement } from '../../source.js';

type Claim =
  | (Statement & { readonly kind: 'reversed'; readonly subjects: { readonly stage: string; readonly plus: string } })
  | { readonly kind: 'unsoldered'; readonly subjects: { readonly stage: string; readonly free: readonly string[] } }
  | (Statement & {
      readonly kind: 'no-battery' | 'joined';
      readonly subjects: { readonly stage: string; readonly pins: readonly string[] };
    });

export const noSupply = defineRule<Claim>({
  id: 'no-supply',
  severity: 'error',
  summary: 'a buffer without a battery across its plus and minus',
  describe(claim) {
    const { stage } = claim.subjects;
    if (claim.kind === 'reversed') {
      const where = describeSettings(claim);
      return `The battery of ${stage} is the wrong way round${where && ` ${where}`}: ${claim.subjects.plus} is connected to its minus`;
    }
    if (claim.kind === 'unsoldered')
      return `${stage} has no supply: nothing is soldered to ${abridged(claim.subjects.free, 'or')}`;
    const pins = abridged(claim.subjects.pins);
    return claim.kind === 'joined'
      ? `${stage} has no supply: ${pins} are connected to each other ${everywhere('every', claim)}`
      : `${stage} has no supply: no battery is connected across ${pins} ${everywhere('any', claim)}`;
  },
  check(facts) {
    const { circuit, joined, unread } = facts;
    // A clip with a loose lead is reported as such.
    const loose = circuit.parts.some(
      (part) => part.ancestry.includes('battery') && !joined.isUnwired(part.id) && looseLeads(facts, part).length > 0,
    );
    if (facts.outputFault() === 'none' || loose) return [];
    const behindDiode = new Set(reportsOf(facts, turnedDiode).flatMap(({ subjects }) => subjects));
    return facts.stages().flatMap(({ stage, fed, turned }) => {
      const part = partById(circuit, stage.part);
      if (joined.isUnwired(part.id) || unread.touches(part.id) || fed.length > 0 || behindDiode.has(part.name)) return [];
      const pins = [stage.plus, stage.minus];
      const free = pins.filter((lug) => !joined.isWired(lug)).map((lug) => lugLabel(circuit, lug));
      const { name } = part;
      const isJoined = facts.groups().every(({ folded }) => netOf(folded, stage.plus) === netOf(folded, stage.minus));
      const claim: Claim =
        turned.length > 0
          ? {
              kind: 'reversed',
              subjects: { stage: name, plus: lugLabel(circuit, stage.plus) },
              ...settingsOf(
                circuit,
                facts.settings(),
                turned.flatMap(({ settings }) => settings),
              ),
            }
          : free.length > 0
            ? { kind: 'unsoldered', subjects: { stage: name, free } }
            : {
                kind: isJoined ? 'joined' : 'no-battery',
                subjects: { stage: name, pins: pins.map((lug) => lugLabel(circuit, lug)) },
                ...triedIn(facts),
              };
      return [
        {
          claim,
          why:
            turned.length > 0
              ? 'A stage that is fed the wrong way round is silent at best and may be destroyed. Exchange plus and minus at the clip before you put a battery in.'
              : 'A stage without a supply passes no signal. Battery plus goes to the plus of the stage; battery minus often goes through the ring of a stereo jack, so that the plug switches it on.',
          range: placeOfPart(circuit, part.id),
          subjects: [part.name, ...pins.map((lug) => lugLabel(circuit, lug))],
        },
      ];
    });
  },
});
