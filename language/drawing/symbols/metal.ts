/** Single points: the star, the bridge, a splice, the lug of a plate or of an assembly. */
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, north, snapUp, south, west } from '../geometry.js';
import { type Access, captionWidth, createSymbolBuilder, padRadius, type Symbol } from './symbol.js';

/** A ring on which many wires end, its name inside. */
export function starSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [lug] = part.lugs;
  const wide = captionWidth(part, 120);
  const perSide = Math.ceil((lug?.ends ?? 0) / 3);
  const half = snapUp(Math.max(wide / 2 + grid, (1 + perSide) * grid));
  const tall = 2.5 * grid;
  builder.box('metal', { x: 0, y: 0, width: 2 * half, height: 2 * tall, radius: tall });
  builder.cover(0, 0, 2 * half, 2 * tall);
  const accesses: Access[] = [];
  for (let x = -half + grid; x <= half - grid; x += grid) {
    accesses.push({ x, y: -tall - grid / 2, heading: north, landing: { x, y: -tall + 5 }, cost: 0 });
    accesses.push({ x, y: tall + grid / 2, heading: south, landing: { x, y: tall - 5 }, cost: 0 });
  }
  accesses.push({ x: -half - grid, y: 0, heading: west, landing: { x: -half + 6, y: 0 }, cost: 0 });
  accesses.push({ x: half + grid, y: 0, heading: east, landing: { x: half - 6, y: 0 }, cost: 0 });
  if (lug) builder.pad(lug.id, { x: 0, y: 0 }, accesses, 'spot', tall);
  builder.caption(part, { at: { x: 0, y: 0 }, width: 120 });
  return builder.finish();
}

/** The bridge with its saddles and the one lead under it. */
export function bridgeSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [lug] = part.lugs;
  builder.box('metal', { x: 0, y: 0, width: 3 * grid, height: 8 * grid, radius: 4 });
  builder.cover(0, 0, 3 * grid, 8 * grid);
  for (let saddle = 0; saddle < 6; saddle++)
    builder.box('pole', { x: -2, y: (saddle - 2.5) * 15, width: 18, height: 9, radius: 2 });
  if (lug) builder.lug(lug, 2 * grid, 0, east);
  builder.caption(part, 'above');
  return builder.finish();
}

/** A lug with its name beside it. */
export function pointSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const [lug] = part.lugs;
  builder.circle('terminal', 0, 0, padRadius + 3);
  if (lug) builder.lug(lug, 0, 0, south, { also: [north] });
  builder.caption(part, 'right');
  return builder.finish();
}

const lineHeight = 12;

export function markSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  [10, 7, 3].forEach((half, index) =>
    builder.path('mark', [
      { x: -half, y: 4 * index },
      { x: half, y: 4 * index },
    ]),
  );
  builder.cover(0, 5, 22, 13);
  const [lug] = part.lugs;
  if (lug) builder.pad(lug.id, { x: 0, y: 0 }, [{ x: 0, y: -grid, heading: north, landing: { x: 0, y: 0 }, cost: 0 }], 'none', 1);
  part.values.forEach((line, index) => builder.around(line, 0, 20 + index * lineHeight));
  return builder.finish();
}
