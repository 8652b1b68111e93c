/** Where everything stands after a small edit: what was there stays, what is new goes where its wires are short. */
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grid, grow, joinBoxes, overlaps, type Point } from '../geometry.js';
import { createFrame, rebased, type Frame } from '../router/field.js';
import type { Route } from '../router/search.js';
import type { Block } from './block.js';
import type { Estimate } from './estimate.js';
import { itemsOf, type Memory } from './memory.js';
import { likelyPlaces } from './moves.js';
import { outlinesOf } from './outline.js';
import { topGroup, type Passages } from './passage.js';
import { boxOf, type Placement } from './placement.js';

export interface KeptPlacement {
  readonly placement: Placement;
  readonly frame: Frame;
  readonly routes: ReadonlyMap<string, Route>;
  readonly items: ReadonlySet<string>;
  /** Ids of blocks that are new, or too large for where they were. */
  readonly fresh: ReadonlySet<string>;
  readonly fallback?: string;
}

/** Of all parts and runs together, the share that may have come and gone since all was last laid out; at least a few. */
const drift = { share: 0.25, least: 4 } as const;
const gap = 2 * grid;

/** Nothing where too much is new, or what is new finds no room. */
export function keepPlacement(
  diagram: Diagram,
  blocks: readonly Block[],
  estimate: Estimate,
  passages: Passages,
  memory: Memory,
): KeptPlacement | undefined {
  if (isAdrift(itemsOf(diagram), memory.items)) return undefined;
  const { places, choice, fresh } = remembered(diagram, blocks, memory);
  // A new part in a cavity changes its outline, and with it where everything else may be.
  if (fresh.some((block) => block.group !== undefined)) return undefined;

  const outlines = outlinesOf(diagram, blocks, places, passages);
  const tops = [...outlines].filter(([id]) => topGroup(diagram, id) === id).map(([, box]) => box);
  if (tops.some((box, index) => !isApart(grow(box, grid), tops.slice(index + 1)))) return undefined;
  const free = boxesOf(
    blocks.filter((block) => block.group === undefined),
    places,
  );
  const taken = [...tops, ...free];
  if (free.some((box) => !isApart(grow(box, grid), tops))) return undefined;

  const room = grow(joinBoxes([...taken, memory.frame.room]), 4 * grid);
  for (const block of fresh) {
    const best = bestPlace(block, { places, choice }, estimate, room, (box) => isApart(grow(box, gap), taken));
    if (!best) return undefined;
    places.set(block.id, best.at);
    choice.set(best.slot, best.orientation);
    taken.push(boxOf(block, { places }));
  }
  const isInRoom = taken.every((box) => contains(memory.frame.room, box));
  const frame = isInRoom ? memory.frame : createFrame(joinBoxes(taken));
  return {
    placement: { places, choice },
    frame,
    routes: isInRoom ? memory.routes : rebased(memory.routes, memory.frame, frame),
    items: memory.items,
    fresh: new Set(fresh.map((block) => block.id)),
    ...(memory.fallback === undefined ? {} : { fallback: memory.fallback }),
  };
}

/** True where too much has come and gone since all was last laid out. */
function isAdrift(items: ReadonlySet<string>, before: ReadonlySet<string>): boolean {
  const gone = [...before].filter((item) => !items.has(item)).length;
  const come = [...items].filter((item) => !before.has(item)).length;
  return gone + come > Math.max(drift.least, drift.share * before.size);
}

/** Places and routes as they were, and the blocks that are new, or too large for where they were. */
function remembered(
  diagram: Diagram,
  blocks: readonly Block[],
  memory: Memory,
): { readonly places: Map<string, Point>; readonly choice: Map<string, number>; readonly fresh: readonly Block[] } {
  const places = new Map<string, Point>();
  const choice = new Map<string, number>();
  const fresh: Block[] = [];
  for (const block of blocks) {
    const before = memory.blocks.get(block.id);
    const place = memory.placement.places.get(block.id);
    for (const slot of block.slots) {
      const old = before?.slots.find((other) => other.id === slot.id);
      choice.set(
        slot.id,
        old?.orientations.length === slot.orientations.length ? (memory.placement.choice.get(slot.id) ?? 0) : 0,
      );
    }
    const box = place && { ...place, width: block.width, height: block.height };
    const isStanding = box && before?.group === block.group && isApart(grow(box, grid), boxesOf(blocks, places));
    if (isStanding) places.set(block.id, place);
    else fresh.push(block);
  }
  for (const group of diagram.groups) {
    const place = memory.placement.places.get(group.id);
    if (place) places.set(group.id, place);
  }
  return { places, choice, fresh };
}

/** Where and how a new block has its wires shortest; a new block is a part with what hangs on it, so it has one slot. */
function bestPlace(
  block: Block,
  { places, choice }: Placement,
  estimate: Estimate,
  room: Box,
  isFree: (box: Box) => boolean,
): { readonly at: Point; readonly slot: string; readonly orientation: number } | undefined {
  const [slot] = block.slots;
  if (slot === undefined) return undefined;
  const placement = (at: Point, orientation?: number): Placement => ({
    places: new Map(places).set(block.id, at),
    choice: orientation === undefined ? choice : new Map(choice).set(slot.id, orientation),
  });
  const candidates = likelyPlaces(block, placement({ x: room.x, y: room.y }), estimate, room, isFree).flatMap((at) =>
    slot.orientations.map((_, orientation) => ({
      at,
      slot: slot.id,
      orientation,
      cost: estimate.of(placement(at, orientation), [block]),
    })),
  );
  return candidates.reduce<(typeof candidates)[number] | undefined>((a, b) => (a && a.cost <= b.cost ? a : b), undefined);
}

function isApart(box: Box, others: readonly Box[]): boolean {
  return !others.some((other) => overlaps(box, other));
}

function boxesOf(blocks: readonly Block[], places: ReadonlyMap<string, Point>): Box[] {
  return blocks.filter((block) => places.has(block.id)).map((block) => boxOf(block, { places }));
}

function contains(outer: Box, inner: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  );
}
