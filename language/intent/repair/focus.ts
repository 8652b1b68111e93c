/** What is asked first: the lugs that findings name, then what lies around them, then the rest of the circuit. */
import { lugById, partById, type Circuit, type LugId, type PartId } from '../../circuit/model.js';
import type { Finding } from '../../source.js';
import { classOf, groundClass } from './wiring.js';

/** A choice of changes by how near the two places that they touch are to what is found. */
export interface Ring {
  /** 0 for what a finding names and what is joined to it, ground left out; 1 for the rest of those parts and what is joined to that; 2 elsewhere. */
  level(lug: LugId): number;
  /** True for a change that touches places of these levels. */
  holds(one: number, other: number): boolean;
}

/** All changes at once. */
export const anywhere: Ring = { level: () => 0, holds: () => true };

/** Lugs of a circuit of which all changes are tried together; up to the second figure they are tried at all. */
const fewLugs = 90;
const manyLugs = 260;

/** Of a finding about many things in a large circuit the first ones are looked at: rules name first what is odd. */
const mostNamed = 3;

export interface Focus {
  /** From the inside out, each without what the ones before hold. In a large circuit what lies far from every finding is left out. */
  readonly rings: readonly Ring[];
  /** True for a part that a finding has to do with: that it is wired oddly may be the mistake. */
  isNear(part: PartId): boolean;
}

/** True for a circuit of which all changes are tried together. */
export function isSmall({ lugs }: Circuit): boolean {
  return lugs.length <= fewLugs;
}

export function createFocus(circuit: Circuit, found: readonly Finding[], classes: Int32Array): Focus {
  if (isSmall(circuit)) return { rings: [anywhere], isNear: () => true };
  const levels = levelsOf(circuit, found, classes);
  const near = new Set(circuit.lugs.filter(({ id }) => (levels[id] ?? 2) < 2).map(({ part }) => part));
  return { rings: ringsOf(circuit, levels), isNear: (part) => near.has(part) };
}

function ringsOf(circuit: Circuit, levels: Uint8Array): readonly Ring[] {
  const level = (lug: LugId): number => levels[lug] ?? 2;
  const ring = (holds: (low: number, high: number) => boolean): Ring => ({
    level,
    holds: (one, other) => holds(Math.min(one, other), Math.max(one, other)),
  });
  const rings = [
    ring((low, high) => low === 0 && high <= 1),
    ring((low, high) => low === 0 && high > 1),
    ring((low) => low === 1),
    ring((low) => low > 1),
  ];
  return circuit.lugs.length <= manyLugs ? rings : rings.slice(0, 3);
}

/** Levels by lug; a case that is a hub of ground is near everything. */
function levelsOf(circuit: Circuit, found: readonly Finding[], classes: Int32Array): Uint8Array {
  const levels = new Uint8Array(circuit.lugs.length).fill(2);
  const level = (lug: LugId): number => levels[lug] ?? 2;
  for (const lug of neighbourhood(circuit, found, classes)) levels[lug] = 0;
  const ground = groundClass(circuit, classes);
  const parts = new Set(circuit.lugs.filter(({ id }) => levels[id] === 0).map(({ part }) => part));
  for (const part of tiedTo(circuit, parts)) parts.add(part);
  const nets = new Set<number>();
  for (const { id, part } of circuit.lugs) if (parts.has(part) && classes[id] !== ground) nets.add(classOf(classes, id));
  for (const { id, part } of circuit.lugs)
    if (parts.has(part) || nets.has(classOf(classes, id))) levels[id] = Math.min(level(id), 1);
  if (circuit.output !== undefined) levels[circuit.output.sleeve] = Math.min(level(circuit.output.sleeve), 1);
  return levels;
}

/** Parts to which a wire or a solder joint leads, be it from case to case; not the jack, to which everything leads. */
function tiedTo(circuit: Circuit, parts: ReadonlySet<PartId>): readonly PartId[] {
  return circuit.joints.flatMap(({ kind, a, b }) => {
    if (kind !== 'wire' && kind !== 'solder') return [];
    const ends = [a, b].map((lug) => lugById(circuit, lug).part);
    return ends.some((part) => parts.has(part)) ? ends.filter((part) => partById(circuit, part).family !== 'jack') : [];
  });
}

/** Lugs that findings name, or else all lugs of the parts they name, and what is joined to them; on ground only the next lug. */
export function neighbourhood(circuit: Circuit, found: readonly Finding[], classes: Int32Array): ReadonlySet<LugId> {
  const ground = groundClass(circuit, classes);
  const named = new Set(found.flatMap(({ subjects }) => (isSmall(circuit) ? subjects : subjects.slice(0, mostNamed))));
  const near = new Set<LugId>();
  for (const { id, label, part } of circuit.lugs) if (named.has(label) || named.has(partById(circuit, part).name)) near.add(id);
  const nets = new Set([...near].map((lug) => classOf(classes, lug)).filter((net) => net !== ground));
  // On ground only what is soldered to them directly.
  const onGround = new Set([...near].filter((lug) => classOf(classes, lug) === ground));
  for (const { a, b } of circuit.joints) {
    if (onGround.has(a) && !lugById(circuit, b).takesMany) near.add(b);
    if (onGround.has(b) && !lugById(circuit, a).takesMany) near.add(a);
  }
  for (const { id } of circuit.lugs) if (nets.has(classOf(classes, id))) near.add(id);
  return near;
}
