/** Routes for all wires together: each takes the cheapest route beside the others, and the costly ones are removed and routed again. */
import { itemAt, pairwise } from '../../collections.js';
import { createCompass, isCrossed, prices, turnPrice, wiresAt, type Field, type Gate, type Meeting, type Search, type Route } from './search.js';

export interface RouteTask {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
  /** Wires of one bundle have the same number. */
  readonly bundle?: number;
}

const softOverlap = 1000;
/** Sums stay within what the search distinguishes. */
const mostOverlap = 6000;
const mostRounds = 5;
/** Grid points that may be looked at before wires are no longer taken up and laid again; no instrument comes near. */
const mostSteps = 5_000_000;

/**
 * Lays the tasks that have no route yet, then lays those that cross or clash again, at most so many rounds, while that changes any.
 * Clashes get the rounds that they need in any case.
 */
export function settle(
  field: Field,
  search: Search,
  tasks: readonly RouteTask[],
  routes: Map<string, Route>,
  rounds: number,
): void {
  const sorted = inOrder(tasks);
  let overlap = softOverlap;
  const lay = (task: RouteTask): boolean => {
    const before = routes.get(task.id);
    if (before) mark(field, before, -1);
    const route = findRoute(field, search, task, { overlap, crossing: prices.crossing });
    if (route) {
      mark(field, route, 1, task.bundle);
      routes.set(task.id, route);
    }
    return route?.cells.join() !== before?.cells.join();
  };
  for (const task of sorted) if (!routes.has(task.id)) lay(task);
  const begun = search.steps();
  const isSpent = (): boolean => search.steps() - begun > mostSteps;
  for (let round = 0; round < mostRounds && !isSpent(); round++) {
    let isChanged = false;
    const dear = sorted
      .map((task) => ({ task, extra: extraOf(field, routes.get(task.id)) }))
      .filter(({ task, extra }) => extra > 0 && (round < rounds || clashes(field, routes.get(task.id))))
      .sort((a, b) => b.extra - a.extra || (a.task.id < b.task.id ? -1 : 1));
    for (const { task } of dear) {
      if (isSpent()) return;
      for (const cell of clashCells(field, routes.get(task.id))) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + 24;
      if (lay(task)) isChanged = true;
    }
    if (!isChanged) {
      // Those that still share a stretch hold each other: they are taken up together and laid in the other order.
      const held = dear.map(({ task }) => task).filter((task) => clashes(field, routes.get(task.id)));
      if (held.length === 0) break;
      for (const task of held) {
        const route = routes.get(task.id);
        if (route) mark(field, route, -1);
        routes.delete(task.id);
      }
      for (const task of held.reverse()) lay(task);
    }
    overlap = Math.min(mostOverlap, Math.round(overlap * 1.6));
  }
}

/** Lays tasks one after the other as long as they stay within what they may cost together; false where they do not. */
export function layWithin(
  field: Field,
  search: Search,
  tasks: readonly RouteTask[],
  routes: Map<string, Route>,
  allowance: number,
): boolean {
  let left = allowance;
  for (const task of inOrder(tasks)) {
    const route = findRoute(field, search, task, { overlap: softOverlap, crossing: prices.crossing, limit: left });
    if (!route) return false;
    mark(field, route, 1, task.bundle);
    routes.set(task.id, route);
    left -= route.cost;
  }
  return true;
}

/** A bound wire leaves its channel only where there is no route in it. */
function findRoute(
  field: Field,
  search: Search,
  { from, to, isBound, bundle }: RouteTask,
  others: Meeting,
): Route | undefined {
  const meeting = bundle === undefined ? others : { ...others, bundle };
  return (
    search.find(field, from, to, { ...meeting, isBound }) ??
    (isBound && meeting.limit === undefined ? search.find(field, from, to, meeting) : undefined)
  );
}

function inOrder(tasks: readonly RouteTask[]): RouteTask[] {
  return [...tasks].sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
}

/** What a route costs where it lies now; a crossing is shared by the two that cross. */
export function priceOf(field: Field, task: RouteTask, route: Route): number {
  const [from, to] = [itemAt(task.from, route.from), itemAt(task.to, route.to)];
  let sum = from.cost + to.cost;
  let heading: number = from.heading;
  for (const [before, cell] of pairwise(route.cells)) {
    const next = headingOf(field.columns, cell - before);
    sum += (next % 2 === 0 ? prices.step : prices.slant) + Math.max(0, turnPrice(heading, next));
    heading = next;
  }
  sum += Math.max(0, turnPrice(heading, to.heading ^ 4));
  for (const cell of route.cells) sum += field.surcharge[cell] ?? 0;
  return sum + extraOf(field, route);
}

/** What a route costs for meeting others: half of each crossing, and clashes. Routes without any cannot get cheaper by much. */
export function extraOf(field: Field, route: Route | undefined): number {
  if (!route) return Infinity;
  let extra = 0;
  forEachPoint(field, route, (cell, one, other) => {
    if (isClash(field, cell, one, other)) extra += softOverlap;
    else if (one === other && isCrossed(field.wires, cell, one)) extra += prices.crossing / 2;
  });
  forEachSquare(field, route, (square) => void (extra += (field.squares[square ^ 1] ?? 0) > 0 ? prices.crossing / 2 : 0));
  return extra;
}

/** Counts a route in or out of the field, and opens the lanes beside it to its bundle. */
export function mark(field: Field, route: Route, by: 1 | -1, bundle?: number): void {
  const { wires, squares, lanes, columns } = field;
  forEachPoint(field, route, (cell, one, other) => {
    wires[4 * cell + one] = (wires[4 * cell + one] ?? 0) + by;
    if (other !== one) wires[4 * cell + other] = (wires[4 * cell + other] ?? 0) + by;
    if (bundle === undefined || one !== other) return;
    for (const beside of lanesBeside(columns, one)) lanes[4 * (cell + beside) + one] = bundle;
  });
  forEachSquare(field, route, (square) => void (squares[square] = (squares[square] ?? 0) + by));
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

function clashCells(field: Field, route: Route | undefined): number[] {
  const found: number[] = [];
  if (route) forEachPoint(field, route, (cell, one, other) => void (isClash(field, cell, one, other) && found.push(cell)));
  return found;
}

/** A wire that goes straight on shares its axis with another, one that turns meets any. */
function isClash({ wires }: Field, cell: number, one: number, other: number): boolean {
  return one === other ? (wires[4 * cell + one] ?? 0) > 1 : wiresAt(wires, cell) > 2;
}

/** Calls back for each grid point of a route with the axes by which it comes and goes; its two ends count on two axes, for they are its own. */
function forEachPoint({ columns }: Field, { cells }: Route, visit: (cell: number, one: number, other: number) => void): void {
  cells.forEach((cell, index) => {
    const before = cells[index - 1];
    const after = cells[index + 1];
    if (before !== undefined && after !== undefined) {
      visit(cell, headingOf(columns, cell - before) & 3, headingOf(columns, after - cell) & 3);
    } else {
      const axis = before === undefined && after === undefined ? 0 : headingOf(columns, (after ?? cell) - (before ?? cell)) & 3;
      visit(cell, axis, axis ^ 2);
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
