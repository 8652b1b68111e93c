/** The outline round a part that is marked, with gaps where letters stand. */
import { lastOf, pairwise } from '../../collections.js';
import { type Box, boxAround, grow, overlaps, type Point } from '../../drawing/index.js';

/** Paper on each side of the letters in a gap. */
const clear = 3;

/** All the way round, from the lower left corner; the upper right one lies half way. */
export function pathAround({ x, y, width, height }: Box): readonly Point[] {
  const [right, bottom] = [x + width, y + height];
  const start = { x, y: bottom };
  return [start, { x, y }, { x: right, y }, { x: right, y: bottom }, start];
}

/** The lines that are left of it beside letters. */
export function outlineAround(box: Box, letters: readonly Box[]): readonly (readonly Point[])[] {
  const lines: Point[][] = [];
  for (const [from, to] of pairwise(pathAround(box)).flatMap(([a, b]) => piecesOf(a, b, letters))) {
    const line = lines.at(-1);
    if (line !== undefined && isSame(lastOf(line), from)) line.push(to);
    else lines.push([from, to]);
  }
  return lines;
}

function piecesOf(a: Point, b: Point, letters: readonly Box[]): (readonly [Point, Point])[] {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const [x, y] = [(b.x - a.x) / length, (b.y - a.y) / length];
  const at = (distance: number): Point => ({ x: a.x + x * distance, y: a.y + y * distance });
  const gaps = letters
    .map((letter) => grow<Box>(letter, clear))
    .filter((letter) => overlaps(letter, grow(boxAround([a, b]), 1)))
    .map((letter) => {
      const corners = [letter, { x: letter.x + letter.width, y: letter.y + letter.height }];
      const along = corners.map((corner) => (corner.x - a.x) * x + (corner.y - a.y) * y);
      return { from: Math.min(...along), to: Math.max(...along) };
    })
    .sort((one, other) => one.from - other.from);
  const pieces: (readonly [Point, Point])[] = [];
  let start = 0;
  for (const { from, to } of [...gaps, { from: length, to: length }]) {
    if (from > start) pieces.push([at(start), at(from)]);
    start = Math.max(start, to);
  }
  return pieces;
}

function isSame(a: Point, b: Point): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) < 0.01;
}
