/** Pairs of parts: those of one name, then those of another name that are of one type and stand in the same place. */
import { lugById, partById, type Circuit, type Part, type PartId, type Property } from '../../circuit/model.js';
import { append, groupBy } from '../../collections.js';

/** A pair is taken for one part from this likeness on: the same type, and values and connections that are half the same in all. */
const enough = 1;
const mostRounds = 8;

export function matchParts(before: Circuit, after: Circuit): readonly (readonly [PartId, PartId])[] {
  const to = new Map<PartId, PartId>();
  // Of several parts of one name, such as the screens of two wires between the same lugs, the first is the first.
  const byName = groupBy(after.parts, ({ name }) => name);
  const taken = new Set<PartId>();
  for (const part of before.parts) {
    const now = byName.get(part.name)?.find((other) => !taken.has(other.id) && isAlike(part, other));
    if (now === undefined) continue;
    to.set(part.id, now.id);
    taken.add(now.id);
  }
  const left = { before: before.parts.filter(({ id }) => !to.has(id)), after: after.parts.filter(({ id }) => !taken.has(id)) };
  const links = createLinks(before, after);
  for (let round = 0; round < mostRounds && left.before.length > 0 && left.after.length > 0; round++) {
    const known = { to, now: new Set(to.values()) };
    const candidates = left.before
      .flatMap((old) =>
        left.after
          .filter((now) => now.type === old.type && now.family === old.family && isInPair(to, old, now))
          .map((now) => ({ old, now, likeness: likeness(old, now, links.before(old, known), links.after(now, known)) })),
      )
      .filter((candidate) => candidate.likeness >= enough)
      .sort((a, b) => b.likeness - a.likeness);
    if (candidates.length === 0) break;
    const used = new Set<Part>();
    for (const { old, now } of candidates) {
      if (used.has(old) || used.has(now)) continue;
      used.add(old).add(now);
      to.set(old.id, now.id);
    }
    left.before = left.before.filter((part) => !used.has(part));
    left.after = left.after.filter((part) => !used.has(part));
  }
  return [...to];
}

/** A name that went from a pickup to a pot is another thing's name. */
function isAlike(old: Part, now: Part): boolean {
  return old.family === now.family || old.untyped === true || now.untyped === true;
}

/** Parts inside an assembly belong to assemblies that are one. */
function isInPair(to: ReadonlyMap<PartId, PartId>, old: Part, now: Part): boolean {
  if (old.parent === undefined || now.parent === undefined) return old.parent === now.parent;
  return to.get(old.parent) === now.parent;
}

/** From 0 to 2: the share of values that are the same, and of connections. */
function likeness(old: Part, now: Part, mapped: readonly string[], others: readonly string[]): number {
  const keys = new Set([...Object.keys(old.properties), ...Object.keys(now.properties)]);
  const same = [...keys].filter((key) => propertyKey(old.properties[key]) === propertyKey(now.properties[key])).length;
  const values = keys.size === 0 ? 1 : same / keys.size;
  const other = new Set(others);
  const all = new Set([...mapped, ...other]).size;
  const common = mapped.filter((link) => other.has(link)).length;
  return values + (all === 0 ? 0.5 : common / all);
}

function propertyKey(property: Property | undefined): string {
  if (property === undefined) return '';
  return 'words' in property ? property.words.join(' ') : `${property.value} ${property.unit} ${property.known}`;
}

/** The pairs that are known so far, and the parts of the new circuit in them. */
interface Known {
  readonly to: ReadonlyMap<PartId, PartId>;
  readonly now: ReadonlySet<PartId>;
}

/** What a part's lugs are joined to, as texts that are equal in both circuits: a part that has its pair by that pair, another by its type. */
function createLinks(before: Circuit, after: Circuit): Record<'before' | 'after', (part: Part, known: Known) => string[]> {
  const [olds, news] = [linksOf(before), linksOf(after)];
  return {
    before: ({ id }, { to }) =>
      (olds.get(id) ?? []).map(({ own, part, lug }) => `${own}>${to.get(part) ?? partById(before, part).type}.${lug}`),
    after: ({ id }, { now }) =>
      (news.get(id) ?? []).map(({ own, part, lug }) => `${own}>${now.has(part) ? part : partById(after, part).type}.${lug}`),
  };
}

interface Link {
  readonly own: string;
  readonly part: PartId;
  readonly lug: string;
}

/** What each part's lugs are joined to, by part. */
function linksOf(circuit: Circuit): ReadonlyMap<PartId, readonly Link[]> {
  const links = new Map<PartId, Link[]>();
  for (const { a, b } of circuit.joints) {
    const [one, other] = [lugById(circuit, a), lugById(circuit, b)];
    if (one.part === other.part) continue;
    append(links, one.part, { own: one.name, part: other.part, lug: other.name });
    append(links, other.part, { own: other.name, part: one.part, lug: one.name });
  }
  return links;
}
