/** A plate whose parts have places: they lie there as they do in the instrument, at one scale. */
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { type Box, grid, joinBoxes, overlaps, type Point, snap } from '../geometry.js';
import { firstOf } from '../../collections.js';
import { bestPlace, createClusters, type Cluster } from './cluster.js';
import type { Block, Slot } from './block.js';
import { waysBox, type PlacedSymbol } from '../placed.js';

/** Drawing units per metre: at least so that a pot is about as large as it is drawn, at most so that a slip of the pen does not fill a wall. */
const leastScale = 3600;
const mostScale = 24000;
/** Room between neighbours for wires. */
const gap = 3 * grid;

export function arrangePlate(diagram: Diagram, plate: string, parts: readonly DiagramPart[]): Block {
  const fixed = createClusters(
    diagram,
    parts.filter((part) => part.at !== undefined),
  ).flatMap(({ id, ways, at }) => (at === undefined ? [] : [{ id, ways, at, extent: extentOf(ways) }]));
  const scale = scaleOf(fixed);
  const slots: Slot[] = [];
  for (const { id, ways, at } of fixed) {
    const slot = { id, ways: ways.map((way) => putAt(way, at, scale)) };
    const boxes = slot.ways.map(waysBox);
    const isFree = !slots.some((other) => other.ways.some((way) => boxes.some((box) => overlaps(waysBox(way), box))));
    if (isFree) slots.push(slot);
  }
  const settled = new Set(slots.flatMap((slot) => firstOf(slot.ways).map(({ part }) => part.id)));
  for (const part of parts) {
    // Two parts cannot lie on one spot: the second goes beside it, like one that has no place.
    if (settled.has(part.id)) continue;
    // Where it lies best hangs on how its neighbours lie, which is not chosen yet: a place for either case, clear of both.
    const room = slots.flatMap((slot) => slot.ways.flat());
    const count = Math.max(1, ...slots.map((slot) => slot.ways.length));
    const ways = Array.from({ length: count }, (_, way) => slots.flatMap((slot) => slot.ways[way] ?? firstOf(slot.ways)));
    slots.push({ id: part.id, ways: ways.map((placed) => [bestPlace(diagram, part, placed, room, 4)]) });
  }
  const box = joinBoxes(slots.flatMap((slot) => slot.ways.map(waysBox)));
  const shift = (placed: PlacedSymbol): PlacedSymbol => ({ ...placed, x: placed.x - box.x, y: placed.y - box.y });
  return {
    id: plate,
    group: plate,
    plate,
    width: box.width,
    height: box.height,
    slots: slots.map((slot) => ({ id: slot.id, ways: slot.ways.map((way) => way.map(shift)) })),
  };
}

/** A cluster with its middle on its place. A middle off the grid, as of a wide pickup, must not take the lugs off it. */
function putAt(way: readonly PlacedSymbol[], at: Point, scale: number): PlacedSymbol[] {
  const { centre } = firstOf(way).symbol;
  const [x, y] = [snap(snap(at.x * scale) - centre.x), snap(snap(at.y * scale) - centre.y)];
  return way.map((placed) => ({ ...placed, x: placed.x + x, y: placed.y + y }));
}

/** What a cluster needs around the point that its place means, over all its ways. */
function extentOf(ways: Cluster['ways']): Box {
  return joinBoxes(
    ways.map((way) => {
      const box = waysBox(way);
      const { centre } = firstOf(way).symbol;
      return { ...box, x: box.x - centre.x, y: box.y - centre.y };
    }),
  );
}

/** The smallest scale at which no two parts come nearer than wires need. */
function scaleOf(clusters: readonly { readonly at: Point; readonly extent: Box }[]): number {
  let scale = leastScale;
  clusters.forEach(({ at: from, extent: one }, i) => {
    clusters.slice(i + 1).forEach(({ at: to, extent: other }) => {
      const dx = to.x - from.x;
      const dy = to.y - from.y;
      const across = dx >= 0 ? one.x + one.width - other.x : other.x + other.width - one.x;
      const down = dy >= 0 ? one.y + one.height - other.y : other.y + other.height - one.y;
      const needed = Math.min(
        dx === 0 ? Infinity : (across + gap) / Math.abs(dx),
        dy === 0 ? Infinity : (down + gap) / Math.abs(dy),
      );
      if (Number.isFinite(needed)) scale = Math.max(scale, needed);
    });
  });
  return Math.min(scale, mostScale);
}
