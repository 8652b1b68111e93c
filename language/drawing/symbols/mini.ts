/** The block of a small switch: two columns of lugs, one pole each, or one column; names inside, room for a wire between them. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, moved, type Point, snapUp, south, west } from '../geometry.js';
import { addContacts } from './contacts.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

const pitch = 3 * grid;
/** Room between the names of two columns, so that a jumper has its way across the back. */
const lane = 2 * grid;

/** Mini toggles, push buttons and the like, upright, the frame's lug below. */
export function miniSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const inRows = new Set(part.rows.flat());
  const others = part.lugs.filter((_, index) => !inRows.has(index));
  const bottom = addMiniSwitch(builder, part, part.rows, { x: 0, y: 0 });
  others.forEach((lug, index) => {
    const x = snapUp((index - (others.length - 1) / 2) * pitch);
    const y = snapUp(bottom) + 2 * grid;
    builder.leaf({ x, y: bottom }, { x, y }, 12);
    builder.lug(lug, x, y, south);
    builder.beside(lug.name, x, y, east, 12);
  });
  builder.caption(part, 'above');
  return builder.finish({ x: 0, y: ((part.rows.length - 1) * pitch) / 2 });
}

/** Draws the block with its first row at `at`, and gives the lower end of its body. */
export function addMiniSwitch(builder: SymbolBuilder, part: DiagramPart, rows: DiagramPart['rows'], at: Point): number {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const lugName = (index: number | null): string => (index === null ? '' : itemAt(part.lugs, index).name);
  const widest = Math.max(0, ...rows.flat().map((index) => lugNameWidth(lugName(index))));
  const half = snapUp(widest + lane / 2 + 12);
  const middle = at.y + ((rows.length - 1) * pitch) / 2;
  const height = (rows.length - 1) * pitch + 28;
  const isSingle = columns === 1;
  const width = isSingle ? half + 8 : 2 * (half - 8);
  builder.box('body', { x: at.x, y: middle, width, height, radius: 4 });
  builder.cover(at.x, middle, width, height);
  const places = new Map<number, Point>();
  rows.forEach((row, rowIndex) =>
    row.forEach((index, column) => {
      if (index === null) return;
      const lug = itemAt(part.lugs, index);
      const sign = column === 0 ? -1 : 1;
      const place = moved(at, { x: isSingle ? -snapUp(half / 2 + 8) : sign * half, y: rowIndex * pitch });
      const root = { x: place.x - sign * (widest + 12), y: place.y };
      places.set(index, root);
      builder.leaf(root, place, 13);
      builder.lug(lug, place.x, place.y, sign < 0 ? west : east);
      builder.around(lug.name, place.x - sign * (9 + widest / 2), place.y);
    }),
  );
  addContacts(builder, part, places, at.x);
  return middle + height / 2;
}
