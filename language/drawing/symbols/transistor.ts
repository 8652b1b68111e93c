/** Transistors from the side of their legs: a small round body, flat on the side of its print, three legs in a row. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { grid, snap, snapUp, south } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

/** Half of the body's height, drawn twice as large as a body of 5 mm is, so that its letters can be read. */
const half = 16;
const lugDistance = 3 * grid;

export function transistorSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const row = (part.rows[0] ?? []).flatMap((index) => (index === null ? [] : [itemAt(part.lugs, index)]));
  const widest = Math.max(0, ...row.map(({ name }) => lugNameWidth(name)));
  const pitch = snapUp(Math.max(2 * grid, widest + 10));
  const width = (row.length - 1) * pitch + 24;
  builder.box('body', { x: 0, y: 0, width, height: 2 * half, radius: half });
  builder.box('body', { x: 0, y: half / 2, width, height: half, radius: 2 });
  builder.cover(0, 0, width, 2 * half);
  row.forEach((lug, place) => {
    const x = snap((place - (row.length - 1) / 2) * pitch);
    builder.leaf({ x, y: half - 2 }, { x, y: lugDistance }, 6);
    builder.around(lug.name, x, half - 8);
    builder.lug(lug, x, lugDistance, south);
  });
  builder.caption(part, 'above');
  return builder.finish();
}
