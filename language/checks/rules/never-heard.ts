/** A pickup that is heard in no position. */
import { elementById, lugById, type LugId, type Part, type PartId } from '../../circuit/model.js';
import type { Nets } from '../../electrics/index.js';
import { lugLabel, abridged, placeOfLug, placeOfPart, type Facts } from '../facts/index.js';
import { reachingWithoutOwn } from '../facts/signal/reach.js';
import type { Statement } from '../../source.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';
import { joinedTo, looseLeads } from '../facts/wiring/leads.js';
import { cutOffAtPoles } from '../facts/wiring/open-poles.js';

/** Why one pickup is not heard. */
interface Cause {
  readonly kind: 'grounded' | 'no-output' | 'lead-not-to-output' | 'lead-not-to-ground' | 'not-both';
  readonly subjects: { readonly leads?: readonly string[]; readonly lead?: string; readonly on?: string };
}

type Claim = Pick<Statement, 'tried'> &
  (
    | (Cause & { readonly subjects: Cause['subjects'] & { readonly pickup: string } })
    | { readonly kind: 'none'; readonly subjects: { readonly pickups: readonly string[]; readonly tip: string } }
  );

export const neverHeard = defineRule<Claim>({
  id: 'never-heard',
  severity: 'error',
  summary: 'a pickup that reaches the output in no position',
  describe(claim) {
    if (claim.kind !== 'none')
      return `${claim.subjects.pickup} is ${claim.tried === undefined ? 'never heard' : `heard ${everywhere('no', claim)}`}: ${describeCause(claim)}`;
    const { pickups, tip } = claim.subjects;
    return `No pickup is ${claim.tried === undefined ? 'ever ' : ''}heard: the signal of ${abridged(pickups)} reaches ${tip} ${everywhere('no', claim)}`;
  },
  check(facts): readonly Report<Claim>[] {
    const { circuit, joined, signal, unread } = facts;
    if (facts.outputFault() !== undefined || unread.any) return [];
    // A dead stage silences what stands before it, and is reported as such.
    if (facts.stages().some(({ fed }) => fed.length === 0)) return [];
    const cutOff = cutOffAtPoles(facts);
    const unheard = signal.pickups.filter((part) => signal.neverHeard().has(part.id) && !isExplained(facts, part, cutOff));
    const reaching = reachingLeads(facts, unheard);
    if (unheard.length > 1 && unheard.length === signal.pickups.length && circuit.output !== undefined) {
      const tip = lugLabel(circuit, circuit.output.tip);
      return [
        {
          claim: { kind: 'none', subjects: { pickups: unheard.map((part) => part.name), tip }, ...triedIn(facts) },
          why: 'Follow the signal back from the tip, joint by joint and through each switch and pot, to the place where it stops.',
          range: placeOfLug(circuit, circuit.output.tip),
          related: unheard.map((part) => ({
            message: describeCause({ ...causeOf(facts, reaching, part), ...triedIn(facts) }),
            range: placeOfPart(circuit, part.id),
          })),
          subjects: [tip, ...unheard.map((part) => part.name)],
        },
      ];
    }
    return unheard.map((part) => ({
      claim: {
        ...causeOf(facts, reaching, part),
        subjects: { pickup: part.name, ...causeOf(facts, reaching, part).subjects },
        ...triedIn(facts),
      },
      why: 'A pickup is heard when one of its leads reaches the output, the other reaches ground, and no contact joins the two.',
      range: placeOfPart(circuit, part.id),
      subjects: [part.name, ...part.lugs.filter((lug) => joined.isWired(lug)).map((lug) => lugLabel(circuit, lug))],
    }));
  },
});

/** Loose leads, unwired parts and open poles are reported by their own rules. */
function isExplained(facts: Facts, part: Part, cutOff: ReadonlySet<number>): boolean {
  const { circuit, joined } = facts;
  if (joined.isUnwired(part.id)) return true;
  const leads = leadsOf(circuit, part);
  return looseLeads(facts, part).length > 0 || leads.some((lug) => cutOff.has(joined.classOf(lug)));
}

function leadsOf(circuit: Facts['circuit'], part: Part): readonly LugId[] {
  const ends = part.elements.map((id) => elementById(circuit, id)).flatMap((element) => [element.a, element.b]);
  return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1);
}

/** Leads that reach the output in some position, and those that reach ground, otherwise than through their own pickup. */
interface ReachingLeads {
  readonly toOutput: ReadonlySet<LugId>;
  readonly toGround: ReadonlySet<LugId>;
}

function reachingLeads(facts: Facts, parts: readonly Part[]): ReachingLeads {
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

function causeOf(facts: Facts, reaching: ReachingLeads, part: Part): Cause {
  const { circuit } = facts;
  const leads = leadsOf(circuit, part);
  const groups = facts.groups();
  const toOutput = leads.filter((lug) => reaching.toOutput.has(lug));
  const toGround = leads.filter((lug) => reaching.toGround.has(lug));
  const hot = leads.find((lug) => lugById(circuit, lug).name === 'hot');
  const lead = (lug: LugId): Cause['subjects'] => ({ lead: lugLabel(circuit, lug), ...wiredTo(facts, lug) });
  if (toOutput.length === 0) {
    const onGround = (lug: LugId): boolean => groups.every(({ folded }) => folded.of[lug] === folded.ground);
    if (leads.every(onGround)) return { kind: 'grounded', subjects: { leads: leads.map((lug) => lugLabel(circuit, lug)) } };
    const lug = hot !== undefined && !onGround(hot) ? hot : leads.find((other) => !onGround(other));
    return lug === undefined ? { kind: 'no-output', subjects: {} } : { kind: 'lead-not-to-output', subjects: lead(lug) };
  }
  const rest = leads.filter((lug) => !toOutput.includes(lug) || leads.length > 1);
  const [cold] = rest.filter((lug) => !toGround.includes(lug) && lug !== hot);
  return cold === undefined ? { kind: 'not-both', subjects: {} } : { kind: 'lead-not-to-ground', subjects: lead(cold) };
}

function describeCause({ kind, subjects: { lead = '', leads = [], on }, ...claim }: Cause & Pick<Statement, 'tried'>): string {
  const name = `its ${lead.slice(lead.lastIndexOf('.') + 1)} lead${on === undefined ? '' : ` on ${on}`}`;
  switch (kind) {
    case 'grounded':
      return `${abridged(leads)} are both on ground`;
    case 'no-output':
      return 'no lead reaches the output';
    case 'lead-not-to-output':
      return `${name} reaches the output ${everywhere('no', claim)}`;
    case 'lead-not-to-ground':
      return `${name} reaches ground ${everywhere('no', claim)}`;
    case 'not-both':
      return `${everywhere('no', claim)} do its two ends reach output and ground at the same time`;
  }
}

/** What the lead is soldered to, where that is one thing. */
function wiredTo({ circuit, joined }: Facts, lug: LugId): { readonly on?: string } {
  const [one, ...more] = joinedTo(circuit, joined, lug);
  return one === undefined || more.length > 0 ? {} : { on: lugLabel(circuit, one) };
}
