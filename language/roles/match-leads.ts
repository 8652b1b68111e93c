/** Usual practice for parts with two leads: what both ends are connected to, whichever lead is which, and what stands beside the part. */
import {
  type AnalysedCircuit,
  type Element,
  elementById,
  lugById,
  type LugId,
  type Part,
  partById,
  type Track,
} from '../circuit/model.js';
import { connectionOf, type Connected, type Connection } from './connections.js';
import { fit, nearest, type PracticeMatch } from './fit.js';
import { PRACTICE } from './generated/practice.js';
import { lugsOfTrack } from './practice.js';
import type { Company, LeadsPattern } from './practice-table.js';
import type { RoleWord, Unit } from './role.js';
import { surroundingsOf } from './surroundings.js';

/** The pattern that a part with two leads is nearest to in a role; none for a part with more leads, and for a role without patterns. */
export function matchLeads(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): PracticeMatch<LeadsPattern> | undefined {
  const leads = leadsOf(circuit, unit);
  if (leads === undefined) return undefined;
  const plain = leads.map(connectTo(circuit, undefined));
  if (plain.every(({ is }) => is === 'bare')) return undefined;
  const byTrack = tracksAt(circuit, leads).map((track) => leads.map(connectTo(circuit, track)));
  const company = companyOf(circuit, unit);
  return nearest(
    PRACTICE.leads
      .filter((pattern) => pattern.role === role)
      .flatMap((pattern) =>
        [plain, ...(isAcross(pattern.leads) ? byTrack : [])].flatMap(([a, b]) => {
          if (a === undefined || b === undefined) return [];
          const [one, other] = pattern.leads;
          return [
            fit(pattern, [
              [a, one],
              [b, other],
            ]),
            fit(pattern, [
              [a, other],
              [b, one],
            ]),
          ].map((match) => (company === pattern.company ? match : { ...match, loose: match.loose + 3 }));
        }),
      ),
  );
}

/** What a part with two leads is in its circuit, as a pattern; none for a part with more leads. */
export function leadsPattern(circuit: AnalysedCircuit, unit: Unit): Pick<LeadsPattern, 'leads' | 'company'> | undefined {
  const leads = leadsOf(circuit, unit);
  if (leads === undefined) return undefined;
  const across = tracksAt(circuit, leads).find((track) => isAcross(leads.map((lead) => connectTo(circuit, track)(lead).is)));
  const [a, b] = leads.map((lead) => connectTo(circuit, across)(lead).is);
  return a === undefined || b === undefined ? undefined : { leads: [a, b], company: companyOf(circuit, unit) };
}

function isAcross(leads: readonly Connection[]): boolean {
  return leads.includes('wiper') && leads.includes('end');
}

/** A lead of the part, and the lead behind which what it is connected to begins: that of the last part in series with it. */
interface Lead {
  readonly lug: LugId;
  readonly far: LugId;
}

function leadsOf(circuit: AnalysedCircuit, unit: Unit): readonly [Lead, Lead] | undefined {
  const part = partById(circuit, unit.part);
  const [a, b, ...more] = part.lugs;
  if (unit.kind !== 'passive' || part.ancestry.includes('battery') || a === undefined || b === undefined || more.length > 0)
    return undefined;
  const lead = (lug: LugId): Lead => ({ lug, far: farEnd(circuit, part, lug) });
  return [lead(a), lead(b)];
}

/** The tracks that a lead is connected to, in the order of the circuit; beside any other the leads are what they are without it. */
function tracksAt(circuit: AnalysedCircuit, leads: readonly Lead[]): readonly Track[] {
  const { classOf, elementsOn } = surroundingsOf(circuit);
  const on = new Set(leads.flatMap(({ far }) => elementsOn(classOf(far))));
  return [...on].flatMap((element) => (element.kind === 'track' ? [element] : [])).sort((a, b) => a.id - b.id);
}

/** What a lead is connected to; where it is a lug of a track that is given, which one. */
function connectTo(circuit: AnalysedCircuit, track: Track | undefined): (lead: Lead) => Connected {
  const { classOf, ground } = surroundingsOf(circuit);
  return ({ lug, far }) => {
    const classId = classOf(far);
    if (track !== undefined && classId !== ground) {
      const { cold, wiper, hot } = lugsOfTrack(track);
      if (classOf(wiper) === classId) return { lug, is: 'wiper' };
      if (classOf(cold) === classId || classOf(hot) === classId) return { lug, is: 'end' };
    }
    return { lug, is: connectionOf(circuit, far) };
  };
}

function companyOf(circuit: AnalysedCircuit, { part: id }: Unit): Company {
  const { classOf, elementsOn, ground, members } = surroundingsOf(circuit);
  const part = partById(circuit, id);
  const own = plainElement(circuit, part);
  if (own === undefined) return 'alone';
  if (part.lugs.some((lug) => partner(circuit, own, lug) !== undefined)) return 'in series';
  const ends = part.lugs.map(classOf);
  const lies = (element: Element): boolean => [element.a, element.b].every((lug) => ends.includes(classOf(lug)));
  if (ends.flatMap(elementsOn).some((element) => element !== own && isPlain(element) && lies(element))) return 'in parallel';
  const isShared = ends.some((classId) => {
    if (classId === ground) return false;
    const pots = new Set(elementsOn(classId).flatMap((element) => (element.kind === 'track' ? [element.part] : [])));
    const isAlone = members(classId).every((lug) => {
      const { id: other, ancestry } = partById(circuit, lugById(circuit, lug).part);
      return other === id || pots.has(other) || ancestry.includes('junction');
    });
    return isAlone && pots.size > 1;
  });
  return isShared ? 'shared' : 'alone';
}

/** Follows what is in series with a part, from one of its lugs. */
function farEnd(circuit: AnalysedCircuit, part: Part, start: LugId): LugId {
  const { classOf } = surroundingsOf(circuit);
  let element = plainElement(circuit, part);
  let lug = start;
  const passed = new Set<Element>();
  while (element !== undefined && !passed.has(element)) {
    passed.add(element);
    const next = partner(circuit, element, lug);
    if (next === undefined) break;
    lug = classOf(next.a) === classOf(lug) ? next.b : next.a;
    element = next;
  }
  return lug;
}

/** The one part in series with another at a lug: nothing else is soldered there but a splice. */
function partner(circuit: AnalysedCircuit, element: Element, lug: LugId): Element | undefined {
  const { classOf, elementsOn, ground, members } = surroundingsOf(circuit);
  const classId = classOf(lug);
  const others = elementsOn(classId).filter((one) => one !== element);
  const [other, ...more] = others;
  if (classId === ground || other === undefined || more.length > 0 || !isPlain(other)) return undefined;
  const isOpen = members(classId).every((member) => {
    const { id, ancestry } = partById(circuit, lugById(circuit, member).part);
    return id === element.part || id === other.part || ancestry.includes('junction');
  });
  return isOpen ? other : undefined;
}

function plainElement(circuit: AnalysedCircuit, { elements }: Part): Element | undefined {
  const [id, ...more] = elements;
  const element = id === undefined || more.length > 0 ? undefined : elementById(circuit, id);
  return element !== undefined && isPlain(element) ? element : undefined;
}

function isPlain({ kind }: Element): boolean {
  return kind === 'resistor' || kind === 'capacitor' || kind === 'inductor';
}
