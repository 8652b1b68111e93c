/** Toggle and slide switches from behind. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Heading, north, type Point, snapUp, south } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

/** The toggle of two pickups: its leaves come to a point at the bushing, their lugs in a row. */
export function toggleSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [row = []] = part.rows;
  const pitch = pitchOf(part, row, 3 * grid);
  const half = ((row.length - 1) * pitch) / 2 + 18;
  const body = { x: 0, y: 0, width: 2 * half, height: 58, radius: 6 };
  builder.box('metal', body);
  builder.cover(0, 0, body.width, body.height);
  const top = -5 * grid;
  const places = new Map<number, Point>();
  row.forEach((index, place) => {
    if (index === null) return;
    const lug = itemAt(part.lugs, index);
    const x = snapUp((place - (row.length - 1) / 2) * pitch);
    places.set(index, { x, y: top + 30 });
    builder.leaf({ x: x * 0.1, y: 22 }, { x, y: -20 }, 6);
    builder.leaf({ x, y: -18 }, { x, y: top }, Math.max(14, Math.min(pitch - 4, lugNameWidth(lug.name) + 4)));
    builder.lug(lug, x, top, north);
    builder.around(lug.name, x, top + 18);
  });
  builder.circle('metal', 0, 24, 12);
  builder.circle('detail', 0, 24, 6);
  for (const contact of part.contacts) {
    const ends = contact.lugs.flatMap((lug) => places.get(lug) ?? []);
    if (ends.length > 1)
      builder.contact(
        contact.id,
        ends.map((end) => [end, { x: 0, y: 24 }]),
      );
  }
  const right = snapUp(half + 12);
  addOthers(builder, part, (index) => ({ x: right, y: 2 * grid - index * 3 * grid }), half, east);
  builder.caption(part, 'above');
  return builder.finish();
}

/** A slide with its rows of lugs above and below the knob's slot, or a block with one row. */
export function slideSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const rows = part.rows.length > 0 ? part.rows : [part.lugs.map((_, index) => index)];
  const count = Math.max(...rows.map((row) => row.length));
  const pitch = Math.max(...rows.map((row) => pitchOf(part, row, 3 * grid)));
  const half = ((count - 1) * pitch) / 2 + 14;
  const places = new Map<number, Point>();
  builder.box('metal', { x: 0, y: 0, width: 2 * half + 3.6 * grid, height: 34, radius: 6 });
  builder.box('body', { x: 0, y: 0, width: 2 * half, height: 48, radius: 3 });
  builder.cover(0, 0, 2 * half + 3.6 * grid, 48);
  builder.box('bobbin', { x: 0, y: 0, width: Math.min(half, 34), height: 10, radius: 2 });
  rows.slice(0, 2).forEach((row, rowIndex) => {
    const sign = rowIndex === 0 ? -1 : 1;
    row.forEach((index, slot) => {
      if (index === null) return;
      const lug = itemAt(part.lugs, index);
      const place = { x: snapUp((slot - (row.length - 1) / 2) * pitch), y: sign * 4 * grid };
      const root = { x: place.x, y: sign * 14 };
      places.set(index, root);
      builder.leaf(root, place, Math.max(14, Math.min(pitch - 6, lugNameWidth(lug.name) + 4)));
      builder.lug(lug, place.x, place.y, sign < 0 ? north : south);
      builder.around(lug.name, place.x, sign * 23);
    });
  });
  for (const contact of part.contacts) {
    const ends = contact.lugs.flatMap((lug) => places.get(lug) ?? []).sort((a, b) => a.x - b.x);
    if (ends.length < 2) continue;
    const inside = ends.map(({ x, y }) => ({ x, y: y * 0.7 }));
    builder.contact(contact.id, [...ends.map((end, at) => [end, ...inside.slice(at, at + 1)]), inside]);
  }
  const right = snapUp(half + 3 * grid);
  addOthers(builder, part, (index) => ({ x: right, y: index * 3 * grid }), half + 1.8 * grid, east);
  builder.caption(part, 'above');
  return builder.finish();
}

/** Lugs outside the rows: the frame's. */
function addOthers(
  builder: SymbolBuilder,
  part: DiagramPart,
  placeOf: (index: number) => Point,
  edge: number,
  out: Heading,
): void {
  const inRows = new Set(part.rows.flat());
  part.lugs
    .filter((_, index) => part.rows.length > 0 && !inRows.has(index))
    .forEach((lug, index) => {
      const { x, y } = placeOf(index);
      builder.leaf({ x: edge - 3, y }, { x, y }, 13);
      builder.lug(lug, x, y, out);
      builder.around(lug.name, x + lugNameWidth(lug.name) / 2 - 6, y + 15);
    });
}

function pitchOf(part: DiagramPart, row: readonly (number | null)[], least: number): number {
  const widest = Math.max(0, ...row.map((index) => (index === null ? 0 : lugNameWidth(itemAt(part.lugs, index).name))));
  return 2 * snapUp(Math.max(least, widest + 14) / 2);
}
