/** The route of one wire across the grid: the cheapest by length, bends, crossings and tolls (A* over grid points and headings). */
import type { Heading } from '../geometry.js';

/** The grid as the search sees it. Arrays are by point, row after row. */
export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** 1 where no wire may be. */
  readonly blocked: Uint8Array;
  /** Extra cost of a point. */
  readonly surcharge: Uint16Array;
  /** How many wires run level or upright through a point; a bend counts as both. */
  readonly level: Uint8Array;
  readonly upright: Uint8Array;
  /** 1 outside all cavities and channels. */
  readonly wood: Uint8Array;
}

/** Where a wire may begin or end: a grid point, and the heading in which it leaves the lug there. */
export interface Gate {
  readonly cell: number;
  readonly heading: Heading;
  readonly cost: number;
}

export interface Route {
  /** Grid points from the first gate to the last, neighbours next to each other. */
  readonly cells: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/** In quarters of a grid step, whole numbers all. */
export const prices = { step: 4, bend: 20, crossing: 240 } as const;

/** What meeting other wires costs: to share a stretch with one, to cross one; and what a route may cost in all. */
export interface Meeting {
  readonly overlap: number;
  readonly crossing: number;
  /** A route that costs more is not looked for; none is barred where absent. */
  readonly limit?: number;
  /** True for a wire that lies in cavities and channels from end to end: no route through the wood. */
  readonly isBound?: boolean;
}

export interface Search {
  /** Grid points looked at so far: the measure of work, the same on every machine. */
  steps(): number;
  /** The cheapest route between any of two sets of gates; undefined where there is no route at all. */
  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined;
}

/** Beyond so many grid points the goal pulls harder: a route comes sooner, and may be a little dearer than the cheapest. */
const vast = 40_000;

/** What is known of a state, a grid point and a heading: the search that saw it, what it cost to come there, from which state, and the gate where the route began. */
const [seen, cost, parent, origin, width] = [0, 1, 2, 3, 4] as const;

/** A search for fields of one size; it keeps its working memory from call to call. */
export function createSearch(columns: number, rows: number): Search {
  return new GridSearch(columns, rows);
}

/** This is the inner loop of a drawing: no allocation in it, and `?? 0` in place of a claim that an index is within its array costs nothing there. */
class GridSearch implements Search {
  readonly #goal: Goal;
  readonly #queue = createQueue();
  // Four numbers a state lie side by side, so that looking at one touches one line of the machine's memory.
  readonly #states: Int32Array;
  readonly #best = { state: -1, gate: -1, cost: 0 };
  /** Of the search under way; one more where a state is done with. */
  #stamp = 0;
  #steps = 0;

  constructor(columns: number, rows: number) {
    this.#goal = createGoal(columns, rows);
    this.#states = new Int32Array(columns * rows * 4 * width);
  }

  steps(): number {
    return this.#steps;
  }

  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined {
    const { overlap, crossing, limit = Infinity, isBound = false } = meeting;
    const [states, queue, goal, best] = [this.#states, this.#queue, this.#goal, this.#best];
    const stamp = (this.#stamp += 2);
    queue.clear();
    goal.aim(to, stamp);
    best.state = best.gate = -1;
    best.cost = limit;
    this.#begin(field, from, overlap);
    for (let state = queue.pop(); state >= 0; state = queue.pop()) {
      const at = state * width + seen;
      if (states[at] === stamp + 1) continue;
      states[at] = stamp + 1;
      this.#steps += 1;
      if (queue.least() >= best.cost) break;
      if (goal.isAt(state >> 2, stamp)) this.#arrive(state, field, to, overlap);
      this.#goOn(state, field, overlap, crossing, isBound);
    }
    return this.#found();
  }

  #visit(state: number, sum: number, before: number, start: number): void {
    const states = this.#states;
    const stamp = this.#stamp;
    const at = state * width;
    const mark = states[at + seen];
    if (mark === stamp + 1 || (mark === stamp && (states[at + cost] ?? 0) <= sum)) return;
    states[at + seen] = stamp;
    states[at + cost] = sum;
    states[at + parent] = before;
    states[at + origin] = start;
    this.#queue.push(state, sum + this.#goal.ahead(state >> 2, state & 3));
  }

  #begin({ blocked, surcharge, level, upright }: Field, from: readonly Gate[], overlap: number): void {
    for (const [index, { cell, heading, cost: price }] of from.entries()) {
      const extra = surcharge[cell];
      // A symbol that is tried elsewhere may reach beyond the grid: no route begins there.
      if (extra === undefined || blocked[cell] === 1) continue;
      // The point of a gate is a wire's own: it is taken in both directions.
      const taken = ((level[cell] ?? 0) > 0 ? overlap : 0) + ((upright[cell] ?? 0) > 0 ? overlap : 0);
      this.#visit(cell * 4 + heading, price + extra + taken, -1, index);
    }
  }

