/** A battery on the signal: what is on its net is a short for the sound, and the supply is on pickups or jack. */
import { type Battery, elementById, jackOutputs, type LugId, partById } from '../../circuit/model.js';
import { lugLabel, placeOfPart, type Facts } from '../facts/index.js';
import { defineRule, reportsOf } from '../rule.js';
import { noSupply } from './no-supply.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  /** The battery, its lead, and the lug of the signal that is on one net with it. */
  readonly subjects: { readonly battery: string; readonly lead: string; readonly at: string };
}

export const supplyOnSignal = defineRule<Claim>({
  id: 'supply-on-signal',
  severity: 'error',
  summary: 'a battery whose lead is on the signal: on a pickup, on the input or output of a stage, or on the tip',
  describe: ({ subjects: { battery, lead, at } }) => `${battery} is on the signal: ${lead} is on one net with ${at}`,
  check(facts) {
    const { circuit, joined, unread } = facts;
    if (facts.outputFault() !== undefined || unread.any || circuit.output === undefined) return [];
    // `no-supply` reports a battery whose lead is on the wrong lug.
    if (reportsOf(facts, noSupply).length > 0) return [];
    const ground = joined.classOf(circuit.output.sleeve);
    const signal = signalLugs(facts);
    const batteries = circuit.elements.filter((element): element is Battery => element.kind === 'battery');
    return batteries.flatMap(({ a, b, part }) =>
      [a, b].flatMap((lead) => {
        const at = signal.find((lug) => joined.classOf(lug) === joined.classOf(lead));
        if (at === undefined || joined.classOf(lead) === ground) return [];
        const { name } = partById(circuit, part);
        return [
          {
            claim: { subjects: { battery: name, lead: lugLabel(circuit, lead), at: lugLabel(circuit, at) } },
            why: 'For the sound a battery is a short, so little or nothing is heard, and its voltage is on what should carry the signal alone.',
            range: placeOfPart(circuit, part),
            subjects: [name, lugLabel(circuit, lead), lugLabel(circuit, at)],
          },
        ];
      }),
    );
  },
});

/** Where the signal alone belongs: the tips of the jacks, the input and the output of a stage, the ends of a pickup's coils. */
function signalLugs({ circuit }: Facts): readonly LugId[] {
  const stages = circuit.elements.flatMap((element) => {
    if (element.kind !== 'gain') return [];
    // The drain of a source follower, or the collector of an emitter follower, belongs on the supply.
    return element.transistor === undefined ? [element.a, element.b] : [element.a];
  });
  const coils = circuit.parts
    .filter(({ family }) => family === 'pickup')
    .flatMap(({ elements }) => elements.map((id) => elementById(circuit, id)))
    .flatMap((element) => (element.kind === 'coil' ? [element.a, element.b] : []));
  return [...jackOutputs(circuit).map(({ tip }) => tip), ...stages, ...coils];
}
