/** Pickups, or coils of one, that work against each other wherever they are combined. */
import { type Circuit, elementById, type ElementId, lugById, partById, partOfElement } from '../../circuit/model.js';
import type { Fix, Statement } from '../../source.js';
import { exchangeLugs, fixWith } from '../edits.js';
import { type Facts, type Group, describeSettings, leading, abridged, placeOfPart, settingsOf } from '../facts/index.js';
import { lazy } from '../../lazy.js';
import { hearingsOf } from '../facts/signal/hearings.js';
import { coilName } from '../facts/words.js';
import { defineRule, type Report } from '../rule.js';

interface Pair {
  readonly a: ElementId;
  readonly b: ElementId;
  readonly against: Group[];
  with: boolean;
  asked: boolean;
}

interface Claim extends Statement {
  readonly kind: 'each-other' | 'odd-one';
  readonly subjects: { readonly coils: readonly string[]; readonly others?: readonly string[] };
}

export const outOfPhase = defineRule<Claim>({
  id: 'out-of-phase',
  severity: 'warning',
  summary: 'pickups that are out of phase wherever they are combined, and no expectation asks for it',
  describe({ kind, subjects: { coils, others = [] }, ...claim }) {
    const verb = coils.length > 1 ? 'are' : 'is';
    const opposed = `${abridged(coils)} ${verb} out of phase${kind === 'odd-one' ? ` with ${abridged(others)}` : ''}`;
    const where = describeSettings(claim);
    return `${where === '' ? opposed : leading(where, opposed)}: together they sound thin and weak`;
  },
  check(facts): readonly Report<Claim>[] {
    if (facts.outputFault() !== undefined || facts.isBroken() || facts.unread.any) return [];
    // A pair that some position combines in phase has a phase switch, and a pair that an expectation wants reversed is judged there.
    const reported = new Set<string>();
    return hearingsOf(facts).flatMap(({ facts: here }) => {
      const pairs = [...pairsOf(here).values()].filter((pair) => pair.against.length > 0 && !pair.with && !pair.asked);
      return islands(pairs).flatMap((island) => {
        const reports = reportsOf(here, island).filter(({ claim }) => !reported.has(claim.subjects.coils.join()));
        for (const { claim } of reports) reported.add(claim.subjects.coils.join());
        return reports;
      });
    });
  },
});

/** Pairs that work against each other in some setting. Coils that agree make none, so a circuit in phase costs no more than its coils. */
function pairsOf(facts: Facts): ReadonlyMap<number, Pair> {
  const { circuit, signal, intended } = facts;
  const pairs = new Map<number, Pair>();
  const key = (a: ElementId, b: ElementId): number => a * circuit.elements.length + b;
  const heardIn = facts.groups().map((group) => {
    const heard = signal.sound(group.setting).heard.filter(({ coil }) => outputOf(circuit, coil) > 0);
    const asksReversed = lazy(() => group.settings.some((setting) => intended.asksReversed(setting)));
    const isOpposed = new Set(heard.map(({ string }) => string)).size > 1;
    heard.forEach((one, i) => {
      for (const other of isOpposed ? heard.slice(i + 1) : []) {
        if (one.string === other.string) continue;
        const [a, b] = one.coil < other.coil ? [one.coil, other.coil] : [other.coil, one.coil];
        const pair = pairs.get(key(a, b)) ?? { a, b, against: [], with: false, asked: false };
        pairs.set(key(a, b), pair);
        pair.against.push(group);
        pair.asked ||= asksReversed();
      }
    });
    return new Map(heard.map(({ coil, string }) => [coil, string]));
  });
  for (const pair of pairs.values()) {
    pair.with = heardIn.some((strings) => strings.has(pair.a) && strings.get(pair.a) === strings.get(pair.b));
  }
  return pairs;
}

/** What a coil gives; nothing is heard of any other element. */
function outputOf(circuit: Circuit, id: ElementId): number {
  const element = elementById(circuit, id);
  return element.kind === 'coil' ? element.output : 0;
}

