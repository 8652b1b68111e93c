/** A resistor, capacitor or inductor that does nothing in any position. */
import { lugById, partById, partOfLug, shaftById, type Element, type LugId } from '../../circuit/model.js';
import { netOf, outputsOf, type Nets } from '../../electrics/index.js';
import { type Facts, lugLabels, abridged, placeOfPart } from '../facts/index.js';
import { countEnds, elementEnds } from '../facts/wiring/ends.js';
import { isPad, looseLeads } from '../facts/wiring/leads.js';
import { hearingsOf } from '../facts/signal/hearings.js';
import { reachedWithout } from '../facts/signal/paths.js';
import { idleEffects, trackLugs } from '../facts/shafts.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule, type Report } from '../rule.js';
import type { Steps } from '../../steps.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly kind?: 'shorted' | 'dead-end';
  readonly subjects: { readonly part: string; readonly free?: readonly string[] };
}

export const idlePart = defineRule<Claim>({
  id: 'idle-part',
  severity: 'warning',
  summary: 'a resistor, capacitor or inductor that does nothing in any position',
  describe({ kind, subjects: { part, free = [] }, ...claim }) {
    const cause =
      kind === 'shorted'
        ? ': both its leads are on one net'
        : kind === 'dead-end'
          ? `: nothing else is connected to ${abridged(free)}`
          : '';
    return `${part} does nothing ${everywhere('any', claim)}${cause}`;
  },
  *checkSteps(facts): Steps<readonly Report<Claim>[]> {
    const { circuit, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || signal.pickups.length === 0) return [];
    const isElsewhere = elsewhereIn(facts);
    const passives = circuit.elements.filter((element) => isJudged(facts, element, isElsewhere));
    if (passives.length === 0 || signal.neverHeard().size > 0) return [];
    const alive = new Set<number>();
    for (const { facts: heard } of hearingsOf(facts)) {
      for (const { folded } of heard.groups()) {
        for (const id of workingIn(heard, folded, passives)) alive.add(id);
        yield;
      }
    }
    const idle = passives.filter(({ id }) => !alive.has(id));
    const nets = idle.length === 0 ? new Set<number>() : netsOfIdlePots(facts);
    return idle
      .filter(({ a, b }) => ![a, b].some((lug) => nets.has(facts.joined.classOf(lug))))
      .map((element) => {
        const { name } = partById(circuit, element.part);
        return {
          claim: { ...claimOf(facts, element, name), ...triedIn(facts) },
          why: 'Its two leads must be on different nets, one of them on the signal. Perhaps a lead is on a neighbouring lug.',
          range: placeOfPart(circuit, element.part),
          subjects: [name],
        };
      });
  },
});

/** Parts on a supply, and parts that a resting switch or another plug connects, are not reported. */
function isJudged(facts: Facts, element: Element, isElsewhere: (classId: number) => boolean): boolean {
  const { circuit, joined } = facts;
  const part = partById(circuit, element.part);
  if (part.family !== 'passive' || !isSimple(element)) return false;
  if (joined.isUnwired(part.id) || looseLeads(facts, part).length > 0) return false;
  return ![element.a, element.b].some((lug) => isElsewhere(joined.classOf(lug)));
}

/** A diode waits for what isn't computed, and a winding of a transformer works through the other. */
function isSimple(element: Element): boolean {
  if (element.kind === 'inductor') return (element.coupling ?? 0) === 0;
  return element.kind === 'resistor' || element.kind === 'capacitor';
}

/** Whether the lugs of a class serve something else than the signal; worked out once for each class. */
function elsewhereIn({ circuit, joined }: Facts): (classId: number) => boolean {
  const supplied = circuit.elements.flatMap((other) =>
    other.kind === 'battery' ? [other.a, other.b] : other.kind === 'gain' ? [other.plus, other.minus] : [],
  );
  const classes = new Set(supplied.map((lug) => joined.classOf(lug)));
  const sleeve = circuit.output === undefined ? -1 : joined.classOf(circuit.output.sleeve);
  const resting = new Set(circuit.switches.flatMap(({ part, rest }) => (rest === undefined ? [] : [part])));
  const jacks = new Set(circuit.jacks);
  const tips = new Set(outputsOf(circuit).map(({ tip }) => tip));
  const isElsewhere = (classId: number): boolean => {
    if (classId === sleeve) return false;
    // Between metal and ground it serves the player, not the signal.
    if (classes.has(classId) || joined.members(classId).some((other) => lugById(circuit, other).metal)) return true;
    return joined.members(classId).some((other) => {
      const { part } = lugById(circuit, other);
      return resting.has(part) || (jacks.has(part) && !tips.has(other));
    });
  };
  const known = new Map<number, boolean>();
  return (classId) => {
    const answer = known.get(classId) ?? isElsewhere(classId);
    known.set(classId, answer);
    return answer;
  };
}

/** Those with two ends that lead on, to different nets, and one of them to the signal. */
function workingIn({ circuit }: Facts, folded: Nets, passives: readonly Element[]): readonly number[] {
  const { tip, ground } = folded;
  const ends = countEnds(folded, elementEnds(circuit));
  const reached = reachedWithout(circuit, folded);
  const leadsOn = (net: number): boolean => net === ground || net === tip || (ends[net] ?? 0) > 1;
  return passives
    .filter(({ a, b }) => {
      const [x, y] = [netOf(folded, a), netOf(folded, b)];
      return x !== y && leadsOn(x) && leadsOn(y) && (reached(x) || reached(y));
    })
    .map(({ id }) => id);
}

/** A pot that does nothing is reported as such, and what hangs on it follows from it. */
function netsOfIdlePots(facts: Facts): ReadonlySet<number> {
  const { circuit, joined } = facts;
  const sleeve = circuit.output === undefined ? -1 : joined.classOf(circuit.output.sleeve);
  const lugs = idleEffects(facts).flatMap(({ shaft }) => trackLugs(circuit, shaftById(circuit, shaft)));
  return new Set(lugs.map((lug) => joined.classOf(lug)).filter((classId) => classId !== sleeve));
}

function claimOf({ circuit, joined }: Facts, { a, b }: Element, part: string): Claim {
  if (joined.classOf(a) === joined.classOf(b)) return { kind: 'shorted', subjects: { part } };
  const free = [a, b].filter((lug) =>
    joined
      .members(joined.classOf(lug))
      .every((other) => other === lug || isThrow(circuit, other) || isPad(circuit, joined, other)),
  );
  return free.length === 0 ? { subjects: { part } } : { kind: 'dead-end', subjects: { part, free: lugLabels(circuit, free) } };
}

function isThrow(circuit: Facts['circuit'], lug: LugId): boolean {
  return partOfLug(circuit, lug).family === 'switch';
}
