/** A treble bleed or a tone capacitor that does not lie where such a part usually lies. */
import {
  derivation,
  derive,
  type Element,
  lugLabel,
  partById,
  type AnalysedCircuit,
  type LugId,
  type Part,
  partOfLug,
} from '../../circuit/model.js';
import { contactsOf, lugsOfTrack, rolesOf, spread, surroundingsOf, tracksOf, type Surroundings } from '../../roles/index.js';
import type { Statement } from '../../source.js';
import { placeOfPart, type Facts } from '../facts/index.js';
import { isJudgeable } from '../facts/shafts.js';
import { defineRule, reportsOf, type Report, type Rule } from '../rule.js';
import { idlePart } from './idle-part.js';
import { constantCut } from './constant-cut.js';
import { looseLead } from './loose-lead.js';

interface Claim extends Statement {
  readonly kind: 'bleed' | 'no-ground' | 'no-signal';
  readonly subjects: { readonly part: string; readonly lugs: readonly string[] };
}

export const unusualPart = defineRule<Claim>({
  id: 'unusual-part',
  severity: 'warning',
  summary: 'a treble bleed or a tone capacitor that does not lie where it usually does',
  describe({ kind, subjects: { part, lugs } }) {
    const [a = '', b = ''] = lugs;
    switch (kind) {
      case 'bleed':
        return `${part} lies between ${a} and ${b}; a treble bleed usually lies between the wiper of a volume and the end of its track`;
      case 'no-ground':
        return `${part} lies between ${a} and ${b}, and nothing leads on to ground from there; a tone capacitor usually leads to ground`;
      case 'no-signal':
        return `${part} lies between ${a} and ${b}, and no signal leads there; a tone capacitor usually leads from the signal to ground`;
    }
  },
  check(facts) {
    const { circuit } = facts;
    if (!isJudgeable(facts)) return [];
    const odd = rolesOf(circuit).flatMap(({ unit, word, confidence }) => {
      const part = partById(circuit, unit.part);
      if (unit.kind !== 'passive' || confidence === 'weak' || !isWhole(facts, part)) return [];
      if (word === 'bleed') return isAcrossAVolume(circuit, part) ? [] : [reportOf(facts, part, 'bleed')];
      const fault = word === 'tone-cap' ? faultOfToneCapacitor(circuit, part) : undefined;
      return fault === undefined ? [] : [reportOf(facts, part, fault)];
    });
    if (odd.length === 0) return [];
    // What an assembly around it is reported for is the cause.
    const outer = (name: string): string => name.split('.')[0] ?? name;
    const reported = new Set(
      [idlePart, constantCut, looseLead].flatMap((rule: Rule) =>
        reportsOf(facts, rule).flatMap(({ subjects }) => subjects.map(outer)),
      ),
    );
    return odd.filter(({ claim: { subjects } }) => !reported.has(outer(subjects.part)));
  },
});

/** Two lugs, both soldered to something. */
function isWhole({ joined }: Facts, { lugs }: Part): boolean {
  return lugs.length === 2 && lugs.every((lug) => joined.isWired(lug));
}

function reportOf({ circuit, joined }: Facts, part: Part, kind: Claim['kind']): Report<Claim> {
  const joinedTo = (lug: LugId): string => {
    const others = joined.members(joined.classOf(lug)).filter((id) => partOfLug(circuit, id).id !== part.id);
    // A control, a switch or a jack tells more than the lead of another small part or of an assembly.
    const [telling = others[0]] = others
      .filter((id) => !['passive', 'assembly', 'screen'].includes(partOfLug(circuit, id).family))
      .sort((a, b) => byOwnLabel(lugLabel(circuit, a), lugLabel(circuit, b)));
    return lugLabel(circuit, telling ?? lug);
  };
  return {
    claim: { kind, subjects: { part: part.name, lugs: part.lugs.map(joinedTo) } },
    range: placeOfPart(circuit, part.id),
    subjects: [part.name, ...part.lugs.map((lug) => lugLabel(circuit, lug))],
  };
}

/** By part and lug, whatever assembly the part is in. */
function byOwnLabel(a: string, b: string): number {
  const own = (label: string): string => label.split('.').slice(-2).join('.');
  return own(a) < own(b) ? -1 : 1;
}

