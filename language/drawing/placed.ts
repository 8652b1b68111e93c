/** Symbols where they lie. */
import type { DiagramPart } from './diagram/diagram.js';
import { type Box, joinBoxes, type Point } from './geometry.js';
import { movePad, type Pad, type Symbol } from './symbols/symbol.js';

export interface PlacedSymbol extends Point {
  readonly part: DiagramPart;
  readonly symbol: Symbol;
}

export function boundsOf(symbols: readonly PlacedSymbol[]): Box {
  return joinBoxes(symbols.map(({ x, y, symbol }) => ({ x, y, width: symbol.width, height: symbol.height })));
}

/** The lugs' pads where the symbol lies. */
export function placedPads(placed: PlacedSymbol): readonly Pad[] {
  return placed.symbol.pads.map((pad) => movePad(pad, placed));
}
