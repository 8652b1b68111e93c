/** Points, boxes and headings on the drawing's grid: y grows downwards, as on a screen. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** An upright rectangle, by its upper left corner and its size. */
export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

/** Pitch of the grid on which lugs and wires lie, in drawing units (one unit is one CSS pixel at full size). */
export const grid = 10;

/** Half the width of a wire with its edge, drawing units. */
export const wireReach = 2.2;

/** Drawing units per millimetre of the instrument: parts have their sizes by it, and places on plates their distances. */
export const unitsPerMillimetre = 3.2;

/** Where a wire goes: north is up. The numbers turn clockwise by eighths, so a quarter turn is two more. */
export type Heading = 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7;
export const north = 0;
export const east = 2;
export const south = 4;
export const west = 6;
export const headings: readonly Heading[] = [0, 1, 2, 3, 4, 5, 6, 7];

const steps: Readonly<Record<Heading, Point>> = {
  0: { x: 0, y: -1 },
  1: { x: 1, y: -1 },
  2: { x: 1, y: 0 },
  3: { x: 1, y: 1 },
  4: { x: 0, y: 1 },
  5: { x: -1, y: 1 },
  6: { x: -1, y: 0 },
  7: { x: -1, y: -1 },
};

/** One step on the grid, slantwise along both axes at once. */
export function stepOf(heading: Heading): Point {
  return steps[heading];
}

/** Turned clockwise by quarters. */
export function turned(heading: Heading, quarters: number): Heading {
  return veered(heading, 2 * quarters);
}

/** Turned clockwise by eighths. */
export function veered(heading: Heading, eighths: number): Heading {
  return ((heading + eighths) & 7) as Heading;
}

/** A point turned about the origin by quarter turns, clockwise. */
export function turnPoint(point: Point, quarters: number): Point {
  const count = ((quarters % 4) + 4) % 4;
  if (count === 1) return { x: -point.y, y: point.x };
  if (count === 2) return { x: -point.x, y: -point.y };
  if (count === 3) return { x: point.y, y: -point.x };
  return point;
}

export function snap(value: number): number {
  return Math.round(value / grid) * grid;
}

export function snapUp(value: number): number {
  return Math.ceil(value / grid - 1e-9) * grid;
}

export function snapDown(value: number): number {
  return Math.floor(value / grid + 1e-9) * grid;
}

/** The smallest box that holds all points. */
export function boxAround(points: readonly Point[]): Box {
  let left = Infinity;
  let top = Infinity;
  let right = -Infinity;
  let bottom = -Infinity;
  for (const { x, y } of points) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  return left > right ? { x: 0, y: 0, width: 0, height: 0 } : { x: left, y: top, width: right - left, height: bottom - top };
}

/** The smallest box that holds all boxes. */
export function joinBoxes(boxes: readonly Box[]): Box {
  return boxAround(boxes.flatMap((box) => [box, { x: box.x + box.width, y: box.y + box.height }]));
}

/** The same box, larger by that much on every side. */
export function grow<T extends Box>(box: T, by: number): T {
  return { ...box, x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by };
}

export function moved<T extends Point>(item: T, by: Point): T {
  return { ...item, x: item.x + by.x, y: item.y + by.y };
}

/** True where the stretch from `a` to `b` crosses that from `c` to `d` in the inside of both. */
export function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return sideOf(a, b, c) * sideOf(a, b, d) < 0 && sideOf(c, d, a) * sideOf(c, d, b) < 0;
}

/** On which side of the line from `p` to `q` a point lies: −1, 0 or 1. */
function sideOf(p: Point, q: Point, r: Point): number {
  return Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
}

/** True where two boxes share an area, not only an edge. */
export function overlaps(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** True where the stretch from `a` to `b` runs through the inside of a box, or of one larger by `by` on every side. It is asked very often: nothing is made for it. */
export function meets(a: Point, b: Point, box: Box, by = 0): boolean {
  const [left, top] = [box.x - by, box.y - by];
  const [right, bottom] = [left + (box.width + 2 * by), top + (box.height + 2 * by)];
  const [across, down] = [b.x - a.x, b.y - a.y];
  let from = 0;
  let to = 1;
  if (across === 0) {
    if (a.x <= left || a.x >= right) return false;
  } else {
    const [one, two] = [(left - a.x) / across, (right - a.x) / across];
    from = Math.max(from, Math.min(one, two));
    to = Math.min(to, Math.max(one, two));
  }
  if (down === 0) {
    if (a.y <= top || a.y >= bottom) return false;
  } else {
    const [one, two] = [(top - a.y) / down, (bottom - a.y) / down];
    from = Math.max(from, Math.min(one, two));
    to = Math.min(to, Math.max(one, two));
  }
  return from < to;
}

/** True where a point lies in a box or on its edge. */
export function holds({ x, y, width, height }: Box, point: Point): boolean {
  return point.x >= x && point.x <= x + width && point.y >= y && point.y <= y + height;
}

/** True where all of a box lies in another or on its edge. */
export function isWithin(inner: Box, outer: Box): boolean {
  return holds(outer, inner) && holds(outer, { x: inner.x + inner.width, y: inner.y + inner.height });
}
