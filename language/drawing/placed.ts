/** Symbols where they lie, and about what a wire between two of their lugs will cost. */
import type { DiagramPart } from './diagram/diagram.js';
import { type Box, grid, joinBoxes, type Point, stepOf } from './geometry.js';
import { movePad, type Access, type Pad, type Symbol } from './symbols/symbol.js';

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

/** About what a wire between two lugs will cost, in grid steps: its length, and bends where a lug faces away. `offset` moves the first lug. */
export function linkCost(from: readonly Access[], to: readonly Access[], offset: Point = origin): number {
  let best = Infinity;
  for (const a of from) {
    for (const b of to) {
      const cost = pairCost(a, b, b.x - a.x - offset.x, b.y - a.y - offset.y);
      if (cost < best) best = cost;
    }
  }
  return best;
}

/** Where a wire leaves a lug: on the side that is open; a larger piece of metal is open all round. */
export function middleOf(pad: Pad): Point {
  return pad.look === 'spot' ? pad : (pad.accesses[0] ?? pad);
}

const origin = { x: 0, y: 0 };

function pairCost(a: Access, b: Access, dx: number, dy: number): number {
  const bend = dx !== 0 && dy !== 0 ? 4 : 0;
  return (Math.abs(dx) + Math.abs(dy)) / grid + bend + a.cost + b.cost + awayCost(a, dx, dy) + awayCost(b, -dx, -dy);
}

/** For a lug whose wire has to turn round, or aside, before it can go where it should. */
function awayCost(access: Access, x: number, y: number): number {
  const step = stepOf(access.heading);
  const ahead = x * step.x + y * step.y;
  const aside = Math.abs(x * step.y - y * step.x);
  return ahead < 0 ? 10 : aside > 0 && ahead === 0 ? 5 : 0;
}
