/** How near a part is to a pattern of usual practice: which of its lugs depart, and which are alike without being the same. */
import type { LugId } from '../circuit/model.js';
import type { Connected, Connection, Departure } from './connections.js';
import { isLike } from './practice.js';
import type { NamedPattern } from './practice-table.js';
import type { Side } from './surroundings.js';

/** The pattern that a part, or one pole of a switch, is nearest to. */
export interface PracticeMatch<P extends NamedPattern = NamedPattern> {
  readonly pattern: P;
  /** The lugs that the pattern speaks of. */
  readonly lugs: readonly LugId[];
  /** Those that are connected to something else than in the pattern; empty where the part is wired as usual. */
  readonly departs: readonly Departure[];
  /** How many are alike without being the same, as where other controls lie between; of patterns that are equally near the least loose is taken. */
  readonly loose: number;
}

/** Compares lugs one by one with what they are usually connected to. */
export function fit<P extends NamedPattern>(
  pattern: P,
  pairs: readonly (readonly [is: Connected, usually: Connection])[],
): PracticeMatch<P> {
  const departs = pairs.flatMap(([{ lug, is }, usually]) => (isAlike(is, usually) ? [] : [{ lug, is, usually }]));
  const loose = pairs.filter(([{ is }, usually]) => is !== usually).length - departs.length;
  return { pattern, lugs: pairs.map(([{ lug }]) => lug), departs, loose };
}

/** The nearest of several, the first of those that are equally near. */
export function nearest<M extends Pick<PracticeMatch, 'departs' | 'loose'>>(matches: readonly M[]): M | undefined {
  return [...matches].sort((a, b) => a.departs.length - b.departs.length || a.loose - b.loose)[0];
}

const beyondSides: ReadonlySet<Connection> = new Set(['link', 'supply', 'own', 'wiper', 'end']);

/** Sides are alike as those of a track are, the way of the signal counted; all else must be the same. */
export function isAlike(is: Connection, usually: Connection): boolean {
  return is === usually || (isSide(is) && isSide(usually) && isLike(is, usually, true));
}

function isSide(connection: Connection): connection is Side {
  return !beyondSides.has(connection);
}
