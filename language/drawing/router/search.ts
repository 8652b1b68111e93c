/** The route of one wire across the grid: the cheapest by length, turns, crossings and tolls (A* over grid points and eight headings). */
import type { Heading } from '../geometry.js';

/** The grid as the search sees it. Arrays are by point, row after row; the outermost points are blocked. */
export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** 1 where no wire may be. */
  readonly blocked: Uint8Array;
  /** Extra cost of a point. */
  readonly surcharge: Uint16Array;
  /** How many wires run through a point, by `point * 4 + axis`; a turn counts on both of its axes. */
  readonly wires: Uint8Array;
  /** How many wires turn at a point. */
  readonly turns: Uint8Array;
  /** How many wires run slantwise through the square to the right of a point and below it: falling at `point * 2`, rising at `point * 2 + 1`. */
  readonly squares: Uint8Array;
  /** 1 where a slant through a square would touch what its corners do not; same index. */
  readonly barred: Uint8Array;
  /** The bundle that has a lane here beside one of its wires, by `point * 4 + axis`; 0 for none. */
  readonly lanes: Uint16Array;
  /** 1 outside all cavities and channels. */
  readonly wood: Uint8Array;
  /** Free points so near to a letter that a wire passes and a run of solder, which is wider, does not. */
  readonly narrow: readonly number[];
}

/** Where a wire may begin or end: a grid point, and the heading in which it leaves the lug there. */
export interface Gate {
  readonly cell: number;
  readonly heading: Heading;
  readonly cost: number;
  /** Where the joint is, unless its lug keeps other wires off. */
  readonly tip?: number;
}

export interface Route {
  /** Grid points from the first gate to the last, neighbours next to each other. */
  readonly cells: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/** Ten to a grid step, whole numbers all: a step, a slanting one, a turn by an eighth and by a quarter; what a lane of the same bundle saves. */
export const prices = { step: 10, slant: 14, veer: 5, bend: 16, crossing: 60, lane: 2 } as const;

/** What meeting other wires costs: to share a stretch with one, to cross one; and how the wire itself is bound. */
export interface Meeting {
  readonly overlap: number;
  readonly crossing: number;
  /** True for a wire that lies in cavities and channels from end to end: no route through the wood. */
  readonly isBound?: boolean;
  /** True for a bound wire that passes a channel. */
  readonly isFar?: boolean;
  /** The bundle that the wire belongs to, whose lanes it prefers. */
  readonly bundle?: number;
  /** How often the surcharges of points are halved: where a wire would rather be short. */
  readonly ease?: number;
  /** Grid points that may be looked at; without bound where absent. */
  readonly most?: number;
}

export interface Search {
  /** Grid points looked at so far: the measure of work, the same on every machine. */
  steps(): number;
  /** The cheapest route between any of two sets of gates; undefined where there is no route at all. */
  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined;
}

/** The way to the next point by heading, and the square that a slant goes through. */
export function createCompass(columns: number): { readonly delta: Int32Array; readonly square: Int32Array } {
  return {
    delta: Int32Array.of(-columns, 1 - columns, 1, columns + 1, columns, columns - 1, -1, -columns - 1),
    square: Int32Array.of(0, -columns, 0, 0, 0, -1, 0, -columns - 1),
  };
}

/**
 * The goal pulls harder than the distance, so that a route comes soon, and may be a little dearer than the cheapest; after so many grid points
 * that did not lead to it, it is looked for anew with a harder pull.
 */
const attempts = [
  { pull: 1.25, steps: 12_000 },
  { pull: 2.5, steps: 16_000 },
  { pull: 8, steps: Infinity },
] as const;
const aside = prices.slant - prices.step;

/** What is known of a state, a grid point and a heading: the search that saw it, what it cost to come there, from which state, and the gate where the route began. */
const [seen, cost, parent, origin, width] = [0, 1, 2, 3, 4] as const;

/** For points from which there is no way. */
const farther = 2 ** 15;

/** A search for fields of one size; it keeps its working memory from call to call. */
export function createSearch(columns: number, rows: number): Search {
  return new GridSearch(columns, rows);
}

/** This is the inner loop of a drawing: no allocation in it, and `?? 0` in place of a claim that an index is within its array costs nothing there. */
class GridSearch implements Search {
  readonly #goal: Goal;
  readonly #queue = createQueue();
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
  readonly #distances = new WeakMap<readonly Gate[], Int32Array>();

  constructor(columns: number, rows: number) {
    this.#goal = createGoal(columns, rows);
    ({ delta: this.#delta, square: this.#square } = createCompass(columns));
    this.#states = new Int32Array(columns * rows * 8 * width);
  }

  steps(): number {
    return this.#steps;
  }

  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Route | undefined {
    const { most = Infinity, isFar = false } = meeting;
    this.#left = isFar ? this.#distancesTo(to, field) : undefined;
    if (this.#left && from.every(({ cell }) => (this.#left?.[cell] ?? farther) >= farther)) return undefined;
    const end = this.#steps + most;
    for (const { pull, steps } of attempts) {
      const last = Math.min(end, this.#steps + steps);
      if (this.#explore(field, from, to, meeting, { pull, last })) return this.#found();
      if (last === end) break;
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
    this.#queue.push(state, sum + (this.#left ? Math.round(this.#pull * (this.#left[cell] ?? 0)) : this.#goal.ahead(cell)));
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
    const distances = new Int32Array(blocked.length).fill(farther);
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
    for (let turn = -2; turn <= 2; turn++) {
      const next = (heading + turn) & 7;
      const step = this.#stepPrice(cell, next, field, meeting);
      if (step < 0) continue;
      const bend = turn === 0 ? 0 : clash + (turn === 1 || turn === -1 ? prices.veer : prices.bend);
      this.#visit((cell + (this.#delta[next] ?? 0)) * 8 + next, sum + step + bend, state, start);
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

/** Wires through a point on any axis. */
export function wiresAt(wires: Uint8Array, cell: number): number {
  const at = 4 * cell;
  return (wires[at] ?? 0) + (wires[at + 1] ?? 0) + (wires[at + 2] ?? 0) + (wires[at + 3] ?? 0);
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
