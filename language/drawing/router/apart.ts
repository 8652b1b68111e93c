/** The last resort for wires that lie on each other: one of them is laid elsewhere, and what lies there makes room in its turn. */
import { getOrCreate } from '../../collections.js';
import { prices, type Route } from './grid-field.js';
import { detourOf } from './make-way.js';
import { pairsOf, pairsWith, type LaidWires, type Pair } from './pairs.js';
import { findRoute, lay, softOverlap, type Laying, type RouteTask } from './route.js';

/** Wires that may be laid anew. */
export interface MovableWires extends LaidWires, Laying {
  /** True for a wire that can't move, for another hangs on it. */
  isFixed(task: RouteTask): boolean;
}

/** Pairs of a drawing in which it is tried: one with more is beyond reading. Grid points looked at for one search, and for all; attempts; and wires laid in one attempt. */
const most = { pairs: 50, search: 120_000, steps: 3_000_000, attempts: 64, laid: 40 } as const;
/** No wire that is laid anew becomes longer than so many times its straight distance, unless it was. */
const longest = 1.95;
/** In the prices of the search: what the first wire of an attempt meets where it lies on another, by turns; and what a wire meets that finds no short way otherwise. */
const overlaps = { first: [8 * softOverlap, 40, 15], pushing: [60, 15] } as const;
/** Where no attempt with one wire succeeds, all that pass so near to the points of a pair are taken up at once, by turns: grid steps. */
const around = [2, 6, 12] as const;
/** What a point costs more each time that two wires met there. */
const again = 24;

/** Takes pairs apart while that succeeds; where no two wires lie on each other it does nothing. */
export function takeApart(wires: MovableWires): void {
  const end = wires.search.steps() + most.steps;
  const tried = new Set<string>();
  let attempts = 0;
  const isApart = (pair: Pair, count: number): boolean =>
    ways.some((way) =>
      [pair.one, pair.other].some((task) => {
        if (wires.isFixed(task) || wires.search.steps() >= end || attempts++ >= most.attempts) return false;
        return new Attempt(wires).isSuccess({ first: task, pair, ...way }, count);
      }),
    );
  let pairs = pairsOf(wires);
  if (pairs.length > most.pairs) return;
  for (;;) {
    const pair = pairs.find((one) => !tried.has(keyOf(one)));
    if (pair === undefined) return;
    tried.add(keyOf(pair));
    if (isApart(pair, pairs.length)) pairs = pairsOf(wires);
  }
}

/** How an attempt begins. */
interface Way {
  /** What the first wire meets where it lies on another, in the prices of the search. */
  readonly overlap: number;
  /** All wires that pass so near to the points of the pair are taken up, in grid steps; absent for the first alone. */
  readonly reach?: number;
}

const ways: readonly Way[] = [
  ...overlaps.first.map((overlap) => ({ overlap })),
  ...around.map((reach) => ({ overlap: 8 * softOverlap, reach })),
];

function keyOf({ one, other }: Pair): string {
  return `${one.id} ${other.id}`;
}

/** True for two wires on one lug. */
function isJoined({ one, other }: Pair): boolean {
  return one.lugs.some((lug) => other.lugs.includes(lug));
}

/** It succeeds where fewer pairs are left than before, or else all wires lie as before. */
class Attempt {
  readonly #wires: MovableWires;
  readonly #before: ReadonlyMap<string, Route>;
  /** How often each wire was laid. */
  readonly #times = new Map<RouteTask, number>();
  /** Grid points that a wire keeps off: those where it met another of its lug, which the search lets it share from end to end of their last steps. */
  readonly #barred = new Map<RouteTask, number[]>();
  readonly #charged: number[] = [];

  constructor(wires: MovableWires) {
    this.#wires = wires;
    this.#before = new Map(wires.routes);
  }

