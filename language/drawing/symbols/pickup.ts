/** Pickups: the coil with its poles, upright, and its leads coming out on one side. */
import { itemAt } from '../../collections.js';
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, snapUp } from '../geometry.js';
import type { Label } from '../shape.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

const leadPitch = 2 * grid;
const bobbin = 2 * grid;

/** Leads are flexible, so every order of them is true: the natural one first, all orders of up to five, turns of the row for more. */
export function pickupSymbols(part: DiagramPart): Symbol[] {
  const first = pickupSymbol(part, part.lugs);
  // A lead that takes many wires is drawn longer, and then its place is its own.
  if (part.lugs.some((lug) => lug.ends > 3)) return [first];
  const slots = part.lugs.map((_, index) => index);
  return (slots.length <= 5 ? permutations(slots) : rotations(slots)).map((order) => reordered(first, part, order));
}

/** The same outline with the leads changed about: slot i bears the lug order[i]. */
function reordered(symbol: Symbol, part: DiagramPart, order: readonly number[]): Symbol {
  const labels = symbol.labels.filter((label) => label.role === 'lug');
  const moved = order.map((lug, slot): Label => {
    const [own, there] = [itemAt(labels, lug), itemAt(labels, slot)];
    return { ...own, x: there.x + there.width - own.width, y: there.y + (there.height - own.height) / 2 };
  });
  return {
    ...symbol,
    pads: symbol.pads.map((pad, slot) => ({ ...pad, lug: itemAt(part.lugs, itemAt(order, slot)).id })),
    labels: [...symbol.labels.filter((label) => label.role !== 'lug'), ...moved],
  };
}

function permutations(items: readonly number[]): number[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((first, index) =>
    permutations(items.filter((_, other) => other !== index)).map((rest) => [first, ...rest]),
  );
}

function rotations(items: readonly number[]): number[][] {
  const turns = (row: readonly number[]): number[][] => row.map((_, index) => [...row.slice(index), ...row.slice(0, index)]);
  return [...turns(items), ...turns([...items].reverse())];
}

function pickupSymbol(part: DiagramPart, lugs: readonly DiagramLug[]): Symbol {
  const builder = createSymbolBuilder(0);
  const coils = part.kind === 'humbucker' ? 2 : 1;
  const names = Math.max(...lugs.map((lug) => lugNameWidth(lug.name)));
  const height = Math.max(9 * grid, (lugs.length + 1) * leadPitch);
  const coilsWidth = coils * bobbin + grid;
  const width = snapUp(coilsWidth + names + 2 * grid);
  builder.box('body', { x: width / 2, y: 0, width, height, radius: 10 });
  builder.cover(width / 2, 0, width, height);
  for (let coil = 0; coil < coils; coil++) {
    const x = grid + coil * bobbin + bobbin / 2 - 4;
    builder.box('bobbin', { x, y: 0, width: bobbin - 5, height: height - 14, radius: (bobbin - 5) / 2 });
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
