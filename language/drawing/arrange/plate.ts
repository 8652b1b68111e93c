/** A plate whose parts have places: they lie there as they do in the instrument, at one scale. */
import type { Diagram, DiagramPart } from '../diagram.js';
import { type Box, grid, joinBoxes, snap } from '../geometry.js';
import { bestPlace, createClusters, type Cluster } from './cluster.js';
import type { Block, Slot } from './block.js';
import { waysBox, type PlacedSymbol } from './placed.js';

/** Drawing units per metre: at least so that a pot is about as large as it is drawn, at most so that a slip of the pen does not fill a wall. */
const leastScale = 3600;
const mostScale = 24000;
/** Room between neighbours for wires. */
const gap = 3 * grid;

export function arrangePlate(diagram: Diagram, plate: string, parts: readonly DiagramPart[]): Block {
  const fixed = createClusters(
    diagram,
    parts.filter((part) => part.at !== undefined),
  );
  const extents = fixed.map((cluster) => extentOf(cluster));
  const scale = scaleOf(fixed, extents);
  const slots: Slot[] = fixed.map((cluster) => ({
    id: cluster.id,
    ways: cluster.ways.map((way) => {
      const { symbol } = way[0]!;
      const x = snap(cluster.at!.x * scale) - symbol.centre.x;
      const y = snap(cluster.at!.y * scale) - symbol.centre.y;
      // A centre off the grid (as of a wide pickup) must not take the lugs off it.
      return way.map((placed) => ({ ...placed, x: placed.x + snap(x), y: placed.y + snap(y) }));
    }),
  }));
  for (const part of parts) {
    if (part.at !== undefined) continue;
    // Where it lies best hangs on how its neighbours lie, which is not chosen yet: a place for either case, clear of both.
    const room = slots.flatMap((slot) => slot.ways.flat());
    const count = Math.max(1, ...slots.map((slot) => slot.ways.length));
    const ways = Array.from({ length: count }, (_, way) => slots.flatMap((slot) => slot.ways[way] ?? slot.ways[0]!));
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

/** What a cluster needs around the point that its place means, over all its ways. */
function extentOf(cluster: Cluster): Box {
  return joinBoxes(
    cluster.ways.map((way) => {
      const box = waysBox(way);
      const { centre } = way[0]!.symbol;
      return { ...box, x: box.x - centre.x, y: box.y - centre.y };
    }),
  );
}

/** The smallest scale at which no two parts come nearer than wires need. */
function scaleOf(clusters: readonly Cluster[], extents: readonly Box[]): number {
  let scale = leastScale;
  clusters.forEach((a, i) => {
    clusters.slice(i + 1).forEach((b, k) => {
      const [one, other] = [extents[i]!, extents[i + 1 + k]!];
      const dx = b.at!.x - a.at!.x;
      const dy = b.at!.y - a.at!.y;
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
