/** How likely a slip is: from one lug to another, on the same part by the lugs between them, to another part by how alike the two are. */
import { lugById, partById, partOfLug, type Circuit, type LugId } from '../../circuit/model.js';

/**
 * Costs are steps of common practice, not measurements: a neighbouring lug is the commonest slip, the lug of the same number on another pole or
 * the one at the other end of a track comes next, another part last. Up to 3 for the same part, from 3 up for others.
 */
export function moveCost(circuit: Circuit, from: LugId, to: LugId): number {
  const [a, b] = [lugById(circuit, from), lugById(circuit, to)];
  if (a.part === b.part) {
    const isClose = a.metal === b.metal || partById(circuit, a.part).family === 'jack';
    const apart = isClose ? Math.min(lugsApart(circuit, from, to), 8) : 4;
    return 1 + 0.2 * apart;
  }
  const [p, q] = [partById(circuit, a.part), partById(circuit, b.part)];
  if (a.metal && b.metal) return 3;
  if (a.name === b.name && p.type === q.type) return 3;
  if (a.metal !== b.metal) return 3.5;
  return 3.1;
}

/** Places between two lugs of one part: in its rows, else in the order of its lugs. */
export function lugsApart(circuit: Circuit, from: LugId, to: LugId): number {
  const part = partOfLug(circuit, from);
  const [a, b] = [placeIn(part.rows, from), placeIn(part.rows, to)];
  const inOrder = Math.abs(part.lugs.indexOf(from) - part.lugs.indexOf(to));
  if (a === undefined || b === undefined) return Math.min(inOrder, 3);
  const apart = Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]);
  return isSameThrow(circuit, from, to) ? 1 : apart;
}

function placeIn(rows: readonly (readonly (LugId | null)[])[], lug: LugId): readonly [number, number] | undefined {
  for (const [row, lugs] of rows.entries()) {
    const column = lugs.indexOf(lug);
    if (column >= 0) return [row, column];
  }
  return undefined;
}

/** `A2` and `B2`: the same number on another pole; `1a` and `1b`: the same lug on another track. */
function isSameThrow(circuit: Circuit, from: LugId, to: LugId): boolean {
  const digits = (lug: LugId): string | undefined => /^[A-Za-z]*(\d+)[a-z]?$/.exec(lugById(circuit, lug).name)?.[1];
  return digits(from) !== undefined && digits(from) === digits(to);
}
