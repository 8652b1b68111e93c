/** Things found by where they lie, so that a question about one place of a drawing looks at few of them. */
import { append } from '../collections.js';
import type { Box, Point } from './geometry.js';

/** Side of a bucket, drawing units: about the room of a lug with its wires. */
const side = 64;
/** More than any drawing has of buckets side by side. */
const stride = 2 ** 20;

/**
 * A grid of buckets over the plane. A thing is in each bucket that its box reaches; what is found near an area may still lie
 * beside it, and may be found more than once.
 */
export class BoxIndex<T> {
  readonly #buckets = new Map<number, T[]>();

  add(item: T, box: Box): void {
    for (const key of keysOf(box)) append(this.#buckets, key, item);
  }

  /** Whether any thing near an area is such. */
  some(area: Box, isSuch: (item: T) => boolean): boolean {
    const { left, right, top, bottom } = rangeOf(area);
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++)
        if (this.#buckets.get(row * stride + column)?.some(isSuch) === true) return true;
    return false;
  }

  /** All things near an area. */
  near(area: Box): ReadonlySet<T> {
    const found = new Set<T>();
    this.some(area, (item) => {
      found.add(item);
      return false;
    });
    return found;
  }
}

/** Boxes found by where they lie. */
export function indexOf(boxes: readonly Box[]): BoxIndex<Box> {
  const index = new BoxIndex<Box>();
  for (const box of boxes) index.add(box, box);
  return index;
}

/** Boxes along a stretch, for an index: one around the whole of a long slant would reach buckets far from it. */
export function boxesAlong(a: Point, b: Point, half: number): Box[] {
  const count = Math.max(1, Math.ceil(Math.min(Math.abs(b.x - a.x), Math.abs(b.y - a.y)) / side));
  const [dx, dy] = [(b.x - a.x) / count, (b.y - a.y) / count];
  return Array.from({ length: count }, (_, index) => ({
    x: a.x + dx * index + Math.min(0, dx) - half,
    y: a.y + dy * index + Math.min(0, dy) - half,
    width: Math.abs(dx) + 2 * half,
    height: Math.abs(dy) + 2 * half,
  }));
}

function keysOf(box: Box): number[] {
  const { left, right, top, bottom } = rangeOf(box);
  const keys: number[] = [];
  for (let row = top; row <= bottom; row++) for (let column = left; column <= right; column++) keys.push(row * stride + column);
  return keys;
}

function rangeOf({ x, y, width, height }: Box): Readonly<Record<'left' | 'right' | 'top' | 'bottom', number>> {
  return {
    left: Math.floor(x / side),
    right: Math.floor((x + width) / side),
    top: Math.floor(y / side),
    bottom: Math.floor((y + height) / side),
  };
}
