/** What lies near what in a drawing, by buckets: a judge that compared each stretch with every other would need hours and gigabytes for a large sheet. */
import type { Box } from '../../language/drawing/geometry.js';

/** Side of a bucket, drawing units. */
const side = 64;

/** Finds the items whose boxes reach into the buckets of an area, each once, in their own order; some of them may lie beside it. */
export function neighboursIn<T>(items: readonly T[], boxOf: (item: T) => Box): (area: Box) => T[] {
  const buckets = new Map<string, number[]>();
  items.forEach((item, index) => {
    for (const key of keysOf(boxOf(item))) {
      const bucket = buckets.get(key);
      if (bucket) bucket.push(index);
      else buckets.set(key, [index]);
    }
  });
  return (area) => {
    const found = new Set(keysOf(area).flatMap((key) => buckets.get(key) ?? []));
    return [...found].sort((a, b) => a - b).map((index) => items[index]!);
  };
}

/** Each two items whose boxes, larger by `reach`, may meet: the earlier one first, in the order of the earlier ones. */
export function* pairsNear<T>(items: readonly T[], boxOf: (item: T) => Box, reach: number): Generator<readonly [T, T]> {
  const near = neighboursIn(items, boxOf);
  const places = new Map(items.map((item, index) => [item, index]));
  for (const [index, one] of items.entries()) {
    const { x, y, width, height } = boxOf(one);
    const area = { x: x - reach, y: y - reach, width: width + 2 * reach, height: height + 2 * reach };
    for (const other of near(area)) if (places.get(other)! > index) yield [one, other];
  }
}

function keysOf({ x, y, width, height }: Box): string[] {
  const keys: string[] = [];
  for (let row = Math.floor(y / side); row <= Math.floor((y + height) / side); row++)
    for (let column = Math.floor(x / side); column <= Math.floor((x + width) / side); column++) keys.push(`${column} ${row}`);
  return keys;
}
