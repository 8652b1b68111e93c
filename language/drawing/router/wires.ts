/** From settled routes to wires with their bends, and the ties of screens, which begin on a wire. */
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import { itemAt, pairwise, valueFor } from '../../collections.js';
import { type Box, headings, type Point } from '../geometry.js';
import { mark } from './marks.js';
import { prices, wiresAt, type Gate } from './grid-field.js';
import { createSearch, type Search } from './search.js';
import type { PlacedSymbol } from '../placed.js';
import { gatesOf, type Session } from './session.js';
import { straighten, type Pull } from './straighten.js';

export interface RoutedWire {
  readonly run: DiagramRun;
  /** From landing to landing, all bends, no point on a straight stretch. */
  readonly points: readonly Point[];
}

export interface RoutedWires {
  readonly wires: readonly RoutedWire[];
  /** Wires that found no free route. */
  readonly crowded: readonly string[];
  /** Wires that found no route through their channels. */
  readonly astray: readonly string[];
}

export function wiresOf(
  diagram: Diagram,
  session: Session,
  placed: readonly PlacedSymbol[],
  labels: readonly Box[],
): RoutedWires {
  const { frame } = session;
  const routes = session.routes();
  const pads = session.pads();
  const wires = diagram.runs.flatMap((run): RoutedWire[] => {
    const [a, b] = [pads.get(run.from), pads.get(run.to)];
    if (run.kind === 'screen' || !a || !b) return [];
    const route = routes.get(run.id);
    // A wire without a route is still a wire: a straight line from lug to lug is better than none.
    if (!route) return [{ run, points: [position(a), position(b)] }];
    const [start, end] = [itemAt(a.accesses, route.from), itemAt(b.accesses, route.to)];
    return [{ run, points: bendsOf([start.landing, ...route.cells.map(frame.pointAt), end.landing]) }];
  });
  const crowded = session.crowded();
  const screens = diagram.runs.filter((run) => run.kind === 'screen');
  // A search needs much memory: none is made for nothing.
  const search = screens.length === 0 ? undefined : createSearch(frame.columns, frame.rows);
  const ties = search === undefined ? [] : screens.flatMap((run) => tieScreen(session, search, run));
  return { wires: straightened([...wires, ...ties], session, placed, labels), crowded, astray: session.astray() };
}

function straightened(
  wires: readonly RoutedWire[],
  session: Session,
  placed: readonly PlacedSymbol[],
  labels: readonly Box[],
): RoutedWire[] {
  const tied = new Set(wires.filter(({ run }) => run.kind === 'screen').map(({ run }) => run.from));
  const partOf = new Map(placed.flatMap(({ part, symbol }) => symbol.pads.map(({ lug }) => [lug, part.id] as const)));
  const isSpot = (lug: string): boolean => session.pads().get(lug)?.look === 'spot';
  const pulls = wires.map(({ run, points }): Pull => ({
    id: run.id,
    points,
    isTaut:
      run.kind !== 'wire' || run.bare || partOf.get(run.from) === partOf.get(run.to) || (isSpot(run.from) && isSpot(run.to)),
    isBound: session.isBound(run.id),
    isFixed: run.kind === 'screen' || tied.has(run.id),
  }));
  const lines = straighten(pulls, placed, labels, session.frame, session.field());
  return wires.map(({ run }) => ({ run, points: valueFor(lines, run.id) }));
}

/** A screen's tie leaves its wire sidewise at any straight point; laid last, when that wire lies for good. */
function tieScreen(session: Session, search: Search, run: DiagramRun): RoutedWire[] {
  const { frame } = session;
  const field = session.field();
  const route = session.routes().get(run.from);
  const pad = session.pads().get(run.to);
  if (!route || !pad) return [];
  const starts: (Gate & { readonly landing: Point })[] = [];
  for (const [[before, cell], [, after]] of pairwise(pairwise(route.cells))) {
    if (after - cell !== cell - before || wiresAt(field.wires, cell) !== 1) continue;
    for (const heading of headings) {
      const next = frame.neighbour(cell, heading);
      if (next === undefined) continue;
      if (isSquare(frame.pointAt(cell), frame.pointAt(after), frame.pointAt(next)))
        starts.push({ cell: next, heading, cost: 0, landing: frame.pointAt(cell) });
    }
  }
  const to = gatesOf(frame, pad);
  const meeting = { overlap: 4000, crossing: prices.crossing };
  // In an instrument without cavities a bound way may begin and end at one point, on another wire: it is no way to prefer.
  const bound = session.isBound(run.from) ? search.find(field, starts, to, { ...meeting, isBound: true }) : undefined;
  const found = bound ?? search.find(field, starts, to, meeting);
  if (!found) return [];
  mark(field, found, 1);
  const [start, end] = [itemAt(starts, found.from), itemAt(pad.accesses, found.to)];
  return [{ run, points: bendsOf([start.landing, ...found.cells.map(frame.pointAt), end.landing]) }];
}

/** Whether a point lies at a right angle from a stretch. */
function isSquare(at: Point, after: Point, beside: Point): boolean {
  return (after.x - at.x) * (beside.x - at.x) + (after.y - at.y) * (beside.y - at.y) === 0;
}

function position({ x, y }: Point): Point {
  return { x, y };
}

/** Only the ends and the bends. */
function bendsOf(points: readonly Point[]): Point[] {
  return points.filter((point, index) => {
    const [before, after] = [points[index - 1], points[index + 1]];
    if (!before || !after) return true;
    return (point.x - before.x) * (after.y - point.y) !== (point.y - before.y) * (after.x - point.x);
  });
}
