/** Preset pots from the solder side: a small square body with the slot for the screwdriver, its three legs on one side. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { grid, snap, snapUp, south } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

/** Half of the body's height: with its legs it is half as large as a pot. */
const half = 22;
const screw = 11;
const lugDistance = 4 * grid;

export function trimmerSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const row = (part.rows[0] ?? []).flatMap((index) => (index === null ? [] : [itemAt(part.lugs, index)]));
  const widest = Math.max(0, ...row.map(({ name }) => lugNameWidth(name)));
  const pitch = snapUp(Math.max(2 * grid, widest + 10));
  const width = (row.length - 1) * pitch + 20;
  builder.box('wafer', { x: 0, y: 0, width, height: 2 * half, radius: 3 });
  builder.cover(0, 0, width, 2 * half);
  builder.circle('metal', 0, -8, screw);
  builder.path('detail', [
    { x: -screw + 4, y: -8 },
    { x: screw - 4, y: -8 },
  ]);
  row.forEach((lug, place) => {
    const x = snap((place - (row.length - 1) / 2) * pitch);
    builder.leaf({ x, y: half - 2 }, { x, y: lugDistance }, 8);
    builder.around(lug.name, x, half - 8);
    builder.lug(lug, x, lugDistance, south);
  });
  builder.caption(part, 'above');
  return builder.finish();
}
