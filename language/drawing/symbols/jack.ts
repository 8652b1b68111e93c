/** The open jack from behind: the ring with its tab is the sleeve, the springs reach from the hole's middle to their tabs. */
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Heading, north, type Point, south, stepOf, west } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

/** A nut and washer of 20 mm. */
const radius = 32;
const hole = 13;
const reach = 5 * grid;

/** Where each tab stands: the tip's opposite nothing else, the sleeve's on the ring. Undefined where the lugs are others than a jack's. */
function sidesOf(part: DiagramPart): ReadonlyMap<DiagramLug, Heading> | undefined {
  const free: Heading[] = [east, north];
  const sides = new Map<DiagramLug, Heading>();
  for (const lug of part.lugs) {
    const side = lug.name === 'tip' ? west : lug.name === 'sleeve' ? south : free.shift();
    if (side === undefined) return undefined;
    sides.set(lug, side);
  }
  return sides;
}

export function isJackLike(part: DiagramPart): boolean {
  return part.lugs.some((lug) => lug.name === 'sleeve') && sidesOf(part) !== undefined;
}

export function jackSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const sides = sidesOf(part) ?? new Map<DiagramLug, Heading>();
  const onSide = (side: Heading, distance: number): Point => {
    const step = stepOf(side);
    return { x: step.x * distance, y: step.y * distance };
  };
  builder.circle('metal', 0, 0, radius);
  builder.cover(0, 0, 2 * radius, 2 * radius);
  builder.circle('leaf', 0, 0, radius - 6);
  builder.circle('metal', 0, 0, radius - 11);
  builder.circle('hole', 0, 0, hole);
  for (const [lug, side] of sides) {
    const isSleeve = lug.name === 'sleeve';
    const end = onSide(side, reach);
    builder.leaf(onSide(side, isSleeve ? radius - 10 : lug.name === 'tip' ? -6 : 8), end, isSleeve ? 15 : 11);
    builder.lug(lug, end.x, end.y, side);
    const width = lugNameWidth(lug.name);
    if (side === south || side === north)
      builder.beside(lug.name, end.x, end.y, turn === 0 ? east : side === south ? east : west, 12);
    else builder.around(lug.name, end.x + Math.sign(end.x) * Math.max(0, width / 2 - 8), end.y - 16);
  }
  const at = new Map([...sides].map(([lug, side]) => [part.lugs.indexOf(lug), onSide(side, reach - 8)] as const));
  for (const contact of part.contacts) {
    const ends = contact.lugs.flatMap((lug) => at.get(lug) ?? []);
    if (ends.length > 1) builder.contact(contact.id, [ends]);
  }
  builder.caption(part, 'above');
  return builder.finish();
}
