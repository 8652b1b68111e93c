/** Pickups: the coil with its poles, upright, and its leads coming out on one side. */
import type { DiagramLug, DiagramPart } from '../diagram.js';
import { east, grid, snapUp } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from '../symbol.js';

const leadPitch = 2 * grid;
const bobbin = 2 * grid;

/** The leads in the order given: they are flexible, so any order is true. */
export function pickupSymbol(part: DiagramPart, lugs: readonly DiagramLug[]): Symbol {
  const builder = createSymbolBuilder(0);
  const coils = part.kind === 'humbucker' ? 2 : 1;
  const names = Math.max(...lugs.map((lug) => lugNameWidth(lug.name)));
  const height = Math.max(9 * grid, (lugs.length + 1) * leadPitch);
  const coilsWidth = coils * bobbin + grid;
  const width = snapUp(coilsWidth + names + 2 * grid);
  builder.box('body', width / 2, 0, width, height, 10);
  builder.keepOut(width / 2, 0, width, height);
  for (let coil = 0; coil < coils; coil++) {
    const x = grid + coil * bobbin + bobbin / 2 - 4;
    builder.box('bobbin', x, 0, bobbin - 5, height - 14, (bobbin - 5) / 2);
    for (let pole = 0; pole < 6; pole++) builder.circle('pole', x, (pole - 2.5) * ((height - 36) / 5), 3.2);
  }
  lugs.forEach((lug, index) => {
    const y = snapUp((index - (lugs.length - 1) / 2) * leadPitch);
    builder.lug(lug, width + grid, y, east);
    builder.path('detail', [
      { x: width, y },
      { x: width + grid - 7, y },
    ]);
    builder.beside(lug.name, width, y, 3, 6);
  });
  builder.caption(part, 'above');
  return builder.finish({ x: snapUp(width / 2), y: 0 });
}
