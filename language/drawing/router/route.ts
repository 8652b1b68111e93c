/** Routes for all wires together: each takes the cheapest route beside the others, and the costly ones are removed and routed again. */
import type { Joined, Joints } from './joints.js';
import { forEachPoint, markTask } from './marks.js';
import { prices, wiresAt, type Field, type Meeting, type Search, type Route } from './search.js';

export interface RouteTask extends Joined {
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
  /** True for such a wire that passes a channel. */
  readonly isFar: boolean;
}

const softOverlap = 500;
/** Rounds in which only the wires that clash are laid again, and all. */
const rounds = { alone: 3, most: 5 } as const;
/** Grid points that may be looked at for a wire that is laid again: what takes more has hardly a free way. */
const stepsAgain = 20_000;
/** And for all that are laid again, for each wire of the drawing. */
const stepsPerWire = 4000;

/** Lays the tasks, then takes up those that share a stretch and lays them again, a few rounds; the round with the fewest clashes counts. */
export function settle(
  field: Field,
  search: Search,
  tasks: readonly RouteTask[],
  routes: Map<string, Route>,
  joints: Joints,
): void {
  const sorted = inOrder(tasks);
  const put = (task: RouteTask, route: Route | undefined): void => {
    const before = routes.get(task.id);
    if (before) markTask(field, task, before, -1);
    routes.delete(task.id);
    if (!route) return;
    markTask(field, task, route, 1);
    routes.set(task.id, route);
  };
  const findClashing = (): readonly RouteTask[] =>
    sorted.filter((task) => joints.without(task, () => clashes(field, routes.get(task.id))));
  const find = (task: RouteTask, others: Meeting): Route | undefined =>
    joints.without(task, () => findRoute(field, search, task, others));
  const meeting = { overlap: softOverlap, crossing: prices.crossing };
  for (const task of sorted) put(task, find(task, meeting));
  const end = search.steps() + stepsPerWire * sorted.length;
  let clashing = findClashing();
  let best = { clashes: clashing.length, routes: new Map(routes) };
  for (let round = 1; round <= rounds.most && clashing.length > 0 && search.steps() < end; round++) {
    const overlap = softOverlap * 2 ** Math.min(round, rounds.alone);
    const cells = new Set(clashing.flatMap((task) => joints.without(task, () => clashCells(field, routes.get(task.id)))));
    for (const cell of cells) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + 24;
    // What has no way around another wire may have one before that wire is laid.
    const others =
      round <= rounds.alone ? [] : sorted.filter((task) => !clashing.includes(task) && passes(routes.get(task.id), cells));
    const before = new Map(routes);
    for (const task of others) put(task, undefined);
    for (const task of [...clashing, ...others]) {
      put(task, undefined);
      const isWorth = search.steps() <= end;
      put(task, (isWorth ? find(task, { ...meeting, overlap, most: stepsAgain }) : undefined) ?? before.get(task.id));
    }
    clashing = findClashing();
    if (clashing.length < best.clashes) best = { clashes: clashing.length, routes: new Map(routes) };
  }
  for (const task of sorted) if (best.routes.get(task.id) !== routes.get(task.id)) put(task, best.routes.get(task.id));
}

function passes(route: Route | undefined, cells: ReadonlySet<number>): boolean {
  return route?.cells.some((cell) => cells.has(cell)) === true;
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

/** True where a route shares a stretch or a turn with another, or is missing. */
export function clashes(field: Field, route: Route | undefined): boolean {
  return route === undefined || clashCells(field, route).length > 0;
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
