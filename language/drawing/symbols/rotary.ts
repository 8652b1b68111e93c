/** Rotary switches: the throws in a ring, the commons inside it. */
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Heading, north, type Point, snap, south, west } from '../geometry.js';
import { createSymbolBuilder, type Symbol } from './symbol.js';

/** The type's rows are the ring unrolled: the first row goes round, the second lies inside. */
export function rotarySymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [ring = [], inner = []] = part.rows;
  const count = Math.max(ring.length, 1);
  const radius = snap((count * 3.4 * grid) / (2 * Math.PI)) + grid;
  const place = (slot: number, distance: number): Point => {
    const angle = ((slot + 0.5) / count) * 2 * Math.PI - Math.PI / 2;
    return { x: snap(Math.cos(angle) * distance), y: snap(Math.sin(angle) * distance) };
  };
  builder.circle('metal', 0, 0, radius + 2);
  builder.circle('wafer', 0, 0, radius - 10);
  const where = new Map<number, Point>();
  const add = (lugIndex: number | null, slot: number, distance: number, nameGap: number): void => {
    const lug = lugIndex === null ? undefined : part.lugs[lugIndex];
    if (!lug || lugIndex === null) return;
    const at = place(slot, distance);
    where.set(lugIndex, at);
    const outward = headingFrom(at);
    builder.lug(lug, at.x, at.y, outward);
    const inward = Math.hypot(at.x, at.y);
    builder.around(lug.name, at.x * (1 - nameGap / inward), at.y * (1 - nameGap / inward));
  };
  ring.forEach((lug, slot) => add(lug, slot, radius, 17));
  inner.forEach((lug, slot) => add(lug, slot, radius - 4 * grid, 17));
  const inRows = new Set(part.rows.flat());
  part.lugs.forEach((lug, index) => {
    if (inRows.has(index)) return;
    const y = snap(radius + 2 * grid);
    builder.box('tab', { x: 0, y: radius + grid, width: 16, height: 2 * grid, radius: 3 });
    builder.lug(lug, 0, y, south);
    builder.beside(lug.name, grid, y, east, 4);
  });
  for (const contact of part.contacts) {
    const points = contact.lugs.flatMap((lug) => where.get(lug) ?? []);
    const [first, ...others] = points;
    if (first !== undefined && others.length > 0)
      builder.contact(
        contact.id,
        others.map((to) => [first, to]),
      );
  }
  builder.caption(part, 'above');
  return builder.finish();
}

function headingFrom({ x, y }: Point): Heading {
  if (Math.abs(x) >= Math.abs(y)) return x < 0 ? west : east;
  return y < 0 ? north : south;
}
