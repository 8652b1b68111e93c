/** The route of one wire across the grid: the cheapest by length, turns, crossings and tolls (A* over grid points and eight headings). */
import { createCorridors, outside, type Corridors } from './corridor.js';
import { createCompass, prices, wiresAt, type Field, type Gate, type Meeting, type Route } from './grid-field.js';
import { createQueue } from './queue.js';

export interface Search {
  /** Grid points looked at so far: the measure of work, the same on every machine. */
  steps(): number;
  /** The cheapest route between any of two sets of gates; undefined where there is no route at all. */
  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined;
}

/**
 * The goal pulls harder than the distance, so that a route comes soon, and may be a little dearer than the cheapest; after so many grid points
 * that did not lead to it, it is looked for anew: along a corridor, where what is left is known but for turns, then everywhere with a harder pull.
 */
const attempts = {
  near: [
    { pull: 1.25, steps: 12_000 },
    { pull: 2.5, steps: 16_000 },
  ],
  led: [
    { pull: 1.1, steps: 5000 },
    { pull: 1.5, steps: 8000 },
    { pull: 4, steps: Infinity },
  ],
  far: [{ pull: 8, steps: Infinity }],
} as const;
/** So far from its goal, a wire is led along a corridor at once. */
const long = 100 * prices.step;
const aside = prices.slant - prices.step;

interface Attempt {
  readonly pull: number;
  readonly steps: number;
}

