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
export const prices = { step: 4, bend: 20, crossing: 40 } as const;

/** What meeting other wires costs: to share a stretch with one, to cross one. */
export interface Meeting {
  readonly overlap: number;
  readonly crossing: number;
}

export interface Search {
  /** The cheapest way between any of two sets of gates; undefined where there is no way at all. */
  find(from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Way | undefined;
}

export function createSearch(field: Field): Search {
  const size = field.columns * field.rows * 4;
  const cost = new Int32Array(size);
  const parent = new Int32Array(size);
  const seen = new Int32Array(size);
  const closed = new Int32Array(size);
  const goalSeen = new Int32Array(field.columns * field.rows);
  const origin = new Int32Array(size);
  const steps = [-field.columns, 1, field.columns, -1];
  let stamp = 0;

  const heap = createHeap();

  /** What it costs to stand on a point when coming along a heading; a bend or an end there takes both directions. */
  const standing = (cell: number, heading: number, isBent: boolean, { overlap, crossing }: Meeting): number => {
    const isLevel = heading % 2 === 1;
    const along = isLevel ? field.level[cell]! : field.upright[cell]!;
    const across = isLevel ? field.upright[cell]! : field.level[cell]!;
    let sum = field.toll[cell]!;
    if (along > 0) sum += overlap;
    if (across > 0) sum += isBent ? overlap : crossing;
    return sum;
  };

  return {
    find(from, to, meeting) {
      stamp += 1;
      heap.clear();
      let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
      for (const gate of to) {
        const [x, y] = [gate.cell % field.columns, Math.floor(gate.cell / field.columns)];
        goalSeen[gate.cell] = stamp;
        [left, right] = [Math.min(left, x), Math.max(right, x)];
        [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
      }
      const ahead = (cell: number): number => {
        const [x, y] = [cell % field.columns, Math.floor(cell / field.columns)];
        return prices.step * (Math.max(left - x, 0, x - right) + Math.max(top - y, 0, y - bottom));
      };
      const visit = (cell: number, heading: number, sum: number, before: number, start: number): void => {
        const state = cell * 4 + heading;
        if (closed[state] === stamp || (seen[state] === stamp && cost[state]! <= sum)) return;
        seen[state] = stamp;
        cost[state] = sum;
        parent[state] = before;
        origin[state] = start;
        heap.push(state, sum + ahead(cell));
      };
      from.forEach((gate, index) => {
        if (field.blocked[gate.cell] === 1) return;
        // The point of a gate is a wire's own: it is taken in both directions.
        visit(gate.cell, gate.heading, gate.cost + standing(gate.cell, gate.heading, true, meeting), -1, index);
      });

      let best = -1;
      let bestGate = -1;
      let bestCost = Infinity;
      for (let state = heap.pop(); state >= 0; state = heap.pop()) {
        if (closed[state] === stamp) continue;
        closed[state] = stamp;
        const cell = state >> 2;
        const heading = state & 3;
        const sum = cost[state]!;
        if (sum + ahead(cell) >= bestCost) break;
        if (goalSeen[cell] === stamp) {
          to.forEach((gate, index) => {
            if (gate.cell !== cell) return;
            const entering = (gate.heading + 2) % 4;
            if (entering === (heading + 2) % 4 && parent[state]! >= 0) return;
            const total =
              sum + gate.cost + (entering === heading ? 0 : prices.bend) + takenAcross(field, cell, heading, meeting.overlap);
            if (total < bestCost) [best, bestGate, bestCost] = [state, index, total];
          });
        }
        const isCrossed = (heading % 2 === 1 ? field.upright[cell]! : field.level[cell]!) > 0;
        for (let turn = -1; turn <= 1; turn++) {
          const next = (heading + turn + 4) % 4;
          const target = cell + steps[next]!;
          if (!isInside(field, cell, next) || field.blocked[target] === 1) continue;
          const isGate = parent[state]! < 0;
          let added = prices.step + standing(target, next, false, meeting);
          if (turn !== 0) added += prices.bend + (isCrossed && !isGate ? meeting.overlap - meeting.crossing : 0);
          visit(target, next, sum + added, state, origin[state]!);
        }
      }
      if (best < 0) return undefined;
      const cells: number[] = [];
      for (let state = best; state >= 0; state = parent[state]!) cells.push(state >> 2);
      return { cells: cells.reverse(), from: origin[best]!, to: bestGate, cost: bestCost };
    },
  };
}

/** The last point of a way is its own in both directions, so what lies across it there is no crossing but a clash. */
function takenAcross(field: Field, cell: number, heading: number, overlap: number): number {
  const across = heading % 2 === 1 ? field.upright[cell]! : field.level[cell]!;
  return across > 0 ? overlap : 0;
}

function isInside(field: Field, cell: number, heading: number): boolean {
  const column = cell % field.columns;
  if (heading === 1) return column + 1 < field.columns;
  if (heading === 3) return column > 0;
  return heading === 0 ? cell >= field.columns : cell + field.columns < field.columns * field.rows;
}

interface Heap {
  clear(): void;
  push(state: number, key: number): void;
  /** The state with the least key, the smaller one among equals; −1 where there is none. */
  pop(): number;
}

/** States are fewer than this, so a key and a state fit into one number that sorts by key, then by state. */
const stateSpan = 2 ** 25;

function createHeap(): Heap {
  let items = new Float64Array(1024);
  let count = 0;
  return {
    clear: () => void (count = 0),
    push(state, key) {
      if (count === items.length) {
        const larger = new Float64Array(2 * count);
        larger.set(items);
        items = larger;
      }
      const item = key * stateSpan + state;
      let at = count++;
      while (at > 0) {
        const above = (at - 1) >> 1;
        if (items[above]! <= item) break;
        items[at] = items[above]!;
        at = above;
      }
      items[at] = item;
    },
    pop() {
      if (count === 0) return -1;
      const first = items[0]! % stateSpan;
      count -= 1;
      const item = items[count]!;
      let at = 0;
      for (let child = 1; child < count; child = 2 * at + 1) {
        if (child + 1 < count && items[child + 1]! < items[child]!) child += 1;
        if (items[child]! >= item) break;
        items[at] = items[child]!;
        at = child;
      }
      items[at] = item;
      return first;
    },
  };
}
