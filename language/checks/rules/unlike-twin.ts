/** A part that is wired differently from its twins: a second volume, one capacitor of those that a pole chooses among. */
import { lugLabel, partById, type AnalysedCircuit, type LugId, type PartId } from '../../circuit/model.js';
import { append, groupBy } from '../../collections.js';
import { polesOf } from '../../electrics/index.js';
import {
  isLike,
  lugsOfTrack,
  matchTracks,
  rolesOf,
  surroundingsOf,
  tokensOf,
  unitName,
  isPickupWord,
  pickupTokens,
  wholePickups,
  type Role,
  type TrackMatch,
} from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { abridged } from '../../words.js';
import { placeOfLug, placeOfPart, type Facts } from '../facts/index.js';
import { isJudgeable } from '../facts/shafts.js';
import { defineRule, reportsOf, type Report } from '../rule.js';
import { constantCut } from './constant-cut.js';

interface Claim extends Statement {
  readonly kind: 'control' | 'capacitor' | 'throw';
  /** The odd one, its twins, and its lug that is not soldered as theirs are. */
  readonly subjects: { readonly part: string; readonly twins: readonly string[]; readonly lug: string };
}

export const unlikeTwin = defineRule<Claim>({
  id: 'unlike-twin',
  severity: 'warning',
  summary: 'a volume, or a capacitor of those that a switch chooses among, that is wired differently from its twins',
  describe({ kind, subjects: { part, twins, lug } }) {
    switch (kind) {
      case 'control':
        return `${part} is wired differently from ${abridged(twins)}: look at ${lug}`;
      case 'capacitor':
        return `${part} leads to ${lug}, ${abridged(twins)} to somewhere else`;
      case 'throw':
        return `${part} has no throw to itself, while ${abridged(twins)} ${twins.length > 1 ? 'have' : 'has'} one, and nothing is soldered to ${lug}`;
    }
  },
  check(facts) {
    if (!isJudgeable(facts)) return [];
    const odd = [...unlikeControls(facts), ...unlikeCapacitors(facts.circuit), ...capacitorsOffThrows(facts)];
    if (odd.length === 0) return [];
    const reported = new Set(reportsOf(facts, constantCut).flatMap(({ subjects }) => subjects));
    return odd.filter(({ claim: { subjects } }) => !reported.has(subjects.part));
  },
});

interface Control {
  readonly role: Role;
  readonly match: TrackMatch;
}

/** Mixed volumes of the same type with similar names, each with its own pickups, that are wired in different usual ways. */
function unlikeControls(facts: Facts): readonly Report<Claim>[] {
  const { circuit } = facts;
  const pickups = wholePickups(circuit).length;
  const controls = rolesOf(circuit).flatMap((role): readonly Control[] => {
    if (role.confidence === 'weak' || role.word !== 'volume' || role.of.length === pickups) return [];
    const [match, ...more] = matchTracks(circuit, role.unit, role.word);
    return match === undefined || more.length > 0 || match.departs.length > 0 ? [] : [{ role, match }];
  });
  const groups = groupBy(controls, ({ role }) => `${stemOf(circuit, role)} ${partById(circuit, role.unit.part).type}`);
  return [...groups.values()].flatMap((members) => {
    const group = members.sort((a, b) => byOwnName(unitName(circuit, a.role.unit), unitName(circuit, b.role.unit)));
    const odd = oddOnes(group, (one, other) => isAlike(one, other) || !areMixed(facts, one, other));
    return odd.flatMap(({ one, others }) => {
      const lug = firstUnlike(one, others[0]);
      return lug === undefined ? [] : [controlReport(circuit, one.role, others, lug)];
    });
  });
}

function controlReport(circuit: AnalysedCircuit, role: Role, others: readonly Control[], lug: LugId): Report<Claim> {
  const part = unitName(circuit, role.unit);
  const label = lugLabel(circuit, lug);
  const twins = others.map((other) => unitName(circuit, other.role.unit));
  return {
    claim: { kind: 'control', subjects: { part, twins, lug: label } },
    why: 'Either way is usual, but two of a kind are seldom wired in two ways. Usually two leads are exchanged on one of them.',
    range: placeOfLug(circuit, lug),
    subjects: [part, label],
  };
}

/** The name without numbers and without the words of pickups: `neck-volume` and `bridge-volume` are twins. */
function stemOf(circuit: AnalysedCircuit, { unit }: Role): string {
  const pickups = pickupTokens(circuit);
  const { name } = partById(circuit, unit.part);
  const own = tokensOf(ownName(name) + unitName(circuit, unit).slice(name.length));
  return own.filter((token) => !pickups.has(token) && !isPickupWord(token)).join('-');
}

/** True where the two are joined in some position, so that one at 0 acts on the other. */
function areMixed({ groups }: Facts, one: Control, other: Control): boolean {
  const ends = ({ match }: Control): readonly LugId[] => {
    const { wiper, hot } = lugsOfTrack(match.track);
    return [wiper, hot];
  };
  return groups().some(({ folded }) =>
    ends(one).some((a) => ends(other).some((b) => folded.of[a] === folded.of[b] && folded.of[a] !== folded.ground)),
  );
}

function isAlike(one: Control, other: Control): boolean {
  return firstUnlike(one, other) === undefined;
}

