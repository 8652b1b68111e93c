/** Lever, slide and toggle switches: the rows of lugs as the type gives them, and the frame at one end. */
import type { DiagramPart } from '../diagram/diagram.js';
import { grid, snap, snapUp, south } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';
import { addLines } from './lines.js';

const pitch = 3 * grid;

/** Lines run along the longer side of the rows, so that the lugs of a pole stand in one line. */
export function switchSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const rows = part.rows.length > 0 ? part.rows : [part.lugs.map((_, index) => index)];
  const columns = Math.max(...rows.map((row) => row.length));
  const lines =
    rows.length >= columns && columns > 0 ? Array.from({ length: columns }, (_, at) => rows.map((row) => row[at] ?? null)) : rows;
  const inRows = new Set(rows.flat());
  const others = part.lugs.filter((_, index) => !inRows.has(index));

  // The unturned part stands upright: lines run down, the frame's lugs below the first pair of them, so that the aisle behind stays open.
  const { length, middle } = addLines(builder, part, lines, { x: 0, y: 0, alongY: true });
  const centre = snap(middle);
  const room = Math.max(pitch, snapUp(Math.max(0, ...others.map((lug) => lugNameWidth(lug.name))) + 9));
  const width = others.length * room;
  if (others.length > 0) {
    builder.box('metal', { x: centre, y: length + 2 * grid, width, height: 2 * grid, radius: 4 });
    builder.cover(centre, length + 2 * grid, width, 2 * grid - 2);
  }
  others.forEach((lug, index) => {
    const x = centre + snapUp((index - (others.length - 1) / 2) * room);
    const y = length + 4 * grid;
    builder.path('tab', [
      { x, y: length + 3 * grid },
      { x, y },
    ]);
    builder.lug(lug, x, y, south);
    builder.around(lug.name, x, length + 2 * grid);
  });
  builder.caption(part, 'above');
  return builder.finish({ x: 0, y: snapUp(length / 2) });
}
