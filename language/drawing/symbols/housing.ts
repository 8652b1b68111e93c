/** Relays, optocouplers, transformers and op-amps: a closed housing with its legs on two sides, a notch at the first. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Point, snapUp, west } from '../geometry.js';
import { addContacts } from './contacts.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

const pitch = 3 * grid;
/** Between the names of the two sides: room for the blades of contacts. */
const middle = 3 * grid;

export function housingSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const rows = part.rows.slice(0, 2);
  const count = Math.max(...rows.map((row) => row.length));
  const widths = rows.map((row) =>
    Math.max(0, ...row.map((index) => (index === null ? 0 : lugNameWidth(itemAt(part.lugs, index).name)))),
  );
  const half = snapUp(middle / 2 + Math.max(...widths) + 12);
  const length = (count - 1) * pitch;
  const height = length + 2.6 * grid;
  builder.box('body', { x: 0, y: length / 2, width: 2 * half, height, radius: 3 });
  builder.cover(0, length / 2, 2 * half, height);
  builder.circle('pole', 0, length / 2 - height / 2 + 5, 3);
  const inner = new Map<number, Point>();
  rows.forEach((row, side) => {
    const sign = side === 0 ? -1 : 1;
    const outer = sign * (half + grid);
    row.forEach((index, slot) => {
      if (index === null) return;
      const lug = itemAt(part.lugs, index);
      const y = slot * pitch;
      builder.leaf({ x: sign * (half - 2), y }, { x: outer, y }, 10);
      builder.lug(lug, outer, y, sign < 0 ? west : east);
      builder.beside(lug.name, sign * half, y, sign < 0 ? east : west, 6);
      inner.set(index, { x: sign * (middle / 2), y });
    });
  });
  addContacts(builder, part, inner, 0);
  builder.caption(part, 'above');
  return builder.finish({ x: 0, y: snapUp(length / 2) });
}