  isSuccess(
    { first, pair, overlap, reach }: Way & { readonly first: RouteTask; readonly pair: Pair },
    pairsBefore: number,
  ): boolean {
    const { field, routes } = this.#wires;
    if (isJoined(pair)) this.#bar(first, pair.cells);
    const others = reach === undefined ? [] : this.#near(pair, reach).filter((task) => task !== first);
    for (const task of others) {
      this.#times.set(task, 0);
      lay(field, routes, task, undefined);
    }
    const isLaid = this.#layAll([first, ...others], overlap);
    for (const cell of this.#charged) field.surcharge[cell] = (field.surcharge[cell] ?? 0) - again;
    if (isLaid && pairsOf(this.#wires).length < pairsBefore) return true;
    for (const task of this.#times.keys()) lay(field, routes, task, this.#before.get(task.id));
    return false;
  }

  /** Lays a wire, then those that it lies on, and so on until all are apart. */
  #layAll(firsts: readonly RouteTask[], overlap: number): boolean {
    const { field, routes } = this.#wires;
    const waiting = [...firsts];
    for (let count = 0; count < most.laid; count++) {
      const task = waiting.shift();
      if (task === undefined) return true;
      const times = this.#times.get(task) ?? 0;
      this.#times.set(task, times + 1);
      lay(field, routes, task, undefined);
      const route = this.#find(task, count === 0 ? overlap : softOverlap * 2 ** times);
      if (route === undefined) return false;
      lay(field, routes, task, route);
      const met = pairsWith(this.#wires, task);
      if (met.some(({ other }) => this.#wires.isFixed(other))) return false;
      for (const pair of met) {
        this.#takeUp(pair);
        waiting.push(pair.other);
      }
    }
    return false;
  }

  /** Wires that can move and pass near the points of a pair, the nearest first. */
  #near({ cells }: Pair, reach: number): readonly RouteTask[] {
    const { field, routes, tasks, isFixed } = this.#wires;
    const distance = (a: number, b: number): number =>
      Math.max(
        Math.abs((a % field.columns) - (b % field.columns)),
        Math.abs(Math.floor(a / field.columns) - Math.floor(b / field.columns)),
      );
    return tasks
      .filter((task) => !isFixed(task))
      .map((task) => ({
        task,
        steps: Math.min(...(routes.get(task.id)?.cells ?? []).map((cell) => Math.min(...cells.map((at) => distance(cell, at))))),
      }))
      .filter(({ steps }) => steps <= reach)
      .sort((a, b) => a.steps - b.steps || (a.task.id < b.task.id ? -1 : 1))
      .map(({ task }) => task);
  }

  #takeUp(pair: Pair): void {
    const { field, routes } = this.#wires;
    if (!this.#times.has(pair.other)) this.#times.set(pair.other, 0);
    lay(field, routes, pair.other, undefined);
    for (const cell of pair.cells) field.surcharge[cell] = (field.surcharge[cell] ?? 0) + again;
    this.#charged.push(...pair.cells);
    if (isJoined(pair)) this.#bar(pair.other, pair.cells);
  }

  #bar(task: RouteTask, cells: readonly number[]): void {
    getOrCreate(this.#barred, task, () => []).push(...cells);
  }

  /** A route that is not too long, if need be over others. */
  #find(task: RouteTask, overlap: number): Route | undefined {
    const { field, search, joints } = this.#wires;
    const barred = (this.#barred.get(task) ?? []).filter((cell) => field.blocked[cell] === 0);
    const length = Math.max(longest, detourOf(field, task, this.#before.get(task.id)));
    let found: Route | undefined;
    for (const cell of barred) field.blocked[cell] = 1;
    for (const price of [overlap, ...overlaps.pushing]) {
      const meeting = { overlap: price, crossing: prices.crossing / 3, ease: 2, most: most.search };
      const route = joints.without(task, () => findRoute(field, search, task, meeting));
      if (route === undefined || detourOf(field, task, route) > length) continue;
      found = route;
      break;
    }
    for (const cell of barred) field.blocked[cell] = 0;
    return found;
  }
}
