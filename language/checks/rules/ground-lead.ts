/** A pickup's ground lead that is on ground in no position. */
import { lugById, partById, type LugId, type Part } from '../../circuit/model.js';
import { type Facts, lugLabel, abridged, placeOfLug } from '../facts/index.js';
import { joinedTo, looseLeads } from '../facts/wiring/leads.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly lead: string; readonly 'soldered-to'?: readonly string[] };
}

export const groundLead = defineRule<Claim>({
  id: 'ground-lead',
  severity: 'warning',
  summary: 'a pickup whose ground lead is on ground in no position, and no expectation asks for it in series',
  describe: ({ subjects: { lead, 'soldered-to': others = [] }, ...claim }) =>
    `${lead} is on ground ${everywhere('no', claim)}${others.length > 0 ? `: it is soldered to ${abridged(others)}` : ''}`,
  check(facts) {
    const { circuit, signal, joined, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any) return [];
    const isOnDummy = dummiesIn(facts);
    return signal.pickups.flatMap((part) => {
      const [hot, cold] = ['hot', 'ground'].map((name) => part.lugs.find((lug) => lugById(circuit, lug).name === name));
      if (hot === undefined || cold === undefined) return [];
      if (signal.neverHeard().has(part.id) || looseLeads(facts, part).length > 0) return [];
      if (isEverGround(facts, hot) || isEverGround(facts, cold) || isMeant(facts, part) || isOnDummy(cold)) return [];
      const others = joinedTo(circuit, joined, cold).map((lug) => lugLabel(circuit, lug));
      return [
        {
          claim: {
            subjects: { lead: lugLabel(circuit, cold), ...(others.length === 1 ? { 'soldered-to': others } : {}) },
            ...triedIn(facts),
          },
          why: 'A pickup whose ground lead is on another part sounds through that part: thin, quiet, or in series with another pickup. If that is intended, say so with an `expect … : sounds series(…)` line.',
          range: placeOfLug(circuit, cold),
          subjects: [lugLabel(circuit, cold), part.name],
        },
      ];
    });
  },
});

function isEverGround(facts: Facts, lug: LugId): boolean {
  return facts.groups().some(({ folded }) => folded.of[lug] === folded.ground);
}

/** A dummy coil stands between the lead and ground to cancel hum. */
function dummiesIn({ circuit, joined }: Facts): (lug: LugId) => boolean {
  const dummies = circuit.elements.filter((element) => element.kind === 'coil' && element.output === 0);
  const classes = new Set(dummies.flatMap(({ a, b }) => [joined.classOf(a), joined.classOf(b)]));
  return (lug) => classes.has(joined.classOf(lug));
}

/** True where a line says what the pickup sounds like together with others: it is judged there. */
function isMeant({ circuit }: Facts, { elements }: Part): boolean {
  return circuit.expectations.some(({ claims }) =>
    claims.some((claim) => claim.kind === 'sounds' && isInSeries(claim.arrangement, new Set(elements), circuit)),
  );
}

type Arrangement = Extract<Facts['circuit']['expectations'][number]['claims'][number], { kind: 'sounds' }>['arrangement'];

function isInSeries(arrangement: Arrangement, coils: ReadonlySet<number>, circuit: Facts['circuit']): boolean {
  if (!('members' in arrangement)) return false;
  const has = (one: Arrangement): boolean => {
    if (one.kind === 'coil') return coils.has(one.coil);
    if (one.kind === 'pickup') return partById(circuit, one.part).elements.some((id) => coils.has(id));
    return one.members.some(has);
  };
  return arrangement.kind === 'series'
    ? has(arrangement)
    : arrangement.members.some((member) => isInSeries(member, coils, circuit));
}
