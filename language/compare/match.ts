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
} from '../circuit/model.js';
import { matchParts } from './match-parts.js';

/** Ids of the old circuit to those of the new one and back; −1 where there is none. */
export interface Match {
  readonly parts: Pairing<PartId>;
  readonly lugs: Pairing<LugId>;
  readonly elements: Pairing<ElementId>;
  readonly switches: Pairing<SwitchId>;
  readonly shafts: Pairing<ShaftId>;
  /** A text of the old circuit with its parts called as the new one calls them. */
  renamed(text: string): string;
}

export interface Pairing<Id extends number> {
  readonly to: (Id | -1)[];
  readonly from: (Id | -1)[];
}

export function matchCircuits(before: Circuit, after: Circuit): Match {
  const parts = pairing<PartId>(before.parts.length, after.parts.length);
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

function pairing<Id extends number>(before: number, after: number): Pairing<Id> {
  return { to: Array.from({ length: before }, () => -1 as const), from: Array.from({ length: after }, () => -1 as const) };
}

function pair<Id extends number>({ to, from }: Pairing<Id>, old: Id, now: Id): void {
  if (to[old] !== -1 || from[now] !== -1) return;
  to[old] = now;
  from[now] = old;
}

/** Lugs by their names on the part; the two leads of a part without polarity may have changed places. */
function matchLugs(before: Circuit, after: Circuit, parts: Pairing<PartId>): Pairing<LugId> {
  const lugs = pairing<LugId>(before.lugs.length, after.lugs.length);
  const newOf = new Map(after.lugs.map((lug) => [`${lug.part} ${lug.name}`, lug.id]));
  const nowOf = (lug: LugId): LugId | undefined => {
    const { part, name } = lugById(before, lug);
    return newOf.get(`${parts.to[part]!} ${name}`);
  };
  for (const lug of before.lugs) {
    const now = nowOf(lug.id);
    if (now !== undefined) pair(lugs, lug.id, now);
  }
  const near = { before: neighbours(before), after: neighbours(after) };
  for (const part of before.parts) {
    const leads = reversibleLeads(before, part);
    const now = parts.to[part.id]!;
    if (leads === undefined || now === -1 || reversibleLeads(after, partById(after, now)) === undefined) continue;
    const [a, b] = leads;
    const [newA, newB] = [lugs.to[a]!, lugs.to[b]!];
    if (newA === -1 || newB === -1) continue;
    const common = (old: LugId, other: LugId): number =>
      near.before[old]!.filter((lug) => near.after[other]!.some((to) => to === lugs.to[lug])).length;
    if (common(a, newB) + common(b, newA) <= common(a, newA) + common(b, newB)) continue;
    lugs.to[a] = newB;
    lugs.to[b] = newA;
    lugs.from[newA] = b;
    lugs.from[newB] = a;
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
export function neighbours(circuit: Circuit): readonly (readonly LugId[])[] {
  const near: LugId[][] = circuit.lugs.map(() => []);
  for (const { a, b } of circuit.joints) {
    near[a]!.push(b);
    near[b]!.push(a);
  }
  return near;
}

/** Items of parts that are one, by what they are called in the part; where each has a single one, that one. */
function byPart<T extends { readonly id: number; readonly part: PartId }>(
  parts: Pairing<PartId>,
  before: readonly T[],
  after: readonly T[],
  nameOf: (item: T) => string,
): Pairing<T['id']> {
  const items = pairing<T['id']>(before.length, after.length);
  const group = (all: readonly T[]): Map<PartId, T[]> => {
    const groups = new Map<PartId, T[]>();
    for (const item of all) groups.set(item.part, [...(groups.get(item.part) ?? []), item]);
    return groups;
  };
  const [olds, news] = [group(before), group(after)];
  for (const [part, own] of olds) {
    const now = parts.to[part]!;
    const others = now === -1 ? [] : (news.get(now) ?? []);
    if (own.length === 1 && others.length === 1) pair(items, own[0]!.id, others[0]!.id);
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
    const now = parts.to[part.id]!;
    if (now !== -1 && partById(after, now).name !== part.name) names.set(part.name, partById(after, now).name);
  }
  if (names.size === 0) return (text) => text;
  const words = [...names.keys()].sort((a, b) => b.length - a.length).map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}_"-])(?:${words.join('|')})(?![\\p{L}\\p{N}_"-])`, 'gu');
  return (text) => text.replace(pattern, (name) => names.get(name) ?? name);
}
