/** A pickup that is heard in no position. */
import { elementById, lugById, type LugId, type Part, type PartId } from '../../circuit/model.js';
import type { Nets } from '../../electrics/index.js';
import { label, listed, placeOfLug, placeOfPart, type Facts } from '../facts/index.js';
import { reachingWithoutOwn } from '../facts/signal/reach.js';
import { defineRule, type Report } from '../rule.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { cutOffAtPoles } from '../facts/wiring/open-poles.js';

export const neverHeard = defineRule({
  id: 'never-heard',
  severity: 'error',
  summary: 'a pickup that reaches the output in no position',
  check(facts): readonly Report[] {
    const { circuit, joined, hearing, loss } = facts;
    if (facts.outputFault() !== undefined || loss.any) return [];
    // A dead stage silences what stands before it, and is told as such.
    if (facts.stages().some(({ fed }) => fed.length === 0)) return [];
    const cutOff = cutOffAtPoles(facts);
    const dead = hearing.pickups.filter((part) => hearing.dead().has(part.id) && !isExplained(facts, part, cutOff));
    const ways = waysOf(facts, dead);
    if (dead.length > 1 && dead.length === hearing.pickups.length && circuit.output !== undefined) {
      const tip = label(circuit, circuit.output.tip);
      return [
        {
          message: `no pickup is ever heard: what ${listed(dead.map((part) => part.name))} give${dead.length > 1 ? '' : 's'} arrives at ${tip} in no position`,
          why: 'Follow the signal from the tip backwards, joint by joint and through each switch and pot, to the place where it stops.',
          range: placeOfLug(circuit, circuit.output.tip),
          related: dead.map((part) => ({ message: reason(facts, ways, part), range: placeOfPart(circuit, part.id) })),
          subjects: [tip, ...dead.map((part) => part.name)],
        },
      ];
    }
    return dead.map((part) => ({
      message: `${part.name} is never heard: ${reason(facts, ways, part)}`,
      why: 'A pickup sounds where one of its leads reaches the output and the other ground, and no contact ties the two together.',
      range: placeOfPart(circuit, part.id),
      subjects: [part.name, ...part.lugs.filter((lug) => joined.isWired(lug)).map((lug) => label(circuit, lug))],
    }));
  },
});

/** Loose leads, unwired parts and open poles are told by their own rules. */
function isExplained(facts: Facts, part: Part, cutOff: ReadonlySet<number>): boolean {
  const { circuit, joined } = facts;
  if (joined.isUnwired(part.id)) return true;
  const leads = leadsOf(circuit, part);
  return looseLeads(facts, part).length > 0 || leads.some((lug) => cutOff.has(joined.klass(lug)));
}

function leadsOf(circuit: Facts['circuit'], part: Part): readonly LugId[] {
  const ends = part.elements.map((id) => elementById(circuit, id)).flatMap((element) => [element.a, element.b]);
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1);
}

/** Leads that reach the output in some position, and those that reach ground, otherwise than through their own pickup. */
interface Ways {
  readonly toOutput: ReadonlySet<LugId>;
  readonly toGround: ReadonlySet<LugId>;
}

function waysOf(facts: Facts, parts: readonly Part[]): Ways {
  const { circuit } = facts;
  const leads = parts.map((part) => [part.id, leadsOf(circuit, part)] as const);
  const reached = (ends: (folded: Nets) => { readonly target: number; readonly barrier: number }): ReadonlySet<LugId> => {
    const found = new Set<LugId>();
    let open: ReadonlyMap<PartId, readonly LugId[]> = new Map(leads);
    for (const { folded } of parts.length === 0 ? [] : facts.groups()) {
      const { target, barrier } = ends(folded);
      for (const lug of reachingWithoutOwn(circuit, folded, target, barrier, open)) found.add(lug);
      open = new Map([...open].filter(([, own]) => !own.every((lug) => found.has(lug))));
      if (open.size === 0) break;
    }
    return found;
  };
  return {
    toOutput: reached(({ tip, ground }) => ({ target: tip, barrier: ground })),
    toGround: reached(({ tip, ground }) => ({ target: ground, barrier: tip })),
  };
}

function reason(facts: Facts, ways: Ways, part: Part): string {
  const { circuit } = facts;
  const leads = leadsOf(circuit, part);
  const groups = facts.groups();
  const toOutput = leads.filter((lug) => ways.toOutput.has(lug));
  const toGround = leads.filter((lug) => ways.toGround.has(lug));
  const hot = leads.find((lug) => lugById(circuit, lug).name === 'hot');
  if (toOutput.length === 0) {
    const onGround = (lug: LugId): boolean => groups.every(({ folded }) => folded.of[lug] === folded.ground);
    if (leads.every(onGround)) return `${listed(leads.map((lug) => label(circuit, lug)))} are both on ground`;
    const lug = hot !== undefined && !onGround(hot) ? hot : leads.find((lead) => !onGround(lead));
    return lug === undefined
      ? 'no lead reaches the output'
      : `its ${leadName(facts, lug)} lead${wiredTo(facts, lug)} reaches the output in no position`;
  }
  const rest = leads.filter((lug) => !toOutput.includes(lug) || leads.length > 1);
  const cold = rest.filter((lug) => !toGround.includes(lug) && lug !== hot);
  if (cold[0] !== undefined)
    return `its ${leadName(facts, cold[0])} lead${wiredTo(facts, cold[0])} reaches ground in no position`;
  return 'its two ends reach output and ground at once in no position';
}

function leadName({ circuit }: Facts, lug: LugId): string {
  return lugById(circuit, lug).name;
}

/** ` on selector.A2`: what the lead is soldered to, where that is one thing. */
function wiredTo({ circuit, joined }: Facts, lug: LugId): string {
  const others = joined.at(lug).map((joint) => (joint.a === lug ? joint.b : joint.a));
  return others.length === 1 ? ` on ${label(circuit, others[0]!)}` : '';
}
