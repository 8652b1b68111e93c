/** A lead of a pickup, of a two-lead part or of a buffer that is soldered to nothing. */
import { lugById, type LugId, type Part } from '../../circuit/model.js';
import { lugLabel, lugLabels, abridged, ownPart, placeOfPart, type Facts } from '../facts/index.js';
import { looseLeads } from '../facts/wiring/leads.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

type Consequence = 'no-current' | 'no-signal' | 'open-coil' | 'open-pickup';

interface Claim extends Statement {
  readonly kind: 'unsoldered' | 'dead-end';
  readonly subjects: { readonly lead: string; readonly part: string; readonly on?: readonly string[] };
  readonly observed: readonly { readonly kind: Consequence }[];
}

export const looseLead = defineRule<Claim>({
  id: 'loose-lead',
  severity: 'error',
  summary: 'a lead of a pickup or of a two-lead part that leads to nothing',
  describe({ kind, subjects: { lead, part, on = [] }, observed }) {
    const ending =
      kind === 'unsoldered' ? 'is not soldered to anything' : `ends on ${abridged(on)}, where nothing else is connected`;
    return `${lead} ${ending}: ${observed.map((one) => consequences[one.kind](part)).join(' and ')}`;
  },
  check(facts) {
    const { circuit, joined, unread } = facts;
    const parts = circuit.parts.filter((part) => !joined.isUnwired(part.id) && !unread.touches(ownPart(circuit, part.id).id));
    const loose = parts.flatMap((part) => looseLeads(facts, part).map((lug) => ({ lug, part })));
    const lugs = new Set(loose.map(({ lug }) => lug));
    // A lead that is brought out at a lug of the assembly is wired there, and is reported once, as that lug.
    const isLug = (lug: LugId): boolean =>
      joined.at(lug).some(({ holder, a, b }) => {
        const other = a === lug ? b : a;
        return lugs.has(other) && holder === lugById(circuit, other).part && holder !== lugById(circuit, lug).part;
      });
    return loose
      .filter(({ lug }) => !isLug(lug))
      .map(({ lug, part }) => ({
        claim: claimOf(facts, lug, part),
        why: `Current must be able to return: both ends of the path through ${part.name} need a connection. If a lead is not wanted, cut it back, insulate it, and set this finding aside.`,
        range: placeOfPart(circuit, part.id),
        subjects: [lugLabel(circuit, lug)],
      }));
  },
});

/** A lead on a splice or a tag on which nothing else ends is as loose as one in the air. */
function claimOf({ circuit, joined }: Facts, lug: LugId, part: Part): Claim {
  const carriers = joined.members(joined.classOf(lug)).filter((other) => other !== lug);
  const subjects = { lead: lugLabel(circuit, lug), part: part.name };
  const observed = [{ kind: consequenceOf(part) }];
  return carriers.length === 0
    ? { kind: 'unsoldered', subjects, observed }
    : { kind: 'dead-end', subjects: { ...subjects, on: lugLabels(circuit, carriers) }, observed };
}

function consequenceOf({ family, elements }: Part): Consequence {
  if (family === 'passive' || family === 'assembly') return 'no-current';
  if (family === 'amplifier') return 'no-signal';
  return elements.length > 1 ? 'open-coil' : 'open-pickup';
}

const consequences: Readonly<Record<Consequence, (part: string) => string>> = {
  'no-current': (part) => `no current flows through ${part}`,
  'no-signal': (part) => `no signal passes through ${part}`,
  'open-coil': () => 'its coil is open',
  'open-pickup': (part) => `${part} is open and can’t be heard`,
};
