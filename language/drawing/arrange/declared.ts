/** Parts whose places are declared: they lie as they do in the instrument, to scale. */
import type { DiagramPart } from '../diagram/diagram.js';
import { type Box, grid, joinBoxes, overlaps, type Point, snap, unitsPerMillimetre } from '../geometry.js';
import { movePiece, type Piece } from './piece.js';

/** Drawing units per metre at most, so that a slip of the pen does not fill a wall. */
const mostScale = 24_000;
/** Room between neighbours for wires. */
const gap = 2 * grid;

/** A piece whose first part has a declared place. */
interface Declared {
  readonly piece: Piece;
  /** Metres from the corner of the plate or floor. */
  readonly at: Point;
}

/** The pieces at their places, and those for which there was no room at theirs, as two parts on one spot have not. */
export function placeDeclared(pieces: readonly (readonly [Piece, DiagramPart])[]): {
  readonly placed: readonly Piece[];
  readonly left: readonly Piece[];
} {
  const declared = declaredOf(pieces);
  const scale = scaleOf(declared);
  const placed: Piece[] = [];
  const left: Piece[] = [];
  for (const { piece, at } of declared) {
    const there = movePiece(piece, {
      x: snap(at.x * scale - piece.centre.x),
      y: snap(at.y * scale - piece.centre.y),
    });
    if (placed.some(({ box }) => overlaps(box, there.box))) left.push(piece);
    else placed.push(there);
  }
  return { placed, left };
}

/**
 * Whether what lies on a cavity's floor and on its plates can be drawn at one scale, as one sees it when the plate is lifted: at most so much larger
 * than each by itself.
 */
export function fitTogether(sets: readonly (readonly (readonly [Piece, DiagramPart])[])[]): boolean {
  const declared = sets.map(declaredOf);
  return scaleOf(declared.flat()) <= 1.5 * Math.max(...declared.map(scaleOf));
}

function declaredOf(pieces: readonly (readonly [Piece, DiagramPart])[]): Declared[] {
  return pieces.flatMap(([piece, { at }]) => (at === undefined ? [] : [{ piece, at }]));
}

/** The instrument's own scale, or the smallest beyond it at which no two parts come nearer than wires need. */
function scaleOf(declared: readonly Declared[]): number {
  let scale = unitsPerMillimetre * 1000;
  declared.forEach(({ at: from, piece: one }, index) => {
    for (const { at: to, piece: other } of declared.slice(index + 1)) {
      const [a, b] = [extentOf(one), extentOf(other)];
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const across = dx >= 0 ? a.x + a.width - b.x : b.x + b.width - a.x;
      const down = dy >= 0 ? a.y + a.height - b.y : b.y + b.height - a.y;
      const needed = Math.min(
        dx === 0 ? Infinity : (across + gap) / Math.abs(dx),
        dy === 0 ? Infinity : (down + gap) / Math.abs(dy),
      );
      if (Number.isFinite(needed)) scale = Math.max(scale, needed);
    }
  });
  return Math.min(scale, mostScale);
}

/** A piece's box about its centre. */
function extentOf({ box, centre }: Piece): Box {
  return { ...joinBoxes([box]), x: box.x - centre.x, y: box.y - centre.y };
}
