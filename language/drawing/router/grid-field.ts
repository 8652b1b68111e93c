/** The terms of a search for routes: the grid with what lies on it, gates, routes, and what everything costs. */
import type { Heading } from '../geometry.js';

/** The grid as the search sees it. Arrays are by point, row after row; the outermost points are blocked. */
export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** 1 where no wire may be. */
  readonly blocked: Uint8Array;
  /** Extra cost of a point. */
  readonly surcharge: Uint16Array;
  /** How many wires run through a point, by `point * 4 + axis`; a turn counts on both of its axes. */
  readonly wires: Uint8Array;
  /** How many wires turn at a point. */
  readonly turns: Uint8Array;
  /** How many wires run slantwise through the square to the right of a point and below it: falling at `point * 2`, rising at `point * 2 + 1`. */
  readonly squares: Uint8Array;
  /** 1 where a slant through a square would touch what its corners do not; same index. */
  readonly barred: Uint8Array;
  /** The bundle that has a lane here beside one of its wires, by `point * 4 + axis`; 0 for none. */
  readonly lanes: Uint16Array;
  /** 1 outside all cavities and channels. */
  readonly wood: Uint8Array;
  /** Free points so near to a letter that a wire passes and a run of solder, which is wider, does not. */
  readonly narrow: readonly number[];
}

/** Where a wire may begin or end: a grid point, and the heading in which it leaves the lug there. */
export interface Gate {
  readonly cell: number;
  readonly heading: Heading;
  readonly cost: number;
  /** Where the joint is, unless its lug keeps other wires off. */
  readonly tip?: number;
}

export interface Route {
  /** Grid points from the first gate to the last, neighbours next to each other. */
  readonly cells: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/** Ten to a grid step, whole numbers all: a step, a slanting one, a turn by an eighth and by a quarter; what a lane of the same bundle saves. */
export const prices = { step: 10, slant: 14, veer: 5, bend: 16, crossing: 60, lane: 2 } as const;

/** What meeting other wires costs: to share a stretch with one, to cross one; and how the wire itself is bound. */
export interface Meeting {
  readonly overlap: number;
  readonly crossing: number;
  /** True for a wire that lies in cavities and channels from end to end: no route through the wood. */
  readonly isBound?: boolean;
  /** True for a bound wire that passes a channel. */
  readonly isFar?: boolean;
  /** The bundle that the wire belongs to, whose lanes it prefers. */
  readonly bundle?: number;
  /** How often the surcharges of points are halved: where a wire would rather be short. */
  readonly ease?: number;
  /** Grid points that may be looked at; without bound where absent. */
  readonly most?: number;
}

/** The way to the next point by heading, and the square that a slant goes through. */
export function createCompass(columns: number): { readonly delta: Int32Array; readonly square: Int32Array } {
  return {
    delta: Int32Array.of(-columns, 1 - columns, 1, columns + 1, columns, columns - 1, -1, -columns - 1),
    square: Int32Array.of(0, -columns, 0, 0, 0, -1, 0, -columns - 1),
  };
}

/** Wires through a point on any axis. */
export function wiresAt(wires: Uint8Array, cell: number): number {
  const at = 4 * cell;
  return (wires[at] ?? 0) + (wires[at + 1] ?? 0) + (wires[at + 2] ?? 0) + (wires[at + 3] ?? 0);
}
