/** A pole of which only one side is soldered: the common without throws, throws without the common, half an on-off contact. */
import type { LugId } from '../../circuit/model.js';
import { label, labels, listed, placeOfLug, type Facts, type Pole } from '../facts/index.js';
import { isOpenPole, sidesOf } from '../facts/wiring/open-poles.js';
import { defineRule, type Report } from '../rule.js';

export const openPole = defineRule({
  id: 'open-pole',
  severity: 'error',
  summary: 'a pole in use of which the common, or every throw, is soldered to nothing',
  check(facts) {
    return facts.poles().flatMap((pole) => (facts.loss.touches(pole.device.part) ? [] : tell(facts, pole)));
  },
});

function tell(facts: Facts, pole: Pole): readonly Report[] {
  const { circuit } = facts;
  const [wired, free, side] = sidesOf(facts, pole);
  // A lug with two wires is a tie point, and works without its contact.
  const ending = wired.filter((lug) => facts.joined.wires(lug) === 1);
  if (!isOpenPole(facts, pole)) return [];
  const names = listed(labels(circuit, wired), 'and', 4);
  const cutOff = silencedBy(facts, wired);
  const missing =
    side === 'common'
      ? `its common ${label(circuit, free[0]!)} is`
      : free.length > 1
        ? 'none of its throws is'
        : `${label(circuit, free[0]!)} is`;
  return [
    {
      message: `${names} ${wired.length > 1 ? 'are' : 'is'} wired, but ${missing} soldered to nothing: ${cutOff.length > 0 ? `${listed(cutOff)} ${cutOff.length > 1 ? 'are' : 'is'} never heard` : 'what comes to this pole goes no further'}`,
      why: `A contact passes a signal only where both of its sides are soldered. If the lug only holds a wire's end, insulate that end instead.`,
      range: placeOfLug(circuit, ending[0]!),
      related: ending.slice(1).map((lug) => ({ message: `${label(circuit, lug)} as well`, range: placeOfLug(circuit, lug) })),
      subjects: [...labels(circuit, wired), ...labels(circuit, side === 'common' || free.length === 1 ? free : [])],
    },
  ];
}

/** Pickups that have a lead on these lugs and are heard in no position. */
function silencedBy({ circuit, hearing, joined, loss, outputFault }: Facts, lugs: readonly LugId[]): readonly string[] {
  if (outputFault() !== undefined || loss.any) return [];
  const classes = new Set(lugs.map((lug) => joined.klass(lug)));
  const parts = circuit.parts.filter(
    ({ id, lugs: own }) => hearing.dead().has(id) && own.some((lug) => classes.has(joined.klass(lug))),
  );
  return parts.map(({ name }) => name);
}
