/** From settled routes to wires with their bends. */
import type { Diagram, DiagramRun } from '../diagram/diagram.js';
import { itemAt, valueFor } from '../../collections.js';
import type { Box, Point } from '../geometry.js';
import type { PlacedSymbol } from '../placed.js';
import type { Session } from './session.js';
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
  const ties = diagram.runs.flatMap((run) => (run.kind === 'screen' ? tieOf(session, run) : []));
  return {
    wires: straightened([...wires, ...ties], session, placed, labels),
    crowded: session.crowded(),
    astray: session.astray(),
  };
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

/** A screen's tie begins on its wire. */
function tieOf(session: Session, run: DiagramRun): RoutedWire[] {
  const { frame } = session;
  const [starts, route, pad] = [session.ties().get(run.id), session.routes().get(run.id), session.pads().get(run.to)];
  if (!starts || !route || !pad) return [];
  const [start, end] = [itemAt(starts, route.from), itemAt(pad.accesses, route.to)];
  return [{ run, points: bendsOf([start.landing, ...route.cells.map(frame.pointAt), end.landing]) }];
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
