/** Lever switches from behind: a long frame with its wafers, lugs as tabs along their sides, the frame's lug at one end. */
import { itemAt } from '../../collections.js';
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Point, snap, snapUp, south, west } from '../geometry.js';
import { addContacts } from './contacts.js';
import { createSymbolBuilder, lugNameWidth, type Symbol } from './symbol.js';

/** From the middle of the first and last lug to the ends of the frame: with four lugs a frame of 59 mm. */
const frameEnd = 34;
/** Between the lugs of two wafers, for the wires that come to them. */
const aisle = 5 * grid;
/** Between the names of a wafer's two sides, for jumpers across its back. */
const lane = 2.6 * grid;

export function leverSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const rows = part.rows.length > 0 ? part.rows : [part.lugs.map((_, index) => index)];
  const count = Math.max(...rows.map((row) => row.length));
  const pitch = count > 4 ? 3 * grid : 4 * grid;
  const length = (count - 1) * pitch;
  const inRows = new Set(rows.flat());
  const others = part.lugs.filter((_, index) => !inRows.has(index));
  const widest = Math.max(0, ...[...inRows].map((index) => (index === null ? 0 : lugNameWidth(itemAt(part.lugs, index).name))));
  const across = 2 * snapUp((lane + 2 * widest + 20) / 2);
  const wafers = Math.ceil(rows.length / 2);
  const width = wafers * across + (wafers - 1) * aisle - 6;
  const middle = snap(((wafers - 1) * (across + aisle)) / 2);
  builder.box('metal', { x: middle, y: length / 2, width, height: length + 2 * frameEnd, radius: 6 });
  builder.cover(middle, length / 2, width, length + 2 * frameEnd);

  rows.forEach((row, rowIndex) => {
    const centre = Math.floor(rowIndex / 2) * (across + aisle);
    const sign = rowIndex % 2 === 0 ? -1 : 1;
    if (sign < 0) builder.box('wafer', { x: centre, y: length / 2, width: across - 26, height: length + 26, radius: 4 });
    const places = new Map<number, Point>();
    row.forEach((index, slot) => {
      if (index === null) return;
      const lug = itemAt(part.lugs, index);
      const place = { x: centre + (sign * across) / 2, y: slot * pitch };
      const root = { x: place.x - sign * (widest + 12), y: place.y };
      places.set(index, root);
      builder.leaf(root, place, 13);
      builder.lug(lug, place.x, place.y, sign < 0 ? west : east);
      builder.around(lug.name, place.x - sign * (9 + widest / 2), place.y);
    });
    addContacts(builder, part, places, centre, 0.5);
  });
  others.forEach((lug, index) => {
    const x = middle + snapUp((index - (others.length - 1) / 2) * 5 * grid);
    const y = length + snapUp(frameEnd + 12);
    builder.leaf({ x, y: length + frameEnd - 4 }, { x, y }, 13);
    builder.lug(lug, x, y, south);
    builder.beside(lug.name, x, y, east, 11);
  });
  if (part.handle) {
    builder.note(`handle here: ${part.handle.begin}`, middle, -frameEnd + 9);
    builder.note(`handle here: ${part.handle.end}`, middle, length + frameEnd - 9);
  }
  builder.caption(part, 'above');
  return builder.finish({ x: middle, y: snapUp(length / 2) });
}
