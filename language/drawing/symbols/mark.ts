/** A ground mark: three bars at the end of a stub, and below them where the wire goes. */
import type { DiagramPart } from '../diagram.js';
import { grid, north } from '../geometry.js';
import { createSymbolBuilder, type Symbol } from '../symbol.js';

const lineHeight = 12;

export function markSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  [10, 7, 3].forEach((half, index) =>
    builder.path('mark', [
      { x: -half, y: 4 * index },
      { x: half, y: 4 * index },
    ]),
  );
  builder.keepOut(0, 5, 22, 13);
  const [lug] = part.lugs;
  if (lug) builder.pad(lug.id, 0, 0, [{ x: 0, y: -grid, heading: north, landing: { x: 0, y: 0 }, cost: 0 }], 'none', 1);
  part.values.forEach((line, index) => builder.around(line, 0, 20 + index * lineHeight));
  return builder.finish();
}
