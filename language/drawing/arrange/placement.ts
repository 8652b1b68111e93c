/** A placement: where every block is, and the orientations of its parts; and the same objects for the same place and orientation. */
import { grid, joinBoxes, type Box, type Point } from '../geometry.js';
import { firstOf, itemAt, valueFor } from '../../collections.js';
import type { Block } from './block.js';
import { rankOf } from './pack.js';
import type { PlacedSymbol } from '../placed.js';
import { placedIn } from './unit.js';

export interface Placement {
  readonly places: ReadonlyMap<string, Point>;
  readonly choice: ReadonlyMap<string, number>;
}

export type Placer = (blocks: readonly Block[], placement: Placement) => PlacedSymbol[];

/** Where a block's symbols lie; the same objects for the same place and orientation, so that nothing is made anew for what stands still. */
export function createPlacer(): Placer {
  const known = new Map<string, PlacedSymbol[]>();
  return (blocks, { places, choice }) =>
    blocks.flatMap((block) => {
      const origin = valueFor(places, block.id);
      const key = `${block.id} ${origin.x} ${origin.y} ${block.slots.map((slot) => choice.get(slot.id) ?? 0).join()}`;
      let placed = known.get(key);
      if (!placed) {
        placed = placedIn(block, choice).map((symbol) => ({ ...symbol, x: symbol.x + origin.x, y: symbol.y + origin.y }));
        known.set(key, placed);
      }
      return placed;
    });
}

export function boxOf(block: Block, { places }: Pick<Placement, 'places'>): Box {
  const { x, y } = valueFor(places, block.id);
  return { x, y, width: block.width, height: block.height };
}

/** Room that stays between two blocks, for wires. */
export const gap = 3 * grid;

/** What is on the sheet: blocks, and boxes that must stay free. */
export interface Obstacles {
  readonly blocks: readonly Block[];
  readonly fixed: readonly Box[];
}

/** Whether a box keeps that room from all that is fixed and from the free blocks, but for some. It is asked for each place that is looked at, so it makes nothing. */
export function isClear(
  box: Box,
  but: readonly Block[],
  { blocks, fixed }: Obstacles,
  { places }: Pick<Placement, 'places'>,
): boolean {
  const [left, right, top, bottom] = [box.x - gap, box.x + box.width + gap, box.y - gap, box.y + box.height + gap];
  const meets = ({ x, y }: Point, { width, height }: { readonly width: number; readonly height: number }): boolean =>
    left < x + width && x < right && top < y + height && y < bottom;
  for (const other of fixed) if (meets(other, other)) return false;
  for (const block of blocks) {
    if (block.group === undefined && !but.includes(block) && meets(valueFor(places, block.id), block)) return false;
  }
  return true;
}

/** The page's shape: what a drawing is printed on and fitted into. */
const pageShape = 4 / 3;
/** In the prices of the search: a grid step of the picture's size on such a page; a grid step against the reading order. */
const sizePrice = 4;
const orderPrice = 3;

/** What a placement costs beside its wires: room on a page, and parts that stand against the reading order from pickups to jack. */
export function createLayoutCost(blocks: readonly Block[], fixed: readonly Box[]): (placement: Placement) => number {
  const ranked = blocks
    .filter((block) => block.group === undefined)
    .map((block) => ({ block, rank: rankOf({ kinds: kindsOf(block) }) }));
  return (placement) => {
    const box = joinBoxes([
      ...fixed,
      ...blocks.filter((block) => block.group === undefined).map((block) => boxOf(block, placement)),
    ]);
    const cost = (sizePrice * Math.max(box.width / pageShape, box.height)) / grid;
    return Math.round(
      cost + (orderPrice * againstOrder(ranked.map(({ block, rank }) => [rank, middle(block, placement)]))) / grid,
    );
  };
}

function middle(block: Block, { places }: Placement): number {
  return valueFor(places, block.id).x + block.width / 2;
}

/**
 * How far parts lie to the right of parts of a higher rank, summed over all such pairs; `[rank, x]` each. From left to right with a count and a
 * sum for each rank, for this is asked at every change that is tried.
 */
export function againstOrder(middles: readonly (readonly [rank: number, x: number])[]): number {
  const lefts: { count: number; sum: number }[] = [];
  let distance = 0;
  for (const [rank, x] of [...middles].sort((a, b) => a[1] - b[1])) {
    for (const { count, sum } of lefts.slice(rank + 1)) distance += count * x - sum;
    while (lefts.length <= rank) lefts.push({ count: 0, sum: 0 });
    const own = itemAt(lefts, rank);
    own.count += 1;
    own.sum += x;
  }
  return distance;
}

function kindsOf(block: Block): ReadonlySet<string> {
  return new Set(block.slots.flatMap((slot) => firstOf(slot.orientations).map(({ part }) => part.kind)));
}
