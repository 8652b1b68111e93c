/** Routes for all wires together: each takes the cheapest route beside the others, and the costly ones are removed and routed again. */
import { itemAt, pairwise } from '../../collections.js';
import { prices, type Field, type Gate, type Meeting, type Search, type Route } from './search.js';

export interface RouteTask {
  readonly id: string;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
}

const softOverlap = 1600;
/** Sums stay within what the search distinguishes. */
const mostOverlap = 8000;
const mostRounds = 8;
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
      mark(field, route, 1);
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
    mark(field, route, 1);
    routes.set(task.id, route);
    left -= route.cost;
  }
  return true;
}

/** A bound wire leaves its channel only where there is no route in it. */
function findRoute(field: Field, search: Search, { from, to, isBound }: RouteTask, meeting: Meeting): Route | undefined {
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
  let sum = from.cost + to.cost + prices.step * (route.cells.length - 1);
  let heading = from.heading % 2;
  for (const [before, cell] of pairwise(route.cells)) {
    const next = Math.abs(cell - before) === 1 ? 1 : 0;
    if (next !== heading) sum += prices.bend;
    heading = next;
  }
  if (to.heading % 2 !== heading) sum += prices.bend;
  for (const cell of route.cells) sum += field.surcharge[cell] ?? 0;
  return sum + extraOf(field, route);
}

/** What a route costs for meeting others: half of each crossing, and clashes. Routes without any cannot get cheaper by much. */
export function extraOf(field: Field, route: Route | undefined): number {
  if (!route) return Infinity;
  let extra = 0;
  forEachPoint(field, route, (cell, isLevel, isUpright) => {
    const level = field.level[cell] ?? 0;
    const upright = field.upright[cell] ?? 0;
    if ((isLevel && level > 1) || (isUpright && upright > 1)) extra += softOverlap;
    else if (isLevel !== isUpright && (isLevel ? upright : level) > 0) extra += prices.crossing / 2;
  });
  return extra;
}

/** Counts a route in or out of the field. */
export function mark(field: Field, route: Route, by: 1 | -1): void {
  forEachPoint(field, route, (cell, isLevel, isUpright) => {
    if (isLevel) field.level[cell] = (field.level[cell] ?? 0) + by;
    if (isUpright) field.upright[cell] = (field.upright[cell] ?? 0) + by;
  });
}

/** True where a route shares a stretch or a bend with another, or is missing. */
export function clashes(field: Field, route: Route | undefined): boolean {
  return route === undefined || clashCells(field, route).length > 0;
}

function clashCells(field: Field, route: Route | undefined): number[] {
  const found: number[] = [];
  if (!route) return found;
  forEachPoint(field, route, (cell, isLevel, isUpright) => {
    if ((isLevel && (field.level[cell] ?? 0) > 1) || (isUpright && (field.upright[cell] ?? 0) > 1)) found.push(cell);
  });
  return found;
}

/** Calls back for each grid point of a route with the directions it takes there: both at bends and ends. */
function forEachPoint(field: Field, route: Route, visit: (cell: number, isLevel: boolean, isUpright: boolean) => void): void {
  const { cells } = route;
  cells.forEach((cell, index) => {
    const before = cells[index - 1];
    const after = cells[index + 1];
    if (before === undefined || after === undefined) return visit(cell, true, true);
    const isLevelIn = Math.abs(cell - before) === 1;
    const isLevelOut = Math.abs(after - cell) === 1;
    visit(cell, isLevelIn || isLevelOut, !isLevelIn || !isLevelOut);
  });
}
