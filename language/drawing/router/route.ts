/** Routes for all wires together: each takes the cheapest route beside the others, and the costly ones are removed and routed again. */
import { firstOf, lastOf, pairwise } from '../../collections.js';
import type { Joined, Joints } from './joints.js';
import { forEachPoint, markTask } from './marks.js';
import { prices, wiresAt, type Field, type Meeting, type Route } from './grid-field.js';
import type { Search } from './search.js';

export interface RouteTask extends Joined {
  /** Lower is laid earlier. */
  readonly order: number;
  /** True for a wire that lies in cavities and channels from end to end. */
  readonly isBound: boolean;
  /** True for such a wire that passes a channel. */
  readonly isFar: boolean;
  /** True for a run of solder, which is wider than a wire. */
  readonly isWide: boolean;
  /** True for a wire from lug to lug of one part. */
  readonly isJumper: boolean;
}

export const softOverlap = 500;
/** Rounds in which only the wires that clash are laid again, and all. */
const rounds = { alone: 3, most: 5 } as const;
/** Grid points that may be looked at for a wire that is laid again: what takes more has hardly a free way. */
export const stepsAgain = 20_000;
/** And for all that are laid again, for each wire of the drawing. */
const stepsPerWire = 4000;

/** What the wires of one drawing are laid with, and where they lie so far, by id. */
export interface Laying {
  readonly field: Field;
  readonly search: Search;
  readonly routes: Map<string, Route>;
  readonly joints: Joints;
}

/** Lays the tasks, then takes up those that share a stretch and lays them again, a few rounds; the round with the fewest clashes counts. */
export function settle({ field, search, routes, joints }: Laying, tasks: readonly RouteTask[]): void {
  const sorted = inOrder(tasks);
  const put = (task: RouteTask, route: Route | undefined): void => lay(field, routes, task, route);
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

/** Lays a wire along another route; without one it is taken up. */
export function lay(field: Field, routes: Map<string, Route>, task: RouteTask, route: Route | undefined): void {
  const before = routes.get(task.id);
  if (before) markTask(field, task, before, -1);
  routes.delete(task.id);
  if (!route) return;
  markTask(field, task, route, 1);
  routes.set(task.id, route);
}

/** Longer than so many times the way across free paper, a wire is laid again: one of a part's own lugs goes straight across its back. */
const longest = { jumper: 1.25, wire: 1.6 } as const;
/** What a wire meets that would rather be short: crossings cost a third, bodies a quarter. */
const short = { overlap: 8 * softOverlap, crossing: prices.crossing / 3, ease: 2, most: stepsAgain } as const;

/** Takes up the wires that make a long way round, and lays each anew by a shorter way where there is one that is free. */
export function shorten({ field, search, routes, joints }: Laying, tasks: readonly RouteTask[]): void {
  for (const task of inOrder(tasks)) {
    const route = routes.get(task.id);
    if (route === undefined || task.isFar || detourOf(field, route) <= (task.isJumper ? longest.jumper : longest.wire)) continue;
    joints.without(task, () => {
      markTask(field, task, route, -1);
      const other = findRoute(field, search, task, short);
      const isIn = (cells: readonly number[]): boolean => cells.every((cell) => field.wood[cell] === 0);
      const isShorter = other !== undefined && lengthOf(field, other.cells) < 0.9 * lengthOf(field, route.cells);
      const isBetter = isShorter && (!task.isBound || isIn(other.cells) || !isIn(route.cells));
      if (isBetter) markTask(field, task, other, 1);
      if (isBetter && !clashes(field, other)) return void routes.set(task.id, other);
      if (isBetter) markTask(field, task, other, -1);
      markTask(field, task, route, 1);
    });
  }
}

/** Length of a route by the shortest one between its ends. */
function detourOf(field: Field, { cells }: Route): number {
  const [from, to] = [firstOf(cells), lastOf(cells)];
  const across = Math.abs((from % field.columns) - (to % field.columns));
  const down = Math.abs(Math.floor(from / field.columns) - Math.floor(to / field.columns));
  const free = prices.step * Math.abs(across - down) + prices.slant * Math.min(across, down);
  return lengthOf(field, cells) / Math.max(prices.step, free);
}

export function lengthOf({ columns }: Field, cells: readonly number[]): number {
  return pairwise(cells).reduce((sum, [a, b]) => sum + ([1, columns].includes(Math.abs(a - b)) ? prices.step : prices.slant), 0);
}

function passes(route: Route | undefined, cells: ReadonlySet<number>): boolean {
  return route?.cells.some((cell) => cells.has(cell)) === true;
}

/** A bound wire leaves its channel only where there is no route in it. */
export function findRoute(field: Field, search: Search, task: RouteTask, others: Meeting): Route | undefined {
  const { from, to, isBound, isFar, isWide, bundle } = task;
  const meeting = bundle === undefined ? others : { ...others, bundle };
  const find = (how: Meeting): Route | undefined => search.find(field, from, to, how);
  if (isWide) for (const cell of field.narrow) field.blocked[cell] = 1;
  const wide = isWide ? find({ ...meeting, isBound, isFar }) : undefined;
  if (isWide) for (const cell of field.narrow) field.blocked[cell] = 0;
  return wide ?? find({ ...meeting, isBound, isFar }) ?? (isBound ? find(meeting) : undefined);
}

function inOrder(tasks: readonly RouteTask[]): RouteTask[] {
  return [...tasks].sort((a, b) => a.order - b.order || (a.id < b.id ? -1 : 1));
}

/** True where a route shares a stretch or a turn with another, or is missing. */
export function clashes(field: Field, route: Route | undefined): boolean {
  return route === undefined || clashCells(field, route).length > 0;
}

export function clashCells(field: Field, route: Route | undefined): number[] {
  const found: number[] = [];
  if (route) forEachPoint(field, route, (cell, one, other) => void (isClash(field, cell, one, other) && found.push(cell)));
  return found;
}

/** A wire that goes straight on shares its axis with another, one that turns or ends meets any. */
function isClash({ wires }: Field, cell: number, one: number, other: number): boolean {
  if (other < 0) return wiresAt(wires, cell) > 4;
  return one === other ? (wires[4 * cell + one] ?? 0) > 1 : wiresAt(wires, cell) > 2;
}
