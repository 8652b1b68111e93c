/** How a wire bends: straight stretches between its corners, and a curve at each corner. One shape for all that draws a wire or asks where it lies. */
import { firstOf, lastOf, pairwise } from '../collections.js';
import { type Box, boxAround, grid, grow, type Point } from './geometry.js';

/** A bend takes at most so much of each stretch beside it, and at most so many times what it takes of the shorter one. */
const reach = 3 * grid;
const skew = 3;
/** Left straight at a joint. */
const straight = 4;

/** A curve from a point before a corner to one behind it. */
export interface Bend {
  readonly from: Point;
  readonly corner: Point;
  readonly to: Point;
}

/** SVG path data of a wire with these corners, from joint to joint. */
export function wirePath(points: readonly Point[]): string {
  if (points.length === 0) return '';
  const bends = bendsOf(points).map(({ from, corner, to }) => `L${text(from)}Q${text(corner)} ${text(to)}`);
  return `M${text(firstOf(points))}${bends.join('')}L${text(lastOf(points))}`;
}

/** The same as short straight stretches. */
export function flattened(points: readonly Point[]): Point[] {
  if (points.length < 3) return [...points];
  return [firstOf(points), ...bendsOf(points).flatMap(curveOf), lastOf(points)];
}

/** A bend as short straight stretches. */
export function curveOf({ from, corner, to }: Bend): Point[] {
  return [0, 0.25, 0.5, 0.75, 1].map((t) => {
    const [a, b, c] = [(1 - t) ** 2, 2 * t * (1 - t), t ** 2];
    return { x: a * from.x + b * corner.x + c * to.x, y: a * from.y + b * corner.y + c * to.y };
  });
}

/** Boxes that hold straight stretches with so much on either side; a slanting one has many small ones. */
export function strokeBoxes(points: readonly Point[], half: number): Box[] {
  return pairwise(points).flatMap(([a, b]) => {
    const count = Math.max(1, Math.ceil(Math.min(Math.abs(b.x - a.x), Math.abs(b.y - a.y)) / 4));
    return Array.from({ length: count }, (_, index) =>
      grow(boxAround([towards(a, b, index / count), towards(a, b, (index + 1) / count)]), half),
    );
  });
}

/** The bends of a wire, one for each of its inner corners, but where two lie on each other. */
export function bendsOf(points: readonly Point[]): Bend[] {
  return points.slice(1, -1).flatMap((corner, index) => {
    const [before, after] = [points[index], points[index + 2]];
    if (!before || !after) return [];
    const [come, go] = [distance(before, corner), distance(corner, after)];
    if (come === 0 || go === 0) return [];
    const most = (length: number, isEnd: boolean): number =>
      Math.min(reach, isEnd ? Math.max(length / 2, length - straight - reach) : length / 2);
    const [mostIn, mostOut] = [most(come, index === 0), most(go, index === points.length - 3)];
    return [
      {
        from: towards(corner, before, Math.min(mostIn, skew * mostOut) / come),
        corner,
        to: towards(corner, after, Math.min(mostOut, skew * mostIn) / go),
      },
    ];
  });
}

function towards(a: Point, b: Point, share: number): Point {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

function text({ x, y }: Point): string {
  return `${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100}`;
}
