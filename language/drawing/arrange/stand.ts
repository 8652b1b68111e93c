/** A stand: where every block is and which way its parts lie; and the same objects for the same place and way. */
import { grid, joinBoxes, type Box, type Point } from '../geometry.js';
import type { Block } from './block.js';
import { rankOf } from './pack.js';
import type { PlacedSymbol } from './placed.js';
import { placedIn } from './unit.js';

export interface Stand {
  readonly places: ReadonlyMap<string, Point>;
  readonly choice: ReadonlyMap<string, number>;
}

export type Placer = (blocks: readonly Block[], stand: Stand) => PlacedSymbol[];

/** Where a block's symbols lie; the same objects for the same place and way, so that nothing is made anew for what stands still. */
export function createPlacer(): Placer {
  const known = new Map<string, PlacedSymbol[]>();
  return (blocks, { places, choice }) =>
    blocks.flatMap((block) => {
      const origin = places.get(block.id)!;
      const key = `${block.id} ${origin.x} ${origin.y} ${block.slots.map((slot) => choice.get(slot.id) ?? 0).join()}`;
      let placed = known.get(key);
      if (!placed) {
        placed = placedIn(block, choice).map((symbol) => ({ ...symbol, x: symbol.x + origin.x, y: symbol.y + origin.y }));
        known.set(key, placed);
      }
      return placed;
    });
}

export function boxOf(block: Block, { places }: Pick<Stand, 'places'>): Box {
  return { ...places.get(block.id)!, width: block.width, height: block.height };
}

/** The page's shape: what a drawing is printed on and fitted into. */
const pageShape = 4 / 3;
/** In the prices of the search: a grid step of the picture's size on such a page; a grid step against the reading order. */
const sizePrice = 4;
const orderPrice = 3;

/** What a stand costs beside its wires: room on a page, and parts that stand against the reading order from pickups to jack. */
export function createManners(blocks: readonly Block[], fixed: readonly Box[]): (stand: Stand) => number {
  const ranked = blocks
    .filter((block) => block.group === undefined)
    .map((block) => ({ block, rank: rankOf({ kinds: kindsOf(block) }) }));
  return (stand) => {
    const box = joinBoxes([...fixed, ...blocks.filter((block) => block.group === undefined).map((block) => boxOf(block, stand))]);
    let cost = (sizePrice * Math.max(box.width / pageShape, box.height)) / grid;
    const middles = ranked.map(({ block, rank }) => ({ rank, x: stand.places.get(block.id)!.x + block.width / 2 }));
    for (const a of middles) {
      for (const b of middles) if (a.rank < b.rank && a.x > b.x) cost += (orderPrice * (a.x - b.x)) / grid;
    }
    return Math.round(cost);
  };
}

function kindsOf(block: Block): ReadonlySet<string> {
  return new Set(block.slots.flatMap((slot) => slot.ways[0]!.map(({ part }) => part.kind)));
}
