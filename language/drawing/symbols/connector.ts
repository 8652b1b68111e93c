/** Connectors: the two halves facing each other, their contacts in line, each half with its lugs on the outer side. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Point, snapUp, west } from '../geometry.js';
import { addContacts } from './contacts.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

const pitch = 3 * grid;
/** Between the two halves, where the pins enter the sockets: wide enough to see which contacts cross. */
const gap = 2 * grid;

export function connectorSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const rows = part.rows.slice(0, 2);
  const count = Math.max(...rows.map((row) => row.length));
  const length = (count - 1) * pitch;
  const widest = Math.max(0, ...part.lugs.map(({ name }) => lugNameWidth(name)));
  const half = snapUp(widest + 16);
  const outer = snapUp(gap / 2 + half + 10);
  const height = length + 2.4 * grid;
  builder.cover(0, length / 2, 2 * half + gap, height);
  const inner = new Map<number, Point>();
  rows.forEach((row, side) => {
    const sign = side === 0 ? -1 : 1;
    const x = sign * (gap / 2 + half / 2);
    builder.box(side === 0 ? 'wafer' : 'body', { x, y: length / 2, width: half, height, radius: 3 });
    row.forEach((index, slot) => {
      if (index === null) return;
      const lug = itemAt(part.lugs, index);
      const y = slot * pitch;
      builder.leaf({ x: sign * (gap / 2 + half - 6), y }, { x: sign * outer, y }, 11);
      builder.lug(lug, sign * outer, y, sign < 0 ? west : east);
      builder.around(lug.name, x - sign * 2, y);
      builder.box('pole', { x: sign * (gap / 2 - 3), y, width: 6, height: 5, radius: 1 });
      inner.set(index, { x: sign * (gap / 2 - 6), y });
    });
  });
  // Halves that fit one way only are joined for good, so that no contact is drawn: their pins reach across.
  if (part.contacts.length === 0)
    for (let slot = 0; slot < count; slot++)
      builder.path('detail', [
        { x: -gap / 2, y: slot * pitch },
        { x: gap / 2, y: slot * pitch },
      ]);
  addContacts(builder, part, inner, 0);
  builder.caption(part, 'above');
  return builder.finish({ x: 0, y: snapUp(length / 2) });
}