/** Pairs that share a coil have one cause and are reported once. */
function islands(pairs: readonly Pair[]): readonly (readonly Pair[])[] {
  const groups = new Set<Pair[]>();
  const groupOf = new Map<ElementId, Pair[]>();
  for (const pair of pairs) {
    const [one, other] = [groupOf.get(pair.a), groupOf.get(pair.b)];
    let joined = one ?? other ?? [];
    if (one !== undefined && other !== undefined && one !== other) {
      joined = [...groups].filter((group) => group === one || group === other).flat();
      groups.delete(one);
      groups.delete(other);
      for (const { a, b } of joined) groupOf.set(a, joined).set(b, joined);
    }
    joined.push(pair);
    groupOf.set(pair.a, joined).set(pair.b, joined);
    // The island that grew last stands last.
    groups.delete(joined);
    groups.add(joined);
  }
  return [...groups];
}

function reportsOf(facts: Facts, island: readonly Pair[]): readonly Report<Claim>[] {
  const { circuit } = facts;
  const [few, many] = sidesOf(island);
  const names = (coils: readonly ElementId[]): readonly string[] => wholeNames(facts, coils);
  const groups = new Set(island.flatMap((pair) => pair.against));
  const against = new Set([...groups].flatMap((group) => group.settings));
  const settings = facts.settings().filter((setting) => against.has(setting));
  const [first] = few;
  if (first === undefined) return [];
  const odd = elementById(circuit, first).part;
  return [
    {
      claim: {
        // Of two that oppose each other neither is the odd one.
        ...(few.length === many.length
          ? { kind: 'each-other', subjects: { coils: [...names(many), ...names(few)] } }
          : { kind: 'odd-one', subjects: { coils: names(few), others: names(many) } }),
        ...settingsOf(circuit, facts.settings(), settings),
      },
      why: 'Each sounds good alone; together they cancel. Exchange the two leads of one of them (unless one lead is also its cover or shield), or turn its magnet over. If it is intended, say so with an `expect … : sounds …(reversed …)` line.',
      range: placeOfPart(circuit, odd),
      subjects: [...new Set([...few, ...many].map((coil) => partOfElement(circuit, coil).name))],
      fixes: [few, many].flatMap((side) => exchange(facts, side)),
    },
  ];
}

/** The two camps of an island, the smaller first; of two equal ones the later declared. */
function sidesOf(island: readonly Pair[]): readonly [readonly ElementId[], readonly ElementId[]] {
  const camp = new Map<ElementId, boolean>();
  for (const { a } of island.slice(0, 1)) camp.set(a, true);
  for (let grown = true; grown;) {
    grown = false;
    for (const { a, b } of island) {
      if (camp.has(a) === camp.has(b)) continue;
      if (camp.has(a)) camp.set(b, !camp.get(a));
      else camp.set(a, !camp.get(b));
      grown = true;
    }
  }
  const side = (which: boolean): ElementId[] =>
    [...camp].flatMap(([coil, at]) => (at === which ? [coil] : [])).sort((a, b) => a - b);
  const [first, second] = [side(true), side(false)];
  return first.length < second.length ? [first, second] : [second, first];
}

/** A pickup whose coils are all on one side goes by its own name. */
function wholeNames({ circuit }: Facts, coils: readonly ElementId[]): readonly string[] {
  const side = new Set(coils);
  const names = coils.map((id) => {
    const coil = elementById(circuit, id);
    const part = partById(circuit, coil.part);
    const all = part.elements.filter((other) => elementById(circuit, other).kind === 'coil');
    return all.every((other) => side.has(other)) ? part.name : coilName(circuit, coil);
  });
  return [...new Set(names)];
}

function exchange({ circuit, joined }: Facts, side: readonly ElementId[]): readonly Fix[] {
  const [own, ...others] = new Set(side.map((coil) => elementById(circuit, coil).part));
  if (own === undefined || others.length > 0) return [];
  const part = partById(circuit, own);
  const [a, b, ...more] = part.lugs.filter((lug) => !lugById(circuit, lug).metal);
  if (a === undefined || b === undefined || more.length > 0 || !joined.isWired(a) || !joined.isWired(b)) return [];
  return fixWith(`exchange the leads of ${part.name}`, exchangeLugs(circuit, a, b));
}
