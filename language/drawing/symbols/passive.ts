/** Parts with two leads: the body lies between its lugs. */
import type { DiagramPart } from '../diagram.js';
import { grid, east, west } from '../geometry.js';
import { createSymbolBuilder, lugAccesses, type Symbol, type SymbolBuilder } from '../symbol.js';

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
  builder.keepOut(0, 0, 2 * reach - 8, 2 * grid);
  bodies[part.kind]?.(builder);
  part.lugs.slice(0, 2).forEach((lug, index) => {
    const side = index === 0 ? -1 : 1;
    builder.pad(lug.id, side * reach, 0, lugAccesses(side * reach, 0, side === -1 ? west : east), 'lug', 4.5);
    const name = part.kind === 'electrolytic' || part.kind === 'battery' ? (index === 0 ? '+' : '−') : lug.name;
    builder.around(name, side * (half + 9), turn === 1 || turn === 2 ? 9 : -9);
  });
  builder.caption(part, turn % 2 === 0 ? 'above' : 'right');
  return builder.finish();
}

const bodies: Partial<Record<DiagramPart['kind'], (builder: SymbolBuilder) => void>> = {
  capacitor: (builder) => builder.box('film', 0, 0, 2 * half, 20, 5),
  electrolytic(builder) {
    builder.box('film', 0, 0, 2 * half, 22, 4);
    builder.box('detail', half - 6, 0, 6, 21, 0);
  },
  resistor(builder) {
    builder.box('film', 0, 0, 2 * half, 14, 6);
    for (const x of [-10, -3, 4, 12])
      builder.path('detail', [
        { x, y: -7 },
        { x, y: 7 },
      ]);
  },
  inductor(builder) {
    builder.box('film', 0, 0, 2 * half, 18, 2);
    for (let x = -18; x <= 18; x += 6)
      builder.path('detail', [
        { x, y: -9 },
        { x, y: 9 },
      ]);
  },
  battery(builder) {
    builder.box('body', 0, 0, 2 * half, 26, 4);
    builder.path('detail', [
      { x: -6, y: -13 },
      { x: -6, y: 13 },
    ]);
  },
};
