/** The first hand on an arrangement: changes that look better as the crow flies, without a wire laid. Cheap, so that many are tried. */
import { valueFor } from '../../collections.js';
import type { Box } from '../geometry.js';
import { prices } from '../router/search.js';
import type { Block } from './block.js';
import { exchanged, likelyPlaces, likelyOrientations, pushes } from './moves.js';
import type { Task } from './refine.js';
import { boxOf, isClear, type Placement } from './placement.js';

const mostRounds = 6;
/** What a change must win, in grid steps of wire. */
const least = 1;
/** Looks at a wire or a block that are spent in all: an instrument of ordinary size settles long before, a huge one must not keep anyone waiting. */
const mostLooks = 400_000;

export function improveByEstimate(task: Task, start: Placement): Placement {
  const { turnable, movable, blocks, estimate, layoutCost, room } = task;
  let current = start;
  let looks = 0;
  const isFree = (box: Box, but: Block, placement: Placement): boolean => isClear(box, [but], task, placement);
  const attempt = (change: Partial<Placement>, changed: readonly Block[]): boolean => {
    if (looks > mostLooks) return false;
    looks += estimate.wires + blocks.length;
    const next = { ...current, ...change };
    if (changed.some((block) => block.group === undefined && !isFree(boxOf(block, next), block, next))) return false;
    const gain =
      estimate.of(current, changed) - estimate.of(next, changed) + (layoutCost(current) - layoutCost(next)) / prices.step;
    if (gain < least) return false;
    current = next;
    return true;
  };
  for (let round = 0; round < mostRounds; round++) {
    const before = current;
    for (const block of turnable) {
      if (looks > mostLooks) return current;
      for (const slot of block.slots) {
        for (const orientation of likelyOrientations(slot, current, block, estimate))
          attempt({ choice: new Map(current.choice).set(slot.id, orientation) }, [block]);
      }
    }
    for (const block of movable) {
      if (looks > mostLooks) return current;
      for (const other of movable) {
        if (block.id >= other.id) continue;
        const places = new Map(current.places);
        for (const [moved, at] of exchanged(block, other, current)) places.set(moved.id, at);
        attempt({ places }, [block, other]);
      }
      for (const at of likelyPlaces(block, current, estimate, room, (box) => isFree(box, block, current)))
        attempt({ places: new Map(current.places).set(block.id, at) }, [block]);
      for (const push of pushes) {
        const at = valueFor(current.places, block.id);
        attempt({ places: new Map(current.places).set(block.id, { x: at.x + push.x, y: at.y + push.y }) }, [block]);
      }
    }
    if (current === before) break;
  }
  return current;
}
