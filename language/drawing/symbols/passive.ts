/** Parts with two leads, their bodies at their sizes, and the battery with its clip. */
import type { DiagramPart } from '../diagram/diagram.js';
import { grid, east, west, type Point } from '../geometry.js';
import { createSymbolBuilder, lugNameWidth, type Symbol, type SymbolBuilder } from './symbol.js';

const reach = 4 * grid;

/** Length and thickness of the bodies: 10 × 5 mm for a film capacitor, 6 × 2.3 mm for a resistor of a quarter watt, about the same for a diode, 5 mm for an LED; common practice. */
const bodies: Readonly<Partial<Record<DiagramPart['kind'], readonly [number, number]>>> = {
  capacitor: [32, 18],
  electrolytic: [36, 20],
  resistor: [22, 10],
  inductor: [36, 18],
  diode: [22, 10],
  led: [18, 18],
};
const otherBody = [36, 20] as const;

export function twoLeadSymbol(part: DiagramPart, turn: number): Symbol {
  const builder = createSymbolBuilder(turn);
  const [length, thickness] = bodies[part.kind] ?? otherBody;
  for (const sign of [-1, 1]) {
    builder.path('lead', [
      { x: (sign * length) / 2, y: 0 },
      { x: sign * reach, y: 0 },
    ]);
  }
  builder.cover(0, 0, length, thickness);
  drawBody(builder, part.kind, { x: 0, y: 0 });
  part.lugs.slice(0, 2).forEach((lug, index) => {
    const side = index === 0 ? -1 : 1;
    builder.lug(lug, side * reach, 0, side === -1 ? west : east, { radius: 4 });
    const name = nameOfLead(part, lug.name);
    if (name !== '') builder.around(name, side * (length / 2 + 8 + lugNameWidth(name) / 4), turn === 1 || turn === 2 ? 11 : -11);
  });
  builder.caption(part, turn % 2 === 0 ? 'above' : 'right');
  return builder.finish();
}

/** Which way round it goes is said where it matters. */
function nameOfLead({ kind }: DiagramPart, name: string): string {
  if (kind === 'electrolytic' || kind === 'battery') return name === 'plus' ? '+' : name === 'minus' ? '−' : name;
  // The letters of anode and cathode in data sheets.
  if (kind === 'diode' || kind === 'led') return name === 'anode' ? 'A' : name === 'cathode' ? 'K' : name;
  return name === 'a' || name === 'b' ? '' : name;
}

/** The body alone, around a point. */
export function drawBody(builder: SymbolBuilder, kind: DiagramPart['kind'], { x, y }: Point): void {
  const [width, height] = bodies[kind] ?? otherBody;
  const bands = (places: readonly number[]): void => {
    for (const place of places) {
      builder.path('detail', [
        { x: x + place, y: y - height / 2 },
        { x: x + place, y: y + height / 2 },
      ]);
    }
  };
  switch (kind) {
    case 'capacitor':
      return builder.box('film', { x, y, width, height, radius: 5 });
    case 'electrolytic':
      builder.box('film', { x, y, width, height, radius: 4 });
      return builder.box('bobbin', { x: x + width / 2 - 6, y, width: 7, height: height - 2, radius: 0 });
    case 'resistor':
      builder.box('film', { x, y, width, height, radius: 4 });
      return bands([-6, -2, 2, 7]);
    case 'inductor':
      builder.box('film', { x, y, width, height, radius: 2 });
      return bands([-12, -6, 0, 6, 12]);
    case 'diode':
      // The band is at the cathode.
      builder.box('bobbin', { x, y, width, height, radius: 2 });
      return builder.box('body', { x: x + width / 2 - 5, y, width: 4, height: height - 2, radius: 0 });
    case 'led':
      builder.circle('film', x, y, width / 2);
      // The rim is cut off at the cathode.
      return builder.path('detail', [
        { x: x + 6, y: y - 6 },
        { x: x + 6, y: y + 6 },
      ]);
    default:
      return builder.box('body', { x, y, width, height, radius: 4 });
  }
}

/** A block of 48 × 26 mm with its snap clip at one end. */
export function batterySymbol(part: DiagramPart, turn: number): Symbol {
  if (part.lugs.length !== 2) return twoLeadSymbol(part, turn);
  const builder = createSymbolBuilder(turn);
  const [length, width] = [154, 84];
  const clip = length / 2 + 8;
  builder.box('body', { x: 0, y: 0, width: length, height: width, radius: 5 });
  builder.cover(0, 0, length + 32, width);
  builder.box('bobbin', { x: clip, y: 0, width: 16, height: width - 12, radius: 3 });
  part.lugs.forEach((lug, index) => {
    const y = (index === 0 ? -2 : 2) * grid;
    builder.circle('pole', clip, y, index === 0 ? 5 : 7);
    builder.path('lead', [
      { x: clip, y },
      { x: 11 * grid, y },
    ]);
    builder.lug(lug, 11 * grid, y, east, { radius: 4 });
    builder.around(nameOfLead(part, lug.name), length / 2 - 12, y);
  });
  builder.caption(part, { at: { x: -6, y: 0 }, width: length - 50 });
  return builder.finish();
}
