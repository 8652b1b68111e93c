/** Moves other wires out of the way of one that goes a long way round them. */
import { firstOf, itemAt, lastOf } from '../../collections.js';
import { stepOf } from '../geometry.js';
import { prices, type Field, type Gate, type Meeting, type Route } from './grid-field.js';
import { clashCells, clashes, findRoute, lay, lengthOf, softOverlap, stepsAgain, type Laying, type RouteTask } from './route.js';

/** Nobody looks for a wire that is longer than so many times the straight distance between its lugs where it would be straight. */
const longest = 1.85;
/** So many others are moved at most; the longest way of all that move becomes shorter by a tenth at least; and so many grid points are looked at for all together. */
const most = { moved: 3, share: 0.9, steps: 200_000 } as const;
/** What a wire meets on the way that it would take if the others moved, by turns; and what they meet then. */
const wishes = [
  { overlap: 20, crossing: 20, ease: 2, most: stepsAgain },
  { overlap: 15, crossing: 10, ease: 2, most: stepsAgain },
  { overlap: 40, crossing: 10, ease: 2, most: stepsAgain },
] as const;
const moving = { overlap: 8 * softOverlap, crossing: prices.crossing / 3, ease: 2, most: stepsAgain } as const;

/** Lays each wire with a long way anew as if the others might move, and those that lie there beside it; all stay where that does not succeed. */
export function makeWay(laying: Laying, tasks: readonly RouteTask[]): void {
  const { field, search, routes } = laying;
  const end = search.steps() + most.steps;
  const long = tasks.flatMap((task) => {
    const ratio = detourOf(field, task, routes.get(task.id));
    return task.isFar || ratio <= longest ? [] : [{ task, ratio }];
  });
  for (const { task } of long.sort((a, b) => b.ratio - a.ratio || (a.task.id < b.task.id ? -1 : 1)))
    wishes.some((wish) => search.steps() < end && isMoved(laying, task, tasks, wish));
}

/** Whether a wire found a better way with others moved; where not, all lie as before. */
function isMoved(laying: Laying, task: RouteTask, tasks: readonly RouteTask[], wish: Meeting): boolean {
  const { field, search, routes, joints } = laying;
  const before = new Map(routes);
  const find = (one: RouteTask, meeting: Meeting): Route | undefined =>
    joints.without(one, () => findRoute(field, search, one, meeting));
  const crowded = (): number => tasks.filter((one) => joints.without(one, () => clashes(field, routes.get(one.id)))).length;
  const worst = (all: readonly RouteTask[], by: ReadonlyMap<string, Route>): number =>
    Math.max(...all.map((one) => detourOf(field, one, by.get(one.id))));
  const crowdedBefore = crowded();
  lay(field, routes, task, undefined);
  const route = find(task, wish);
  lay(field, routes, task, route);
  const inTheWay = route === undefined ? [] : clashing(laying, task, route, tasks);
  const all = [task, ...inTheWay];
  if (route !== undefined && inTheWay.length <= most.moved) {
    for (const other of inTheWay) lay(field, routes, other, undefined);
    for (const other of inTheWay) lay(field, routes, other, find(other, moving));
    const isLaid = all.every(({ id }) => routes.has(id));
    if (isLaid && worst(all, routes) < most.share * worst(all, before) && crowded() <= crowdedBefore) return true;
  }
  for (const one of all) lay(field, routes, one, before.get(one.id));
  return false;
}

/** The wires that share a stretch or a turn with a route. */
function clashing(
  { field, routes, joints }: Laying,
  task: RouteTask,
  route: Route,
  tasks: readonly RouteTask[],
): readonly RouteTask[] {
  const cells = new Set(joints.without(task, () => clashCells(field, route)));
  return tasks.filter((other) => other !== task && routes.get(other.id)?.cells.some((cell) => cells.has(cell)) === true);
}

/** Length of a wire by the straight distance between its joints. */
export function detourOf(field: Field, { from, to }: RouteTask, route: Route | undefined): number {
  if (route === undefined) return 1;
  const [start, end] = [
    jointOf(field, itemAt(from, route.from), firstOf(route.cells)),
    jointOf(field, itemAt(to, route.to), lastOf(route.cells)),
  ];
  const length = lengthOf(field, route.cells) / prices.step + start.step + end.step;
  return length / Math.max(1, Math.hypot(end.x - start.x, end.y - start.y));
}

/** Where a gate's joint lies, in steps of the grid, and how far that is from the grid point of the gate. */
function jointOf(
  { columns }: Field,
  { heading }: Gate,
  cell: number,
): { readonly x: number; readonly y: number; readonly step: number } {
  const { x, y } = stepOf(heading);
  return { x: (cell % columns) - x, y: Math.floor(cell / columns) - y, step: Math.hypot(x, y) };
}
