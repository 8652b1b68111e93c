/** Amplifiers, tag strips and whatever has no special outline: a box with its lugs at the sides. */
import type { DiagramLug, DiagramPart } from '../diagram/diagram.js';
import { east, grid, snapUp, south, west } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

const pitch = 3 * grid;

/** An amplifier stage on a small board: in on the left, out on the right, its supply below. */
export function amplifierSymbol(part: DiagramPart): Symbol {
  const inputs = part.lugs.filter((lug) => lug.name === 'in');
  const outputs = part.lugs.filter((lug) => lug.name === 'out');
  if (inputs.length !== 1 || outputs.length !== 1) return boxSymbol(part);
  const builder = createSymbolBuilder(0);
  const supply = part.lugs.filter((lug) => lug.name !== 'in' && lug.name !== 'out');
  const width = snapUp(Math.max(11 * grid, (supply.length + 1) * pitch));
  const height = 8 * grid;
  builder.box('board', { x: 0, y: 0, width, height, radius: 4 });
  builder.cover(0, 0, width, height);
  // A chip of eight legs.
  for (const x of [-12, -4, 4, 12])
    for (const sign of [-1, 1]) builder.box('pole', { x, y: -8 + sign * 10, width: 3, height: 6, radius: 0 });
  builder.box('bobbin', { x: 0, y: -8, width: 32, height: 16, radius: 2 });
  addSide(builder, inputs, -snapUp(width / 2) - grid, west);
  addSide(builder, outputs, snapUp(width / 2) + grid, east);
  supply.forEach((lug, index) => {
    const x = snapUp((index - (supply.length - 1) / 2) * pitch);
    const y = height / 2 + grid;
    builder.lug(lug, x, y, south);
    builder.leaf({ x, y: height / 2 - 2 }, { x, y }, 10);
    builder.around(supplyName(lug.name), x, height / 2 - 11);
  });
  builder.caption(part, 'above');
  return builder.finish();
}

/** Tags in a row on a strip of board, their names on the board. */
export function stripSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const width = snapUp(nameWidth(part.lugs) + 12);
  const length = (part.lugs.length - 1) * pitch;
  const board = { x: width / 2 + 4, y: length / 2, width, height: length + 2.4 * grid };
  builder.box('wafer', { ...board, radius: 3 });
  builder.cover(board.x, board.y, board.width, board.height);
  part.lugs.forEach((lug, index) => {
    const y = index * pitch;
    builder.leaf({ x: 10, y }, { x: 0, y }, 12);
    builder.lug(lug, 0, y, west);
    builder.around(lug.name, board.x + 3, y);
  });
  builder.caption(part, 'above');
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
    builder.leaf({ x: x + inward * (grid + 2), y }, { x, y }, 10);
    builder.lug(lug, x, y, side);
    builder.beside(lug.name, x + inward * grid, y, side === west ? east : west, 6);
  });
}

function supplyName(name: string): string {
  return name === 'plus' ? '+' : name === 'minus' ? '−' : name;
}

function nameWidth(lugs: readonly DiagramLug[]): number {
  return Math.max(0, ...lugs.map((lug) => lugNameWidth(lug.name)));
}
