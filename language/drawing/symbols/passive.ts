/** Parts with two leads: the body lies between its lugs. */
import type { DiagramPart } from '../diagram/diagram.js';
import { grid, east, west, type Point } from '../geometry.js';
import { createSymbolBuilder, type Symbol, type SymbolBuilder } from './symbol.js';

const reach = 4 * grid;
const half = 2 * grid;

export function twoLeadSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  for (const sign of [-1, 1]) {
    builder.path('tab', [
      { x: sign * half, y: 0 },
      { x: sign * reach, y: 0 },
    ]);
  }
  builder.cover(0, 0, 2 * reach - 8, 2 * grid);
  drawBody(builder, part.kind, { x: 0, y: 0 });
  part.lugs.slice(0, 2).forEach((lug, index) => {
    const side = index === 0 ? -1 : 1;
    builder.lug(lug, side * reach, 0, side === -1 ? west : east, { radius: 4.5 });
    const name = part.kind === 'electrolytic' || part.kind === 'battery' ? (index === 0 ? '+' : '−') : lug.name;
    builder.around(name, side * (half + 9), turn === 1 || turn === 2 ? 9 : -9);
  });
  builder.caption(part, turn % 2 === 0 ? 'above' : 'right');
  return builder.finish();
}

/** The body alone, around a point. */
export function drawBody(builder: SymbolBuilder, kind: DiagramPart['kind'], { x, y }: Point): void {
  const bands = (places: readonly number[], reach: number): void => {
    for (const place of places) {
      builder.path('detail', [
        { x: x + place, y: y - reach },
        { x: x + place, y: y + reach },
      ]);
    }
  };
  switch (kind) {
    case 'capacitor':
      return builder.box('film', { x, y, width: 2 * half, height: 20, radius: 5 });
    case 'electrolytic':
      builder.box('film', { x, y, width: 2 * half, height: 22, radius: 4 });
      return builder.box('detail', { x: x + half - 6, y, width: 6, height: 21, radius: 0 });
    case 'resistor':
      builder.box('film', { x, y, width: 2 * half, height: 14, radius: 6 });
      return bands([-10, -3, 4, 12], 7);
    case 'inductor':
      builder.box('film', { x, y, width: 2 * half, height: 18, radius: 2 });
      return bands([-18, -12, -6, 0, 6, 12, 18], 9);
    default:
      builder.box('body', { x, y, width: 2 * half, height: 26, radius: 4 });
      return bands([-6], 13);
  }
}
