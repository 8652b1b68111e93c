/** Changes worth trying on an arrangement: other orientations, places elsewhere, small pushes. */
import { valueFor } from '../../collections.js';
import { grid, type Box, type Point } from '../geometry.js';
import type { Block, Slot } from './block.js';
import type { Estimate } from './estimate.js';
import { boxOf, type Placement } from './placement.js';

/** Places elsewhere that are tried for a block in a round, the likeliest first; and how fine the raster is on which they are looked for. */
const mostElsewhere = 3;
const raster = 3 * grid;
/** Places that are looked at in all; a room in which the raster has more is looked at on a coarser one. */
const mostPlaces = 4000;
/** Ways to lie that are tried for a part in a round. */
const mostOrientations = 5;

export const pushes: readonly Point[] = [
  ...[-1, 1, -3, 3, -8, 8].map((down) => ({ x: 0, y: down * grid })),
  ...[-2, 2, -5, 5].map((across) => ({ x: across * grid, y: 0 })),
];

/** Free places at which a block's wires would be short, as the crow flies, apart from each other and from where it is. */
export function likelyPlaces(
  block: Block,
  placement: Placement,
  estimate: Estimate,
  room: Box,
  isFree: (box: Box) => boolean,
): Point[] {
  const links = estimate.links(placement, block);
  if (links.length === 0) return [];
  const now = valueFor(placement.places, block.id);
  const lengthAt = (along: 'x' | 'y', at: number): number =>
    links.reduce((sum, { own, other }) => sum + Math.abs(at + own[along] - other[along]), 0);
  const [width, height] = [Math.max(0, room.width - block.width), Math.max(0, room.height - block.height)];
  const step = raster * Math.max(1, Math.ceil(Math.sqrt((width * height) / raster ** 2 / mostPlaces)));
  const rows: { readonly y: number; readonly length: number }[] = [];
  for (let y = room.y; y + block.height <= room.y + room.height; y += step) rows.push({ y, length: lengthAt('y', y) });
  const found: { readonly at: Point; readonly length: number }[] = [];
  for (let x = room.x; x + block.width <= room.x + room.width; x += step) {
    const across = lengthAt('x', x);
    for (const { y, length } of rows) {
      const at = { x, y };
      if (isApart(at, now)) found.push({ at, length: across + length });
    }
  }
  found.sort((a, b) => a.length - b.length || a.at.x - b.at.x || a.at.y - b.at.y);
  const places: Point[] = [];
  for (const { at } of found) {
    if (places.length === mostElsewhere) break;
    if (places.every((other) => isApart(other, at)) && isFree({ ...at, width: block.width, height: block.height }))
      places.push(at);
  }
  return places;
}

function isApart(a: Point, b: Point): boolean {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y) > 3 * raster;
}

/** The other orientations of a slot, those first that look best as the crow flies: all of a few, some of many. */
export function likelyOrientations(slot: Slot, placement: Placement, block: Block, estimate: Estimate): number[] {
  const present = placement.choice.get(slot.id) ?? 0;
  const all = slot.orientations.map((_, orientation) => orientation).filter((orientation) => orientation !== present);
  if (all.length <= mostOrientations) return all;
  const costs = all.map((orientation) => ({
    orientation,
    cost: estimate.of({ places: placement.places, choice: new Map(placement.choice).set(slot.id, orientation) }, [block]),
  }));
  return costs
    .sort((a, b) => a.cost - b.cost || a.orientation - b.orientation)
    .slice(0, mostOrientations)
    .map(({ orientation }) => orientation);
}

/** Two blocks that have changed places: in one column by their outer edges, else by their middles. */
export function exchanged(a: Block, b: Block, placement: Placement): (readonly [Block, Point])[] {
  const [p, q] = [boxOf(a, placement), boxOf(b, placement)];
  if (p.x < q.x + q.width && q.x < p.x + p.width) {
    const [upper, lower, high, low] = p.y <= q.y ? [a, b, p, q] : [b, a, q, p];
    return [
      [lower, { x: low.x, y: high.y }],
      [upper, { x: high.x, y: low.y + low.height - upper.height }],
    ];
  }
  return [
    [a, centredOn(q, a)],
    [b, centredOn(p, b)],
  ];
}

function centredOn(box: Box, block: Block): Point {
  const to = (start: number, length: number, own: number): number => Math.round((start + (length - own) / 2) / grid) * grid;
  return { x: to(box.x, box.width, block.width), y: to(box.y, box.height, block.height) };
}
