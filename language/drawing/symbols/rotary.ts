/** Rotary switches from behind: a round wafer, its throws as tabs round the rim, the commons inside. */
import { itemAt } from '../../collections.js';
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Point, snap, snapUp, south } from '../geometry.js';
import { headingFrom } from './metal.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

/** A wafer of 30 mm would be 48 here; names and commons that can be read need a little more. */
const leastRim = 62;
/** Between two names in the ring, for the wires that go in to the commons. */
const lane = 1.6 * grid;

/** From a lug's middle to that of its name: a wire that leaves the lug sidewise clears the name. */
const nameDistance = 16;

/** The type's rows are the ring unrolled: the first row goes round, the second lies inside. */
export function rotarySymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [ring = [], inner = []] = part.rows;
  const count = Math.max(ring.length, 1);
  const widest = Math.max(0, ...ring.map((index) => (index === null ? 0 : lugNameWidth(itemAt(part.lugs, index).name))));
  const names = Math.max(leastRim + 12, (count * (widest + lane)) / (2 * Math.PI));
  const radius = snapUp(names + nameDistance);
  const rim = names - 10;
  const at = (slot: number, distance: number): Point => {
    const angle = ((slot + 0.5) / count) * 2 * Math.PI - Math.PI / 2;
    return { x: Math.cos(angle) * distance, y: Math.sin(angle) * distance };
  };
  builder.circle('wafer', 0, 0, rim);
  builder.cover(0, 0, 1.6 * rim, 1.6 * rim);
  builder.circle('metal', 0, 0, 10);
  builder.circle('detail', 0, 0, 5);
  const where = new Map<number, Point>();
  const add = (lug: DiagramLug, index: number, slot: number, [root, end]: readonly [number, number]): void => {
    const place = at(slot, end);
    const lugAt = { x: snap(place.x), y: snap(place.y) };
    where.set(index, at(slot, root));
    builder.leaf(at(slot, root), lugAt, 12);
    builder.lug(lug, lugAt.x, lugAt.y, headingFrom(place));
    const label = fromLug(lugAt, at(slot, root));
    builder.around(lug.name, label.x, label.y);
  };
  ring.forEach((index, slot) => {
    if (index !== null) add(itemAt(part.lugs, index), index, slot, [rim - 8, radius]);
  });
  inner.forEach((index, slot) => {
    if (index !== null) add(itemAt(part.lugs, index), index, slot, [12, 4 * grid]);
  });
  const inRows = new Set(part.rows.flat());
  part.lugs.forEach((lug, index) => {
    if (inRows.has(index)) return;
    const y = radius + 3 * grid;
    builder.leaf({ x: 0, y: rim - 2 }, { x: 0, y }, 12);
    builder.lug(lug, 0, y, south);
    builder.beside(lug.name, 0, y, east, 11);
  });
  for (const contact of part.contacts) {
    const [first, ...others] = contact.lugs.flatMap((lug) => where.get(lug) ?? []);
    if (first !== undefined && others.length > 0)
      builder.contact(
        contact.id,
        others.map((to) => [first, to]),
      );
  }
  builder.caption(part, 'above');
  return builder.finish();
}

/** On a lug's tab, measured from where the lug lies on the grid. */
function fromLug(lug: Point, root: Point): Point {
  const share = nameDistance / Math.hypot(root.x - lug.x, root.y - lug.y);
  return { x: lug.x + (root.x - lug.x) * share, y: lug.y + (root.y - lug.y) * share };
}
