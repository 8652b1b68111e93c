/** The ties of screens, which begin on a wire; laid last, when that wire lies for good. */
import type { Diagram } from '../diagram/diagram.js';
import { pairwise } from '../../collections.js';
import { headings, type Point } from '../geometry.js';
import { gatesOf } from './gates.js';
import { prices, wiresAt, type Gate } from './grid-field.js';
import type { LaidWires } from './pairs.js';
import { findRoute, lay, type Laying, type RouteTask } from './route.js';

/** Where a tie may begin: the grid point beside its wire, and the point on the wire itself. */
export interface TieStart extends Gate {
  readonly landing: Point;
}

export interface Tie extends RouteTask {
  readonly from: readonly TieStart[];
}

/** Lays the ties of a diagram; one without a route is left out. `isBound` is true for a wire that lies in cavities and channels. */
export function layTies(
  { field, search, routes, frame, pads }: LaidWires & Laying,
  diagram: Diagram,
  isBound: (wire: string) => boolean,
): readonly Tie[] {
  return diagram.runs.flatMap((run): Tie[] => {
    const [cells, pad] = [routes.get(run.from)?.cells, pads.get(run.to)];
    if (run.kind !== 'screen' || !cells || !pad) return [];
    const from: TieStart[] = [];
    // A tie leaves its wire sidewise at any straight point.
    for (const [[before, cell], [, after]] of pairwise(pairwise(cells))) {
      if (after - cell !== cell - before || wiresAt(field.wires, cell) !== 1) continue;
      for (const heading of headings) {
        const next = frame.neighbour(cell, heading);
        if (next === undefined) continue;
        if (isSquare(frame.pointAt(cell), frame.pointAt(after), frame.pointAt(next)))
          from.push({ cell: next, heading, cost: 0, tip: cell, landing: frame.pointAt(cell) });
      }
    }
    const tie: Tie = {
      id: run.id,
      from,
      to: gatesOf(frame, pad),
      lugs: [run.from, run.to],
      order: 0,
      // In an instrument without cavities a bound way may begin and end at one point, on another wire: it is no way to prefer.
      isBound: isBound(run.from),
      isFar: false,
      isWide: false,
      isJumper: false,
    };
    lay(field, routes, tie, findRoute(field, search, tie, { overlap: 4000, crossing: prices.crossing }));
    return routes.has(tie.id) ? [tie] : [];
  });
}

/** Whether a point lies at a right angle from a stretch. */
function isSquare(at: Point, after: Point, beside: Point): boolean {
  return (after.x - at.x) * (beside.x - at.x) + (after.y - at.y) * (beside.y - at.y) === 0;
}
