/** Routes for all wires together: each takes the cheapest route beside the others, and the costly ones are removed and routed again. */
import { pairwise } from '../../collections.js';
import { createCompass, prices, wiresAt, type Field, type Gate, type Meeting, type Search, type Route } from './search.js';

export interface RouteTask {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
  /** True for such a wire that passes a channel. */
  readonly isFar: boolean;
  /** Wires of one bundle have the same number. */
  readonly bundle?: number;
}

const softOverlap = 500;
const mostRounds = 3;
/** Grid points that may be looked at for a wire that is laid again: what takes more has hardly a free way. */
const stepsAgain = 20_000;
/** And for all that are laid again, for each wire of the drawing. */
const stepsPerWire = 4000;

/** Lays the tasks, then takes up those that share a stretch and lays them again, a few rounds; the round with the fewest clashes counts. */
export function settle(field: Field, search: Search, tasks: readonly RouteTask[], routes: Map<string, Route>): void {
  const sorted = inOrder(tasks);
  const put = (task: RouteTask, route: Route | undefined): void => {
    const before = routes.get(task.id);
    if (before) markTask(field, task, before, -1);
    routes.delete(task.id);
    if (!route) return;
    markTask(field, task, route, 1);
    routes.set(task.id, route);
  };
  const findClashing = (): readonly RouteTask[] => sorted.filter((task) => clashes(field, routes.get(task.id)));
  const meeting = { overlap: softOverlap, crossing: prices.crossing };
  for (const task of sorted) put(task, findRoute(field, search, task, meeting));
  const end = search.steps() + stepsPerWire * sorted.length;
  let clashing = findClashing();
  let best = { clashes: clashing.length, routes: new Map(routes) };
  for (let round = 1; round <= mostRounds && clashing.length > 0 && search.steps() < end; round++) {
    const overlap = softOverlap * 2 ** round;
    for (const task of clashing) {
      if (search.steps() > end) break;
      const before = routes.get(task.id);
      for (const cell of clashCells(field, before)) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + 24;
      put(task, undefined);
      put(task, findRoute(field, search, task, { ...meeting, overlap, most: stepsAgain }) ?? before);
    }
    clashing = findClashing();
    if (clashing.length < best.clashes) best = { clashes: clashing.length, routes: new Map(routes) };
  }
  for (const task of sorted) if (best.routes.get(task.id) !== routes.get(task.id)) put(task, best.routes.get(task.id));
}

/** A bound wire leaves its channel only where there is no route in it. */
function findRoute(
  field: Field,
  search: Search,
  { from, to, isBound, isFar, bundle }: RouteTask,
  others: Meeting,
): Route | undefined {
  const meeting = bundle === undefined ? others : { ...others, bundle };
  return (
    search.find(field, from, to, { ...meeting, isBound, isFar }) ?? (isBound ? search.find(field, from, to, meeting) : undefined)
  );
}

function inOrder(tasks: readonly RouteTask[]): RouteTask[] {
  return [...tasks].sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
}

/** Counts a wire in or out of the field, with its joints. */
export function markTask(field: Field, { from, to, bundle }: RouteTask, route: Route, by: 1 | -1): void {
  mark(field, route, by, bundle);
  for (const tip of [from[route.from]?.tip, to[route.to]?.tip]) {
    if (tip !== undefined) markAll(field.wires, tip, by);
  }
}

/** Counts a route in or out of the field, and opens the lanes beside it to its bundle. */
export function mark(field: Field, route: Route, by: 1 | -1, bundle?: number): void {
  const { wires, squares, lanes, columns } = field;
  forEachPoint(field, route, (cell, one, other) => {
    if (other < 0) return markAll(wires, cell, by);
    wires[4 * cell + one] = (wires[4 * cell + one] ?? 0) + by;
    if (other !== one) wires[4 * cell + other] = (wires[4 * cell + other] ?? 0) + by;
    if (bundle === undefined || one !== other) return;
    for (const beside of lanesBeside(columns, one)) lanes[4 * (cell + beside) + one] = bundle;
  });
  forEachSquare(field, route, (square) => void (squares[square] = (squares[square] ?? 0) + by));
}

/** Takes a point for one wire alone. */
function markAll(wires: Uint8Array, cell: number, by: 1 | -1): void {
  for (let lane = 4 * cell; lane < 4 * cell + 4; lane++) wires[lane] = (wires[lane] ?? 0) + by;
}

/** From a point to those of the neighbouring lines of an axis. */
function lanesBeside(columns: number, axis: number): readonly number[] {
  if (axis === 0) return [-1, 1];
  if (axis === 2) return [-columns, columns];
  return [-1, 1, -columns, columns];
}

/** True where a route shares a stretch or a turn with another, or is missing. */
export function clashes(field: Field, route: Route | undefined): boolean {
  return route === undefined || clashCells(field, route).length > 0;
}

/** The same, but for the points next to its lugs: where more wires come than a lug has sides, two share one. */
export function isCrowded(field: Field, route: Route | undefined): boolean {
  return route === undefined || clashCells(field, route).some((cell) => cell !== route.cells[0] && cell !== route.cells.at(-1));
}

function clashCells(field: Field, route: Route | undefined): number[] {
  const found: number[] = [];
  if (route) forEachPoint(field, route, (cell, one, other) => void (isClash(field, cell, one, other) && found.push(cell)));
  return found;
}

/** A wire that goes straight on shares its axis with another, one that turns or ends meets any. */
function isClash({ wires }: Field, cell: number, one: number, other: number): boolean {
  if (other < 0) return wiresAt(wires, cell) > 4;
  return one === other ? (wires[4 * cell + one] ?? 0) > 1 : wiresAt(wires, cell) > 2;
}

/** Calls back for each grid point of a route with the axes by which it comes and goes; its two ends, which are its own, with −1. */
function forEachPoint({ columns }: Field, { cells }: Route, visit: (cell: number, one: number, other: number) => void): void {
  cells.forEach((cell, index) => {
    const before = cells[index - 1];
    const after = cells[index + 1];
    if (before !== undefined && after !== undefined) {
      visit(cell, headingOf(columns, cell - before) & 3, headingOf(columns, after - cell) & 3);
    } else {
      visit(cell, -1, -1);
    }
  });
}

/** Calls back for each square that a route passes slantwise. */
function forEachSquare({ columns }: Field, { cells }: Route, visit: (square: number) => void): void {
  const { square } = createCompass(columns);
  for (const [before, cell] of pairwise(cells)) {
    const heading = headingOf(columns, cell - before);
    if (heading % 2 === 1) visit(2 * (before + (square[heading] ?? 0)) + ((heading & 3) === 1 ? 1 : 0));
  }
}

/** The heading of a step between neighbours. */
function headingOf(columns: number, step: number): number {
  if (step === 1) return 2;
  if (step === -1) return 6;
  if (step < 0) return step === -columns ? 0 : step === 1 - columns ? 1 : 7;
  return step === columns ? 4 : step === columns + 1 ? 3 : 5;
}
