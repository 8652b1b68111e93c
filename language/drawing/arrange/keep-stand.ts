/** Where everything stands after a small edit: what was there stays, what is new goes where its wires are short. */
import type { Diagram } from '../diagram/diagram.js';
import { type Box, grid, grow, joinBoxes, overlaps, type Point } from '../geometry.js';
import { createFrame, rebased, type Frame } from '../router/field.js';
import type { Way } from '../router/search.js';
import type { Block } from './block.js';
import type { Estimate } from './estimate.js';
import { itemsOf, type Memory } from './memory.js';
import { likelyPlaces } from './moves.js';
import { outlinesOf } from './outline.js';
import { topGroup, type Passages } from './passage.js';
import { boxOf, type Stand } from './stand.js';

export interface KeptStand {
  readonly stand: Stand;
  readonly frame: Frame;
  readonly ways: ReadonlyMap<string, Way>;
  readonly items: ReadonlySet<string>;
  /** Ids of blocks that are new, or too large for where they were. */
  readonly fresh: ReadonlySet<string>;
  readonly fallback?: string;
}

/** Of all parts and runs together, the share that may have come and gone since all was last laid out; at least a few. */
const drift = { share: 0.25, least: 4 } as const;
const gap = 2 * grid;

/** Nothing where too much is new, or what is new finds no room. */
export function keepStand(
  diagram: Diagram,
  blocks: readonly Block[],
  estimate: Estimate,
  passages: Passages,
  memory: Memory,
): KeptStand | undefined {
  const items = itemsOf(diagram);
  const gone = [...memory.items].filter((item) => !items.has(item)).length;
  const come = [...items].filter((item) => !memory.items.has(item)).length;
  if (gone + come > Math.max(drift.least, drift.share * memory.items.size)) return undefined;

  const places = new Map<string, Point>();
  const choice = new Map<string, number>();
  const fresh: Block[] = [];
  for (const block of blocks) {
    const before = memory.blocks.get(block.id);
    const place = memory.stand.places.get(block.id);
    for (const slot of block.slots) {
      const old = before?.slots.find((other) => other.id === slot.id);
      choice.set(slot.id, old?.ways.length === slot.ways.length ? (memory.stand.choice.get(slot.id) ?? 0) : 0);
    }
    const box = place && { ...place, width: block.width, height: block.height };
    const isStanding =
      box && before?.group === block.group && standing(blocks, places).every((other) => !overlaps(grow(box, grid), other));
    if (isStanding) places.set(block.id, place);
    else fresh.push(block);
  }
  for (const group of diagram.groups) {
    const place = memory.stand.places.get(group.id);
    if (place) places.set(group.id, place);
  }
  // A new part in a cavity changes its outline, and with it where everything else may be.
  if (fresh.some((block) => block.group !== undefined)) return undefined;

  const outlines = outlinesOf(diagram, blocks, places, passages);
  const tops = [...outlines].filter(([id]) => topGroup(diagram, id) === id).map(([, box]) => box);
  const isClear = (box: Box, others: readonly Box[]): boolean => !others.some((other) => overlaps(box, other));
  if (tops.some((box, index) => !isClear(grow(box, grid), tops.slice(index + 1)))) return undefined;
  const free = blocks.filter((block) => block.group === undefined && places.has(block.id));
  const taken = [...tops, ...free.map((block) => boxOf(block, { places }))];
  if (free.some((block) => !isClear(grow(boxOf(block, { places }), grid), tops))) return undefined;

  const room = grow(joinBoxes([...taken, memory.frame.room]), 4 * grid);
  for (const block of fresh) {
    const stand = (at: Point, way?: number): Stand => ({
      places: new Map(places).set(block.id, at),
      choice: way === undefined ? choice : new Map(choice).set(block.slots[0]!.id, way),
    });
    const corner = { x: room.x, y: room.y };
    const candidates = likelyPlaces(block, stand(corner), estimate, room, (box) => isClear(grow(box, gap), taken));
    const best = candidates
      .flatMap((at) => (block.slots[0]?.ways ?? []).map((_, way) => ({ at, way, cost: estimate.of(stand(at, way), [block]) })))
      .reduce<{ at: Point; way: number; cost: number } | undefined>((a, b) => (a && a.cost <= b.cost ? a : b), undefined);
    if (!best) return undefined;
    places.set(block.id, best.at);
    choice.set(block.slots[0]!.id, best.way);
    taken.push(boxOf(block, { places }));
  }
  const isInRoom = taken.every((box) => contains(memory.frame.room, box));
  const frame = isInRoom ? memory.frame : createFrame(joinBoxes(taken));
  return {
    stand: { places, choice },
    frame,
    ways: isInRoom ? memory.ways : rebased(memory.ways, memory.frame, frame),
    items: memory.items,
    fresh: new Set(fresh.map((block) => block.id)),
    ...(memory.fallback === undefined ? {} : { fallback: memory.fallback }),
  };
}

function standing(blocks: readonly Block[], places: ReadonlyMap<string, Point>): Box[] {
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