function firstUnlike(one: Control, other: Control | undefined): LugId | undefined {
  if (other === undefined) return undefined;
  const [a, b] = [one.match.sides, other.match.sides];
  const end = (['wiper', 'hot', 'cold'] as const).find((at) => !isLike(a[at], b[at], true));
  return end === undefined ? undefined : lugsOfTrack(one.match.track)[end];
}

/** Those that differ from most of the others; of two the second. */
function oddOnes<T>(
  group: readonly T[],
  isAlike: (a: T, b: T) => boolean,
): readonly { readonly one: T; readonly others: readonly T[] }[] {
  const [first, second] = group;
  if (first === undefined || second === undefined) return [];
  if (group.length === 2) return isAlike(first, second) ? [] : [{ one: second, others: [first] }];
  return group.flatMap((one) => {
    const others = group.filter((other) => !isAlike(one, other));
    const alike = others.every((other) => others.every((another) => isAlike(other, another)));
    return alike && others.length > group.length / 2 ? [{ one, others }] : [];
  });
}

/** The same words, numbers left out: `c1` and `c2`, wherever they are built in. */
function isCalledLike(one: string, other: string): boolean {
  return tokensOf(ownName(one)).join() === tokensOf(ownName(other)).join();
}

/** Without the assembly that the part is in. */
function byOwnName(a: string, b: string): number {
  return ownName(a).localeCompare(ownName(b), 'en', { numeric: true });
}

function ownName(name: string): string {
  return name.slice(name.lastIndexOf('.') + 1);
}

/** Of three and more capacitors on the throws of one pole, one whose other lead is soldered to something else than those of the others. */
function unlikeCapacitors(circuit: AnalysedCircuit): readonly Report<Claim>[] {
  const { classOf, elementsOn, members } = surroundingsOf(circuit);
  return polesOf(circuit).flatMap(({ common, throws }) => {
    if (common === undefined) return [];
    const byFar = new Map<number, { readonly part: PartId; readonly far: LugId }[]>();
    for (const lug of throws) {
      for (const element of elementsOn(classOf(lug))) {
        if (element.kind !== 'capacitor') continue;
        const far = classOf(element.a) === classOf(lug) ? element.b : element.a;
        append(byFar, classOf(far), { part: element.part, far });
      }
    }
    const [most, odd, ...more] = [...byFar.values()].sort((a, b) => b.length - a.length);
    const one = odd?.[0];
    if (most === undefined || most.length < 2 || one === undefined || odd?.length !== 1 || more.length > 0) return [];
    const part = partById(circuit, one.part).name;
    const twins = most.map((other) => partById(circuit, other.part).name);
    // A capacitor that is called something else may be for something else.
    if (twins.some((twin) => !isCalledLike(twin, part))) return [];
    const lug = members(classOf(one.far)).find((id) => id !== one.far) ?? one.far;
    return [
      {
        claim: {
          kind: 'capacitor' as const,
          subjects: { part, twins, lug: lugLabel(circuit, lug) },
        },
        why: 'The capacitors that a switch chooses among usually share what their other leads are soldered to.',
        range: placeOfPart(circuit, one.part),
        subjects: [part, lugLabel(circuit, one.far)],
      },
    ];
  });
}

/** Among capacitors with the same name but for a number on one pole: one on the common, or sharing a throw, while another throw is bare. */
function capacitorsOffThrows({ circuit, joined }: Facts): readonly Report<Claim>[] {
  const { classOf, elementsOn } = surroundingsOf(circuit);
  const capacitorsOn = (lug: LugId): readonly PartId[] =>
    elementsOn(classOf(lug)).flatMap(({ kind, part }) => (kind === 'capacitor' ? [part] : []));
  return polesOf(circuit).flatMap(({ common, throws }): readonly Report<Claim>[] => {
    const bare = throws.filter((lug) => !joined.isWired(lug));
    if (common === undefined || bare.length === 0) return [];
    const placed = throws.map(capacitorsOn).filter((parts) => parts.length > 0);
    const nameOf = (id: PartId): string => partById(circuit, id).name;
    const isTwin = (one: PartId, other: PartId): boolean => isCalledLike(nameOf(one), nameOf(other));
    const alone = [...new Set(placed.flatMap((parts) => (parts.length === 1 ? parts : [])))];
    const crowded = placed.flatMap((parts) => (parts.length > 1 ? parts : []));
    const odd = [...capacitorsOn(common), ...crowded].filter((id) => alone.length > 1 && alone.every((twin) => isTwin(id, twin)));
    // By name, since inside an assembly parts come in another order.
    const [part] = odd.sort((a, b) => byOwnName(nameOf(b), nameOf(a)));
    // The throw before the first capacitor is the one without any.
    const [lug] = bare.filter((id) => throws.slice(0, throws.indexOf(id)).some((before) => capacitorsOn(before).length > 0));
    if (part === undefined || lug === undefined) return [];
    const claim = {
      kind: 'throw' as const,
      subjects: { part: nameOf(part), twins: alone.map(nameOf), lug: lugLabel(circuit, lug) },
    };
    const why = 'The capacitors that a switch chooses among usually have a throw each.';
    return [{ claim, why, range: placeOfPart(circuit, part), subjects: [nameOf(part), lugLabel(circuit, lug)] }];
  });
}
