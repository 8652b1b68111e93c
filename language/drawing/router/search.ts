/** One wire's way across the grid: the cheapest by length, bends, crossings and tolls (A* over grid points and headings). */
import type { Heading } from '../geometry.js';

/** The grid as the search sees it. Arrays are by point, row after row. */
export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** 1 where no wire may be. */
  readonly blocked: Uint8Array;
  /** Extra cost of a point. */
  readonly toll: Uint16Array;
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

export interface Way {
  /** Grid points from the first gate to the last, neighbours next to each other. */
  readonly cells: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/** In quarters of a grid step, whole numbers all. */
export const prices = { step: 4, bend: 20, crossing: 240 } as const;

/** What meeting other wires costs: to share a stretch with one, to cross one; and what a way may cost in all. */
export interface Meeting {
  readonly overlap: number;
  readonly crossing: number;
  /** A way that costs more is not looked for; none is barred where absent. */
  readonly limit?: number;
  /** True for a wire that lies in cavities and channels from end to end: no way through the wood. */
  readonly isBound?: boolean;
}

export interface Search {
  /** Grid points looked at so far: the measure of work, the same on every machine. */
  steps(): number;
  /** The cheapest way between any of two sets of gates; undefined where there is no way at all. */
  find(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Way | undefined;
}

/** Beyond so many grid points the goal pulls harder: a way comes sooner, and may be a little dearer than the cheapest. */
const vast = 40_000;

/** What is known of a state, a grid point and a heading: the search that saw it, what it cost to come there, from which state, and the gate where the way began. */
const [seen, cost, parent, origin, width] = [0, 1, 2, 3, 4] as const;

/** A search for fields of one size; it keeps its working memory from call to call. This is the inner loop of a drawing: no allocation in it. */
export function createSearch(columns: number, rows: number): Search {
  const count = columns * rows;
  // Sums must stay within what the queue tells apart, with room for bends and crossings.
  const strongest = Math.floor((0.6 * lists) / (prices.step * (columns + rows)));
  const pull = count > 4 * vast ? Math.min(5, Math.max(2, strongest)) : count > vast ? 2 : 1;
  // Four numbers a state lie side by side, so that looking at one touches one line of the machine's memory.
  const states = new Int32Array(count * 4 * width);
  const xs = new Int16Array(count);
  const ys = new Int16Array(count);
  for (let cell = 0; cell < count; cell++) {
    xs[cell] = cell % columns;
    ys[cell] = Math.floor(cell / columns);
  }
  const isGoal = new Int32Array(count);
  const queue = createQueue();
  const goal = { left: 0, right: 0, top: 0, bottom: 0 };
  /** Of the search under way; one more where a state is done with. */
  let stamp = 0;
  let steps = 0;

  /** At least the distance, and the bends that no way from here can do without. */
  const ahead = (cell: number, heading: number): number => {
    const x = xs[cell]!;
    const y = ys[cell]!;
    const dx = x < goal.left ? goal.left - x : x > goal.right ? goal.right - x : 0;
    const dy = y < goal.top ? goal.top - y : y > goal.bottom ? goal.bottom - y : 0;
    const along = heading === 0 ? -dy : heading === 1 ? dx : heading === 2 ? dy : -dx;
    const bends = along < 0 ? 2 : (heading % 2 === 1 ? dy : dx) === 0 ? 0 : 1;
    return pull * (prices.step * (Math.abs(dx) + Math.abs(dy)) + prices.bend * bends);
  };

  const visit = (state: number, sum: number, before: number, start: number): void => {
    const at = state * width;
    const mark = states[at + seen]!;
    if (mark === stamp + 1 || (mark === stamp && states[at + cost]! <= sum)) return;
    states[at + seen] = stamp;
    states[at + cost] = sum;
    states[at + parent] = before;
    states[at + origin] = start;
    queue.push(state, sum + ahead(state >> 2, state & 3));
  };

  const aim = (to: readonly Gate[]): void => {
    goal.left = goal.top = Infinity;
    goal.right = goal.bottom = -Infinity;
    for (const { cell } of to) {
      isGoal[cell] = stamp;
      goal.left = Math.min(goal.left, xs[cell]!);
      goal.right = Math.max(goal.right, xs[cell]!);
      goal.top = Math.min(goal.top, ys[cell]!);
      goal.bottom = Math.max(goal.bottom, ys[cell]!);
    }
  };

  return {
    steps: () => steps,
    find(field, from, to, meeting) {
      const { overlap, crossing, limit = Infinity, isBound = false } = meeting;
      const { blocked, toll, level, upright, wood } = field;
      stamp += 2;
      queue.clear();
      aim(to);
      for (let index = 0; index < from.length; index++) {
        const { cell, heading, cost: price } = from[index]!;
        if (blocked[cell] === 1) continue;
        // The point of a gate is a wire's own: it is taken in both directions.
        const taken = (level[cell]! > 0 ? overlap : 0) + (upright[cell]! > 0 ? overlap : 0);
        visit(cell * 4 + heading, price + toll[cell]! + taken, -1, index);
      }

      let best = -1;
      let bestGate = -1;
      let bestCost = limit;
      for (let state = queue.pop(); state >= 0; state = queue.pop()) {
        const here = state * width;
        if (states[here + seen] === stamp + 1) continue;
        states[here + seen] = stamp + 1;
        steps += 1;
        const cell = state >> 2;
        const heading = state & 3;
        const sum = states[here + cost]!;
        const start = states[here + origin]!;
        if (queue.least() >= bestCost) break;
        const isLevel = heading % 2 === 1;
        const isCrossed = (isLevel ? upright[cell]! : level[cell]!) > 0;
        const isFirst = states[here + parent]! < 0;
        if (isGoal[cell] === stamp) {
          for (let index = 0; index < to.length; index++) {
            const gate = to[index]!;
            const entering = gate.heading ^ 2;
            if (gate.cell !== cell || (entering === (heading ^ 2) && !isFirst)) continue;
            // The last point, too, is the wire's own: what lies across it there is no crossing but a clash.
            const total = sum + gate.cost + (entering === heading ? 0 : prices.bend) + (isCrossed ? overlap : 0);
            if (total < bestCost) {
              best = state;
              bestGate = index;
              bestCost = total;
            }
          }
        }
        const x = xs[cell]!;
        for (let turn = -1; turn <= 1; turn++) {
          const next = (heading + turn) & 3;
          if (next === 1 ? x + 1 === columns : next === 3 && x === 0) continue;
          const target = cell + (next === 0 ? -columns : next === 1 ? 1 : next === 2 ? columns : -1);
          if (target < 0 || target >= count || blocked[target] === 1 || (isBound && wood[target] === 1)) continue;
          const along = next % 2 === 1 ? level[target]! : upright[target]!;
          const across = next % 2 === 1 ? upright[target]! : level[target]!;
          let added = prices.step + toll[target]! + (along > 0 ? overlap : 0) + (across > 0 ? crossing : 0);
          if (turn !== 0) added += prices.bend + (isCrossed && !isFirst ? overlap - crossing : 0);
          visit(target * 4 + next, sum + added, state, start);
        }
      }
      if (best < 0) return undefined;
      const cells: number[] = [];
      for (let state = best; state >= 0; state = states[state * width + parent]!) cells.push(state >> 2);
      return { cells: cells.reverse(), from: states[best * width + origin]!, to: bestGate, cost: bestCost };
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
      links[count] = heads[list]!;
      heads[list] = count++;
      if (list < lowest) lowest = list;
      if (list > highest) highest = list;
    },
    pop() {
      while (lowest <= highest && heads[lowest]! < 0) lowest += 1;
      if (lowest > highest) return -1;
      const entry = heads[lowest]!;
      heads[lowest] = links[entry]!;
      return states[entry]!;
    },
    least: () => lowest,
  };
}

function larger(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const result = new Int32Array(2 * values.length);
  result.set(values);
  return result;
}
