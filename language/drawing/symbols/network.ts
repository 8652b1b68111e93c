/** A small assembly of parts with two leads side by side between its two lugs, drawn as it is soldered. */
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, west } from '../geometry.js';
import { createSymbolBuilder, type Symbol } from './symbol.js';
import { drawBody } from './passive.js';

const reach = 6 * grid;
const pitch = 4 * grid;

export function networkSymbol(part: DiagramPart, turn: 0 | 2): Symbol {
  const builder = createSymbolBuilder(turn);
  const inner = part.inner ?? [];
  const height = inner.length * pitch + 2 * grid;
  builder.box('assembly', { x: 0, y: 0, width: 2 * reach, height, radius: 8 });
  builder.cover(0, 0, 2 * reach - 8, height);
  inner.forEach((child, index) => {
    const y = (index - (inner.length - 1) / 2) * pitch;
    for (const sign of [-1, 1]) {
      builder.path('lead', [
        { x: sign * reach, y: 0 },
        { x: sign * (reach - grid), y: 0 },
        { x: sign * (reach - grid), y },
        { x: sign * 11, y },
      ]);
    }
    drawBody(builder, child.kind, { x: 0, y });
    builder.around([child.name, ...child.values].join('  '), 0, turn === 0 ? y - 19 : y + 19);
    child.lugs.forEach((lug, side) => builder.pad(lug.id, { x: (side === 0 ? -1 : 1) * (reach - grid), y }, [], 'lug', 3.5));
  });
  part.lugs.forEach((lug, index) => {
    const side = index === 0 ? -1 : 1;
    builder.lug(lug, side * reach, 0, side === -1 ? west : east, { radius: 5.5 });
    builder.beside(lug.name, side * (reach - 4), turn === 0 ? height / 2 - 13 : 13 - height / 2, side === -1 ? east : west, 0);
  });
  builder.caption(part, 'above');
  return builder.finish();
}