  /** Takes the route that ends here where it is the cheapest so far. */
  #arrive(state: number, field: Field, to: readonly Gate[], overlap: number): void {
    const [states, best, at] = [this.#states, this.#best, state * width];
    const cell = state >> 2;
    const heading = state & 3;
    const isFirst = (states[at + parent] ?? 0) < 0;
    for (const [index, gate] of to.entries()) {
      const entering = gate.heading ^ 2;
      if (gate.cell !== cell || (entering === (heading ^ 2) && !isFirst)) continue;
      // The last point, too, is the wire's own: what lies across it there is no crossing but a clash.
      const clash = isCrossed(field, cell, heading) ? overlap : 0;
      const total = (states[at + cost] ?? 0) + gate.cost + (entering === heading ? 0 : prices.bend) + clash;
      if (total < best.cost) {
        best.state = state;
        best.gate = index;
        best.cost = total;
      }
    }
  }

  /** Goes on to the points straight ahead and to both sides. */
  #goOn(state: number, field: Field, overlap: number, crossing: number, isBound: boolean): void {
    const { blocked, surcharge, level, upright, wood } = field;
    const states = this.#states;
    const at = state * width;
    const cell = state >> 2;
    const heading = state & 3;
    const sum = states[at + cost] ?? 0;
    const start = states[at + origin] ?? 0;
    const isFirst = (states[at + parent] ?? 0) < 0;
    const bend = prices.bend + (!isFirst && isCrossed(field, cell, heading) ? overlap - crossing : 0);
    for (let turn = -1; turn <= 1; turn++) {
      const next = (heading + turn) & 3;
      const target = this.#goal.neighbour(cell, next);
      if (target < 0 || blocked[target] === 1 || (isBound && wood[target] === 1)) continue;
      const along = (next % 2 === 1 ? level[target] : upright[target]) ?? 0;
      const across = (next % 2 === 1 ? upright[target] : level[target]) ?? 0;
      const added = prices.step + (surcharge[target] ?? 0) + (along > 0 ? overlap : 0) + (across > 0 ? crossing : 0);
      this.#visit(target * 4 + next, sum + added + (turn === 0 ? 0 : bend), state, start);
    }
  }

  #found(): Route | undefined {
    const [states, best] = [this.#states, this.#best];
    if (best.state < 0) return undefined;
    const cells: number[] = [];
    for (let state = best.state; state >= 0; state = states[state * width + parent] ?? -1) cells.push(state >> 2);
    return { cells: cells.reverse(), from: states[best.state * width + origin] ?? 0, to: best.gate, cost: best.cost };
  }
}

/** Whether a wire lies across a point for one that comes with this heading. */
function isCrossed({ level, upright }: Field, cell: number, heading: number): boolean {
  return ((heading % 2 === 1 ? upright[cell] : level[cell]) ?? 0) > 0;
}

/** Where a search is to end, and how far that is. */
interface Goal {
  aim(to: readonly Gate[], stamp: number): void;
  isAt(cell: number, stamp: number): boolean;
  /** At least the distance, and the bends that no route from here can do without. */
  ahead(cell: number, heading: number): number;
  /** The next point in a direction; −1 where there is none. */
  neighbour(cell: number, heading: number): number;
}

