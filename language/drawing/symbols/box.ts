/** Jacks, amplifiers, tag strips and whatever has no outline of its own: a box with its lugs at the sides. */
import { itemAt } from '../../collections.js';
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, snapUp, south, west } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

const pitch = 3 * grid;

/** A jack from behind: the bush on the right, the lugs on the left, in the order given. */
export function jackSymbol(part: DiagramPart, lugs: readonly DiagramLug[]): Symbol {
  const builder = createSymbolBuilder(0);
  const height = Math.max(6 * grid, lugs.length * pitch);
  const names = nameWidth(lugs);
  const width = snapUp(names + 6.5 * grid);
  builder.box('body', { x: width / 2, y: 0, width, height, radius: 6 });
  builder.cover(width / 2, 0, width, height);
  const bush = width - 2.6 * grid;
  builder.circle('metal', bush, 0, 2.1 * grid);
  builder.circle('detail', bush, 0, 1.1 * grid);
  addSide(builder, lugs, -grid, west);
  const order = new Map(lugs.map((lug, index) => [lug.id, snapUp((index - (lugs.length - 1) / 2) * pitch)]));
  for (const contact of part.contacts) {
    const ys = contact.lugs.flatMap((lug) => order.get(itemAt(part.lugs, lug).id) ?? []);
    if (ys.length < 2) continue;
    const x = 3;
    builder.contact(contact.id, [
      ys.map((y) => ({ x, y })),
      ...ys.map((y) => [
        { x: -grid, y },
        { x, y },
      ]),
    ]);
  }
  builder.caption(part, 'above');
  return builder.finish({ x: snapUp(width / 2), y: 0 });
}

/** An amplifier stage: in on the left, out on the right, its supply below. */
export function amplifierSymbol(part: DiagramPart): Symbol {
  const inputs = part.lugs.filter((lug) => lug.name === 'in');
  const outputs = part.lugs.filter((lug) => lug.name === 'out');
  if (inputs.length !== 1 || outputs.length !== 1) return boxSymbol(part);
  const builder = createSymbolBuilder(0);
  const supply = part.lugs.filter((lug) => lug.name !== 'in' && lug.name !== 'out');
  const width = snapUp(Math.max(9 * grid, (supply.length + 1) * pitch));
  const height = 6 * grid;
  builder.box('body', { x: 0, y: 0, width, height, radius: 6 });
  builder.cover(0, 0, width, height);
  builder.path(
    'detail',
    [
      { x: -14, y: -26 },
      { x: -14, y: 6 },
      { x: 16, y: -10 },
    ],
    true,
  );
  addSide(builder, inputs, -snapUp(width / 2) - grid, west);
  addSide(builder, outputs, snapUp(width / 2) + grid, east);
  supply.forEach((lug, index) => {
    const x = snapUp((index - (supply.length - 1) / 2) * pitch);
    const y = height / 2 + grid;
    builder.lug(lug, x, y, south);
    builder.path('tab', [
      { x, y: height / 2 },
      { x, y },
    ]);
    builder.around(lug.name, x, height / 2 - 9);
  });
  builder.caption(part, 'above');
  return builder.finish();
}

/** Lugs in one column that is reached from both sides. */
export function stripSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const names = nameWidth(part.lugs);
  builder.box('wafer', {
    x: 0,
    y: ((part.lugs.length - 1) * pitch) / 2,
    width: 2 * grid + 2,
    height: (part.lugs.length - 1) * pitch + 3 * grid,
    radius: 5,
  });
  part.lugs.forEach((lug, index) => {
    const y = index * pitch;
    builder.lug(lug, 0, y, west, { also: [east] });
    builder.around(lug.name, 0, y + pitch / 2);
  });
  builder.caption(part, names > 0 ? 'above' : 'right');
  return builder.finish();
}

/** Half of the lugs on each side. */
export function boxSymbol(part: DiagramPart): Symbol {
  const builder = createSymbolBuilder(0);
  const half = Math.ceil(part.lugs.length / 2);
  const [left, right] = [part.lugs.slice(0, half), part.lugs.slice(half)];
  const width = 2 * snapUp(Math.max(3 * grid, nameWidth(left) + 10, nameWidth(right) + 10));
  const height = Math.max(3 * grid, half * pitch);
  builder.box('body', { x: 0, y: 0, width, height, radius: 6 });
  builder.cover(0, 0, width, height);
  addSide(builder, left, -width / 2 - grid, west);
  addSide(builder, right, width / 2 + grid, east);
  builder.caption(part, 'above');
  return builder.finish();
}

function addSide(builder: SymbolBuilder, lugs: readonly DiagramLug[], x: number, side: typeof west | typeof east): void {
  const inward = side === west ? 1 : -1;
  lugs.forEach((lug, index) => {
    const y = snapUp((index - (lugs.length - 1) / 2) * pitch);
    builder.path('tab', [
      { x: x + inward * grid, y },
      { x, y },
    ]);
    builder.lug(lug, x, y, side);
    builder.beside(lug.name, x + inward * grid, y, side === west ? east : west, 6);
  });
}

function nameWidth(lugs: readonly DiagramLug[]): number {
  return Math.max(0, ...lugs.map((lug) => lugNameWidth(lug.name)));
}