/** From the wiper of a pot that is no tone and no blend to an end of its track, what lies in series with it taken together with it. */
function isAcrossAVolume(circuit: AnalysedCircuit, part: Part): boolean {
  const around = surroundingsOf(circuit);
  const [a, b] = part.lugs;
  if (a === undefined || b === undefined) return true;
  const [from, to] = [farEnds(circuit, around, part, a), farEnds(circuit, around, part, b)];
  const others = new Set(
    rolesOf(circuit).flatMap(({ unit, word }) =>
      word === 'tone' || word === 'blend' ? tracksOf(circuit, unit).map(({ id }) => id) : [],
    ),
  );
  return circuit.elements.some((element) => {
    if (element.kind !== 'track' || others.has(element.id)) return false;
    const { cold, wiper, hot } = lugsOfTrack(element);
    const isAcross = (end: LugId): boolean => {
      const [w, e] = [around.classOf(wiper), around.classOf(end)];
      return e !== around.ground && ((from.has(w) && to.has(e)) || (from.has(e) && to.has(w)));
    };
    return isAcross(hot) || isAcross(cold);
  });
}

/** What a lead of a part leads to: what it is soldered to, and where that is only the lead of a resistor or capacitor, what lies behind that. */
function farEnds(circuit: AnalysedCircuit, around: Surroundings, part: Part, lug: LugId): ReadonlySet<number> {
  const { classOf, elementsOn } = around;
  const isPlain = ({ kind }: Element): boolean => kind === 'resistor' || kind === 'capacitor';
  const isOwn = (element: Element): boolean => isInside(circuit, element, part.id);
  const start = classOf(lug);
  return spread(around, start, (element) => {
    if (!isPlain(element) || isOwn(element)) return [];
    const near = [element.a, element.b].filter((end) => elementsOn(classOf(end)).every((other) => isPlain(other)));
    return near.length > 0 ? [element.a, element.b] : [];
  });
}

/** True for an element of a part, or of a part inside it. */
function isInside(circuit: AnalysedCircuit, { part }: Element, outer: Part['id']): boolean {
  let at: Part | undefined = partById(circuit, part);
  while (at !== undefined && at.id !== outer) at = at.parent === undefined ? undefined : partById(circuit, at.parent);
  return at !== undefined;
}

/** Where a capacitor for a tone leads: through contacts, resistors, chokes and the tracks of tones. One end must find ground, the other the signal. */
function faultOfToneCapacitor(circuit: AnalysedCircuit, part: Part): 'no-ground' | 'no-signal' | undefined {
  const around = surroundingsOf(circuit);
  const { tones, contacts } = derive(circuit, ways);
  const through = (element: Element): readonly LugId[] =>
    element.kind === 'resistor' || element.kind === 'inductor'
      ? [element.a, element.b]
      : element.kind === 'track' && tones.has(element.id)
        ? [element.a, element.wiper, element.leavesTo ?? element.b]
        : [];
  const reached = part.lugs.map((lug) => spread(around, around.classOf(lug), through, contacts));
  const isGround = reached.map((classes) => classes.has(around.ground));
  const isSignal = reached.map((classes) => [...classes].some((classId) => hasSignal(circuit, around, classId)));
  const [a, b] = [0, 1] as const;
  if ((isGround[a] && isSignal[b]) || (isGround[b] && isSignal[a])) return undefined;
  return isGround[a] || isGround[b] ? 'no-signal' : 'no-ground';
}

/** What a tone capacitor may lead through: the tracks of tones, and contacts. */
const ways = derivation(['text'], (circuit) => ({
  tones: new Set(
    rolesOf(circuit).flatMap(({ unit, word }) => (word === 'tone' ? tracksOf(circuit, unit).map(({ id }) => id) : [])),
  ),
  contacts: contactsOf(circuit),
}));

/** A pickup, the output or another control than a tone is on it. */
function hasSignal(circuit: AnalysedCircuit, around: Surroundings, classId: number): boolean {
  if (classId === around.ground) return false;
  if (classId === around.tip || around.pickupsAt(classId).size > 0) return true;
  return around.elementsOn(classId).some(({ kind }) => kind === 'track' || kind === 'gain');
}