function createGoal(columns: number, rows: number): Goal {
  const count = columns * rows;
  // Sums must stay within what the queue distinguishes, with room for bends and crossings.
  const strongest = Math.floor((0.6 * lists) / (prices.step * (columns + rows)));
  const pull = count > 4 * vast ? Math.min(5, Math.max(2, strongest)) : count > vast ? 2 : 1;
  const xs = new Int16Array(count);
  const ys = new Int16Array(count);
  for (let cell = 0; cell < count; cell++) {
    xs[cell] = cell % columns;
    ys[cell] = Math.floor(cell / columns);
  }
  const stamps = new Int32Array(count);
  const box = { left: 0, right: 0, top: 0, bottom: 0 };
  return {
    neighbour(cell, heading) {
      const x = xs[cell] ?? 0;
      if (heading === 1) return x + 1 === columns ? -1 : cell + 1;
      if (heading === 3) return x === 0 ? -1 : cell - 1;
      const target = heading === 0 ? cell - columns : cell + columns;
      return target < count ? target : -1;
    },
    isAt: (cell, stamp) => stamps[cell] === stamp,
    ahead(cell, heading) {
      const x = xs[cell] ?? 0;
      const y = ys[cell] ?? 0;
      const dx = x < box.left ? box.left - x : x > box.right ? box.right - x : 0;
      const dy = y < box.top ? box.top - y : y > box.bottom ? box.bottom - y : 0;
      const along = heading === 0 ? -dy : heading === 1 ? dx : heading === 2 ? dy : -dx;
      const bends = along < 0 ? 2 : (heading % 2 === 1 ? dy : dx) === 0 ? 0 : 1;
      return pull * (prices.step * (Math.abs(dx) + Math.abs(dy)) + prices.bend * bends);
    },
    aim(to, stamp) {
      box.left = box.top = Infinity;
      box.right = box.bottom = -Infinity;
      for (const { cell } of to) {
        stamps[cell] = stamp;
        const [x, y] = [xs[cell] ?? 0, ys[cell] ?? 0];
        box.left = Math.min(box.left, x);
        box.right = Math.max(box.right, x);
        box.top = Math.min(box.top, y);
        box.bottom = Math.max(box.bottom, y);
      }
    },
  };
}

interface Queue {
  clear(): void;
  push(state: number, sum: number): void;
  /** The state with the least sum, the latest among equals, which is the one that has come farthest; −1 where there is none. */
  pop(): number;
  /** The sum of what was popped last. */
  least(): number;
}

/** Sums are whole and not far apart, so each has a list of its own; those beyond the last share it. */
const lists = 2 ** 16;

function createQueue(): Queue {
  const heads = new Int32Array(lists).fill(-1);
  let states = new Int32Array(4096);
  let links = new Int32Array(4096);
  let count = 0;
  let lowest = 0;
  let highest = -1;
  return {
    clear() {
      heads.fill(-1, 0, highest + 1);
      count = 0;
      lowest = 0;
      highest = -1;
    },
    push(state, sum) {
      if (count === states.length) {
        states = larger(states);
        links = larger(links);
      }
      const list = sum < 0 ? 0 : sum >= lists ? lists - 1 : sum;
      states[count] = state;
      links[count] = heads[list] ?? -1;
      heads[list] = count++;
      if (list < lowest) lowest = list;
      if (list > highest) highest = list;
    },
    pop() {
      while (lowest <= highest && (heads[lowest] ?? -1) < 0) lowest += 1;
      if (lowest > highest) return -1;
      const entry = heads[lowest] ?? -1;
      heads[lowest] = links[entry] ?? -1;
      return states[entry] ?? -1;
    },
    least: () => lowest,
  };
}

function larger(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const result = new Int32Array(2 * values.length);
  result.set(values);
  return result;
}
