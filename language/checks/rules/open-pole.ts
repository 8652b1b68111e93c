/** A pole of which only one side is soldered: the common without throws, throws without the common, half an on-off contact. */
import type { LugId } from '../../circuit/model.js';
import { lugLabel, lugLabels, abridged, placeOfLug, type Facts, type Pole } from '../facts/index.js';
import { isOpenPole, sidesOf } from '../facts/wiring/open-poles.js';
import { defineRule, type Report } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind: 'common' | 'throws' | 'throw';
  readonly subjects: { readonly wired: readonly string[]; readonly free: readonly string[] };
  readonly observed?: readonly { readonly kind: 'silenced'; readonly subjects: { readonly pickups: readonly string[] } }[];
}

export const openPole = defineRule<Claim>({
  id: 'open-pole',
  severity: 'error',
  summary: 'a pole in use of which the common, or every throw, is soldered to nothing',
  describe({ kind, subjects: { wired, free }, observed = [] }) {
    const missing = kind === 'common' ? `its common ${abridged(free)}` : kind === 'throws' ? 'any of its throws' : abridged(free);
    const silenced = observed.flatMap(({ subjects: { pickups } }) => pickups);
    const consequence =
      silenced.length > 0
        ? `${abridged(silenced)} ${silenced.length > 1 ? 'are' : 'is'} never heard`
        : 'the signal stops at this pole';
    return `${abridged(wired, 'and', 4)} ${wired.length > 1 ? 'are' : 'is'} wired, but nothing is soldered to ${missing}: ${consequence}`;
  },
  check(facts) {
    return facts.poles().flatMap((pole) => (facts.unread.touches(pole.device.part) ? [] : reportsOf(facts, pole)));
  },
});

function reportsOf(facts: Facts, pole: Pole): readonly Report<Claim>[] {
  const { circuit } = facts;
  const [wired, free, side] = sidesOf(facts, pole);
  // A lug with two wires is a tie point, and works without its contact.
  const [first, ...others] = wired.filter((lug) => facts.joined.wires(lug) === 1);
  if (first === undefined || !isOpenPole(facts, pole)) return [];
  const pickups = silencedBy(facts, wired);
  return [
    {
      claim: {
        kind: side === 'common' ? 'common' : free.length > 1 ? 'throws' : 'throw',
        subjects: { wired: lugLabels(circuit, wired), free: lugLabels(circuit, free) },
        ...(pickups.length === 0 ? {} : { observed: [{ kind: 'silenced', subjects: { pickups } }] }),
      },
      why: 'A contact passes a signal only where both of its sides are soldered. If the lug only holds the end of a wire, insulate that end instead.',
      range: placeOfLug(circuit, first),
      related: others.map((lug) => ({ message: `${lugLabel(circuit, lug)} as well`, range: placeOfLug(circuit, lug) })),
      subjects: [...lugLabels(circuit, wired), ...lugLabels(circuit, side === 'common' || free.length === 1 ? free : [])],
    },
  ];
}

/** Pickups that have a lead on these lugs and are heard in no position. */
function silencedBy({ circuit, signal, joined, unread, outputFault }: Facts, lugs: readonly LugId[]): readonly string[] {
  if (outputFault() !== undefined || unread.any) return [];
  const classes = new Set(lugs.map((lug) => joined.classOf(lug)));
  const parts = circuit.parts.filter(
    ({ id, lugs: own }) => signal.neverHeard().has(id) && own.some((lug) => classes.has(joined.classOf(lug))),
  );
  return parts.map(({ name }) => name);
}