interface Quest {
  readonly field: Field;
  readonly from: readonly Gate[];
  readonly to: readonly Gate[];
  readonly meeting: Meeting;
  /** The last step of the search that may be made for it. */
  readonly end: number;
}

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
  readonly #corridors: Corridors;
  readonly #delta: Int32Array;
  readonly #square: Int32Array;
  // Four numbers a state lie side by side, so that looking at one touches one line of the machine's memory.
  readonly #states: Int32Array;
  readonly #best = { state: -1, gate: -1, cost: 0 };
  /** Of the search under way; one more where a state is done with. */
  #stamp = 0;
  #steps = 0;
  /** Of the search under way, for a bound wire: what is left from each point at least. */
  #left: Int32Array | undefined;
  #pull = 1;
  /** True where the last attempt came to its end. */
  #isSearched = false;
  readonly #distances = new WeakMap<readonly Gate[], Int32Array>();

  constructor(columns: number, rows: number) {
    this.#goal = createGoal(columns, rows);
    this.#corridors = createCorridors(columns, rows);
    ({ delta: this.#delta, square: this.#square } = createCompass(columns));
    this.#states = new Int32Array(columns * rows * 8 * width);
  }

  steps(): number {
    return this.#steps;
  }

  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined {
    const { most = Infinity, isFar = false } = meeting;
    this.#left = isFar ? this.#distancesTo(to, field) : undefined;
    if (this.#left && from.every(({ cell }) => (this.#left?.[cell] ?? outside) >= outside)) return undefined;
    const end = this.#steps + most;
    const quest = { field, from, to, meeting, end };
    this.#isSearched = false;
    if (isFar) return this.#try(quest, [...attempts.near, ...attempts.far]);
    const route = this.#isLong(from, to) ? undefined : this.#try(quest, attempts.near);
    if (this.#isSearched) return route;
    return this.#tryAlong(quest, attempts.led) ?? this.#try(quest, attempts.far);
  }

  #isLong(from: readonly Gate[], to: readonly Gate[]): boolean {
    this.#goal.aim(to, 0, prices.step, aside);
    return from.every(({ cell }) => this.#goal.ahead(cell) >= long);
  }

  /** Along the corridor that leads from the first gates to the others. */
  #tryAlong(quest: Quest, pulls: readonly Attempt[]): Route | undefined {
    if (this.#steps >= quest.end) return undefined;
    this.#left = this.#corridors.lead(quest.field, quest.from, quest.to, quest.meeting);
    this.#steps += this.#corridors.steps();
    const route = this.#left === undefined ? undefined : this.#try(quest, pulls);
    this.#left = undefined;
    return route;
  }

  /** With a harder pull each time that the steps of an attempt are used up. */
  #try({ field, from, to, meeting, end }: Quest, pulls: readonly Attempt[]): Route | undefined {
    for (const { pull, steps } of pulls) {
      const last = Math.min(end, this.#steps + steps);
      this.#isSearched = this.#explore(field, from, to, meeting, { pull, last });
      if (this.#isSearched) return this.#found();
      if (this.#steps >= end) break;
    }
    return undefined;
  }

  /** False where it came to its last step before all was looked at. */
  #explore(
    field: Field,
    from: readonly Gate[],
    to: readonly Gate[],
    meeting: Meeting,
    { pull, last }: { readonly pull: number; readonly last: number },
  ): boolean {
    const [states, queue, goal, best] = [this.#states, this.#queue, this.#goal, this.#best];
    const stamp = (this.#stamp += 2);
    this.#pull = pull;
    queue.clear();
    goal.aim(to, stamp, pull * (meeting.bundle === undefined ? prices.step : prices.step - prices.lane), pull * aside);
    best.state = best.gate = -1;
    best.cost = Infinity;
    this.#begin(field, from, meeting);
    for (let state = queue.pop(); state >= 0; state = queue.pop()) {
      const at = state * width + seen;
      if (states[at] === stamp + 1) continue;
      states[at] = stamp + 1;
      this.#steps += 1;
      if (queue.least() >= best.cost) break;
      if (this.#steps > last) return false;
      if (goal.isAt(state >> 3, stamp)) this.#arrive(state, field, to, meeting);
      this.#goOn(state, field, meeting);
    }
    return true;
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
    const cell = state >> 3;
    const left = this.#left;
    if (left === undefined) return this.#queue.push(state, sum + this.#goal.ahead(cell));
    const ahead = left[cell] ?? outside;
    if (ahead < outside - 1) this.#queue.push(state, sum + Math.round(this.#pull * ahead));
  }

  #begin({ blocked, surcharge, wires }: Field, from: readonly Gate[], { overlap }: Meeting): void {
    for (const [index, { cell, heading, cost: price }] of from.entries()) {
      // A symbol that is tried elsewhere may reach beyond the grid: no route begins there.
      if (blocked[cell] !== 0) continue;
      // The point of a gate is a wire's own.
      const taken = wiresAt(wires, cell) > 0 || isTipTaken(wires, from[index]) ? overlap : 0;
      this.#visit(cell * 8 + heading, price + (surcharge[cell] ?? 0) + taken, -1, index);
    }
  }

  /** From each point through cavities and channels to a set of gates, other wires left aside: as the crow flies, a goal two channels away says nothing. */
  #distancesTo(to: readonly Gate[], { blocked, wood, surcharge }: Field): Int32Array {
    const known = this.#distances.get(to);
    if (known !== undefined) return known;
    const distances = new Int32Array(blocked.length).fill(outside);
    const queue = this.#queue;
    queue.clear();
    const reach = (cell: number, sum: number): void => {
      if (sum >= (distances[cell] ?? 0)) return;
      distances[cell] = sum;
      queue.push(cell, sum);
    };
    for (const { cell } of to) if (blocked[cell] === 0) reach(cell, 0);
    for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
      const sum = queue.least();
      if (sum > (distances[cell] ?? 0)) continue;
      this.#steps += 1;
      for (let heading = 0; heading < 8; heading++) {
        const next = cell + (this.#delta[heading] ?? 0);
        if (blocked[next] !== 0 || wood[next] === 1) continue;
        reach(next, sum + (heading % 2 === 0 ? prices.step : prices.slant) + (surcharge[cell] ?? 0));
      }
    }
    queue.clear();
    this.#distances.set(to, distances);
    return distances;
  }

  /** Takes the route that ends here where it is the cheapest so far. */
  #arrive(state: number, { wires }: Field, to: readonly Gate[], { overlap, crossing }: Meeting): void {
    const [states, best, at] = [this.#states, this.#best, state * width];
    const cell = state >> 3;
    const heading = state & 7;
    // The last point, too, is the wire's own: what lies across it there is no crossing but a clash.
    const isTaken = wiresAt(wires, cell) > 0 && (states[at + parent] ?? 0) >= 0;
    for (const [index, gate] of to.entries()) {
      if (gate.cell !== cell) continue;
      const turn = turnPrice(heading, gate.heading ^ 4);
      if (turn < 0) continue;
      const clash = (isTaken ? overlap - crossing : 0) + (isTipTaken(wires, gate) ? overlap : 0);
      const total = (states[at + cost] ?? 0) + gate.cost + turn + clash;
      if (total < best.cost) {
        best.state = state;
        best.gate = index;
        best.cost = total;
      }
    }
  }

  /** Goes on to the points straight ahead and to both sides, by no sharper turn than a quarter. */
  #goOn(state: number, field: Field, meeting: Meeting): void {
    const states = this.#states;
    const at = state * width;
    const cell = state >> 3;
    const heading = state & 7;
    const sum = states[at + cost] ?? 0;
    const start = states[at + origin] ?? 0;
    const isTaken = (states[at + parent] ?? 0) >= 0 && isCrossed(field.wires, cell, heading & 3);
    const clash = isTaken ? meeting.overlap - meeting.crossing : 0;
    const done = this.#stamp + 1;
    for (let turn = -2; turn <= 2; turn++) {
      const next = (heading + turn) & 7;
      const bent = sum + (turn === 0 ? 0 : clash + (turn === 1 || turn === -1 ? prices.veer : prices.bend));
      const target = (cell + (this.#delta[next] ?? 0)) * 8 + next;
      // Most states are come to again and again: what can't be cheaper needs no price.
      const mark = states[target * width + seen];
      const least = bent + ((next & 1) === 0 ? prices.step : prices.slant) - prices.lane;
      if (mark === done || (mark === done - 1 && (states[target * width + cost] ?? 0) <= least)) continue;
      const step = this.#stepPrice(cell, next, field, meeting);
      if (step >= 0) this.#visit(target, bent + step, state, start);
    }
  }

  /** What a step from a point costs, with what it meets; −1 where there is none. */
  #stepPrice(cell: number, heading: number, field: Field, { overlap, crossing, isBound, bundle, ease = 0 }: Meeting): number {
    const { blocked, surcharge, wires, turns, wood, lanes } = field;
    const target = cell + (this.#delta[heading] ?? 0);
    if (blocked[target] !== 0 || (isBound === true && wood[target] === 1)) return -1;
    const axis = heading & 3;
    const length = axis % 2 === 0 ? prices.step : this.#slantPrice(cell, heading, field, crossing, isBound === true);
    if (length < 0) return -1;
    const lane = 4 * target + axis;
    return (
      length +
      ((surcharge[target] ?? 0) >> ease) -
      (lanes[lane] === bundle ? prices.lane : 0) +
      ((wires[lane] ?? 0) > 0 ? overlap : 0) +
      // What crosses a wire where it turns touches both of its stretches, for no longer than a point.
      (isCrossed(wires, target, axis) ? ((turns[target] ?? 0) > 0 ? overlap >> 2 : crossing) : 0)
    );
  }

  #slantPrice(cell: number, heading: number, field: Field, crossing: number, isBound: boolean): number {
    const square = 2 * (cell + (this.#square[heading] ?? 0)) + ((heading & 3) === 1 ? 1 : 0);
    if (field.barred[square] === 1 || (isBound && this.#cutsWood(field.wood, cell, heading))) return -1;
    return prices.slant + ((field.squares[square ^ 1] ?? 0) > 0 ? crossing : 0);
  }

  /** A slant between two points of a cavity or channel may lead through wood where a wall has a corner. */
  #cutsWood(wood: Uint8Array, cell: number, heading: number): boolean {
    const [one, other] = [this.#delta[(heading + 1) & 7] ?? 0, this.#delta[(heading - 1) & 7] ?? 0];
    return wood[cell + one] === 1 || wood[cell + other] === 1;
  }

  #found(): Route | undefined {
    const [states, best] = [this.#states, this.#best];
    if (best.state < 0) return undefined;
    const cells: number[] = [];
    for (let state = best.state; state >= 0; state = states[state * width + parent] ?? -1) cells.push(state >> 3);
    return { cells: cells.reverse(), from: states[best.state * width + origin] ?? 0, to: best.gate, cost: best.cost };
  }
}

/** What a turn costs; −1 for one that is too sharp. */
function turnPrice(from: number, to: number): number {
  const turn = (to - from) & 7;
  const eighths = turn > 4 ? 8 - turn : turn;
  return eighths === 0 ? 0 : eighths === 1 ? prices.veer : eighths === 2 ? prices.bend : -1;
}

/** Whether a wire lies where the joint of a gate would be. */
function isTipTaken(wires: Uint8Array, gate: Gate | undefined): boolean {
  return gate?.tip !== undefined && wiresAt(wires, gate.tip) > 0;
}

/** Whether a wire lies across a point for one that comes along this axis. */
function isCrossed(wires: Uint8Array, cell: number, axis: number): boolean {
  return wiresAt(wires, cell) > (wires[4 * cell + axis] ?? 0);
}

/** Where a search is to end, and how far that is. */
interface Goal {
  /** `step` for each step along the longer axis, `more` for each along the shorter one. */
  aim(to: readonly Gate[], stamp: number, step: number, more: number): void;
  isAt(cell: number, stamp: number): boolean;
  /** At least the distance over level, upright and slanting steps. */
  ahead(cell: number): number;
}

function createGoal(columns: number, rows: number): Goal {
  const count = columns * rows;
  const xs = new Int16Array(count);
  const ys = new Int16Array(count);
  for (let cell = 0; cell < count; cell++) {
    xs[cell] = cell % columns;
    ys[cell] = Math.floor(cell / columns);
  }
  const stamps = new Int32Array(count);
  const box = { left: 0, right: 0, top: 0, bottom: 0 };
  let straight = 0;
  let slanting = 0;
  return {
    isAt: (cell, stamp) => stamps[cell] === stamp,
    ahead(cell) {
      const x = xs[cell] ?? 0;
      const y = ys[cell] ?? 0;
      const dx = x < box.left ? box.left - x : x > box.right ? x - box.right : 0;
      const dy = y < box.top ? box.top - y : y > box.bottom ? y - box.bottom : 0;
      return dx > dy ? straight * dx + slanting * dy : straight * dy + slanting * dx;
    },
    aim(to, stamp, step, more) {
      straight = Math.round(step);
      slanting = Math.round(more);
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
