/** Which part, lug, element, switch and shaft of one circuit is which of the other: by name, and where a name is new by type, values and connections. */
import {
  elementById,
  lugById,
  partById,
  type Circuit,
  type ElementId,
  type LugId,
  type Part,
  type PartId,
  type ShaftId,
  type SwitchId,
} from '../../circuit/model.js';
import { append, groupBy } from '../../collections.js';
import { matchParts } from './match-parts.js';

/** Ids of the old circuit to those of the new one and back; an id without a partner is in neither map. */
export interface Match {
  readonly parts: Pairing<PartId>;
  readonly lugs: Pairing<LugId>;
  readonly elements: Pairing<ElementId>;
  readonly switches: Pairing<SwitchId>;
  readonly shafts: Pairing<ShaftId>;
  /** A text of the old circuit with its parts called as the new one calls them. */
  renamed(text: string): string;
}

export interface Pairing<Id> {
  readonly to: ReadonlyMap<Id, Id>;
  readonly from: ReadonlyMap<Id, Id>;
}

export function matchCircuits(before: Circuit, after: Circuit): Match {
  const parts = createPairing<PartId>();
  for (const [old, now] of matchParts(before, after)) pair(parts, old, now);
  const lugs = matchLugs(before, after, parts);
  const elements = byPart(parts, before.elements, after.elements, ({ name }) => name);
  return {
    parts,
    lugs,
    elements,
    switches: byPart(parts, before.switches, after.switches, ({ name, part }) => localName(before, after, name, part)),
    shafts: byPart(parts, before.shafts, after.shafts, ({ name, part }) => localName(before, after, name, part)),
    renamed: renaming(before, after, parts),
  };
}

interface OpenPairing<Id> {
  readonly to: Map<Id, Id>;
  readonly from: Map<Id, Id>;
}

function createPairing<Id>(): OpenPairing<Id> {
  return { to: new Map(), from: new Map() };
}

function pair<Id>({ to, from }: OpenPairing<Id>, old: Id, now: Id): void {
  if (to.has(old) || from.has(now)) return;
  to.set(old, now);
  from.set(now, old);
}

/** Lugs by their names on the part; the two leads of a part without polarity may have changed places. */
function matchLugs(before: Circuit, after: Circuit, parts: Pairing<PartId>): Pairing<LugId> {
  const lugs = createPairing<LugId>();
  const newOf = new Map(after.lugs.map((lug) => [`${lug.part} ${lug.name}`, lug.id]));
  const nowOf = (lug: LugId): LugId | undefined => {
    const { part, name } = lugById(before, lug);
    const now = parts.to.get(part);
    return now === undefined ? undefined : newOf.get(`${now} ${name}`);
  };
  for (const lug of before.lugs) {
    const now = nowOf(lug.id);
    if (now !== undefined) pair(lugs, lug.id, now);
  }
  const near = { before: neighbours(before), after: neighbours(after) };
  for (const part of before.parts) {
    const leads = reversibleLeads(before, part);
    const now = parts.to.get(part.id);
    if (leads === undefined || now === undefined || reversibleLeads(after, partById(after, now)) === undefined) continue;
    const [a, b] = leads;
    const [newA, newB] = [lugs.to.get(a), lugs.to.get(b)];
    if (newA === undefined || newB === undefined) continue;
    const common = (old: LugId, other: LugId): number =>
      near.before(old).filter((lug) => near.after(other).some((to) => to === lugs.to.get(lug))).length;
    if (common(a, newB) + common(b, newA) <= common(a, newA) + common(b, newB)) continue;
    lugs.to.set(a, newB).set(b, newA);
    lugs.from.set(newA, b).set(newB, a);
  }
  return lugs;
}

/** The two leads of a resistor, a capacitor without polarity or an inductor. */
function reversibleLeads(circuit: Circuit, part: Part): readonly [LugId, LugId] | undefined {
  const [element, ...more] = part.elements.map((id) => elementById(circuit, id));
  if (element === undefined || more.length > 0 || part.lugs.length !== 2) return undefined;
  if (!['resistor', 'capacitor', 'inductor'].includes(element.kind) || part.ancestry.includes('electrolytic')) return undefined;
  return [element.a, element.b];
}

/** Lugs that joints lead to, by lug. */
export function neighbours(circuit: Circuit): (lug: LugId) => readonly LugId[] {
  const near = new Map<LugId, LugId[]>();
  for (const { a, b } of circuit.joints) {
    append(near, a, b);
    append(near, b, a);
  }
  return (lug) => near.get(lug) ?? [];
}

/** Items of parts that are one, by what they are called in the part; where each has a single one, that one. */
function byPart<T extends { readonly id: number; readonly part: PartId }>(
  parts: Pairing<PartId>,
  before: readonly T[],
  after: readonly T[],
  nameOf: (item: T) => string,
): Pairing<T['id']> {
  const items = createPairing<T['id']>();
  const news = groupBy(after, ({ part }) => part);
  for (const [part, own] of groupBy(before, (item) => item.part)) {
    const now = parts.to.get(part);
    const others = now === undefined ? [] : (news.get(now) ?? []);
    const [[mine, ...more], [theirs, ...rest]] = [own, others];
    if (mine !== undefined && theirs !== undefined && more.length + rest.length === 0) pair(items, mine.id, theirs.id);
    else
      for (const item of own) {
        const now = others.find((other) => nameOf(other) === nameOf(item));
        if (now !== undefined) pair(items, item.id, now.id);
      }
  }
  return items;
}

/** What a switch or shaft is called behind its part's name: `a` of `blend.a`. */
function localName(before: Circuit, after: Circuit, name: string, part: PartId): string {
  const own = [before, after]
    .map((circuit) => circuit.parts[part]?.name)
    .find((full) => full !== undefined && name.startsWith(full));
  return own === undefined ? name : name.slice(own.length);
}

function renaming(before: Circuit, after: Circuit, parts: Pairing<PartId>): (text: string) => string {
  const names = new Map<string, string>();
  for (const part of before.parts) {
    const now = parts.to.get(part.id);
    if (now !== undefined && partById(after, now).name !== part.name) names.set(part.name, partById(after, now).name);
  }
  if (names.size === 0) return (text) => text;
  const words = [...names.keys()].sort((a, b) => b.length - a.length).map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}_"-])(?:${words.join('|')})(?![\\p{L}\\p{N}_"-])`, 'gu');
  return (text) => text.replace(pattern, (name) => names.get(name) ?? name);
}
