/** A plate whose parts have places: they lie there as they do in the instrument, at one scale. */
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { type Box, grid, joinBoxes, overlaps, type Point, snap } from '../geometry.js';
import { firstOf } from '../../collections.js';
import { bestPlace, createClusters, type Cluster } from './cluster.js';
import type { Block, Slot } from './block.js';
import { boundsOf, type PlacedSymbol } from '../placed.js';

/** Drawing units per metre: at least so that a pot is about as large as it is drawn, at most so that a slip of the pen does not fill a wall. */
const leastScale = 3600;
const mostScale = 24000;
/** Room between neighbours for wires. */
const gap = 3 * grid;

export function arrangePlate(diagram: Diagram, plate: string, parts: readonly DiagramPart[]): Block {
  const fixed = createClusters(
    diagram,
    parts.filter((part) => part.at !== undefined),
  ).flatMap(({ id, orientations, at }) => (at === undefined ? [] : [{ id, orientations, at, extent: extentOf(orientations) }]));
  const scale = scaleOf(fixed);
  const slots: Slot[] = [];
  for (const { id, orientations, at } of fixed) {
    const slot = { id, orientations: orientations.map((orientation) => putAt(orientation, at, scale)) };
    const boxes = slot.orientations.map(boundsOf);
    const isFree = !slots.some((other) =>
      other.orientations.some((orientation) => boxes.some((box) => overlaps(boundsOf(orientation), box))),
    );
    if (isFree) slots.push(slot);
  }
  const settled = new Set(slots.flatMap((slot) => firstOf(slot.orientations).map(({ part }) => part.id)));
  for (const part of parts) {
    // Two parts cannot lie on one spot: the second goes beside it, like one that has no place.
    if (settled.has(part.id)) continue;
    // Where it lies best hangs on how its neighbours lie, which is not chosen yet: a place for either case, clear of both.
    const room = slots.flatMap((slot) => slot.orientations.flat());
    const count = Math.max(1, ...slots.map((slot) => slot.orientations.length));
    const orientations = Array.from({ length: count }, (_, orientation) =>
      slots.flatMap((slot) => slot.orientations[orientation] ?? firstOf(slot.orientations)),
    );
    slots.push({ id: part.id, orientations: orientations.map((placed) => [bestPlace(diagram, part, placed, room, 4)]) });
  }
  const box = joinBoxes(slots.flatMap((slot) => slot.orientations.map(boundsOf)));
  const shift = (placed: PlacedSymbol): PlacedSymbol => ({ ...placed, x: placed.x - box.x, y: placed.y - box.y });
  return {
    id: plate,
    group: plate,
    plate,
    width: box.width,
    height: box.height,
    slots: slots.map((slot) => ({ id: slot.id, orientations: slot.orientations.map((orientation) => orientation.map(shift)) })),
  };
}

/** A cluster with its middle on its place. A middle off the grid, as of a wide pickup, must not take the lugs off it. */
function putAt(orientation: readonly PlacedSymbol[], at: Point, scale: number): PlacedSymbol[] {
  const { centre } = firstOf(orientation).symbol;
  const [x, y] = [snap(snap(at.x * scale) - centre.x), snap(snap(at.y * scale) - centre.y)];
  return orientation.map((placed) => ({ ...placed, x: placed.x + x, y: placed.y + y }));
}

/** What a cluster needs around the point that its place means, over all its orientations. */
function extentOf(orientations: Cluster['orientations']): Box {
  return joinBoxes(
    orientations.map((orientation) => {
      const box = boundsOf(orientation);
      const { centre } = firstOf(orientation).symbol;
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
