/** The broad way of a long wire: first over tiles of the grid, then point by point along the tiles that it passes, so that the search itself need not look at the whole sheet. */
import { createQueue } from './queue.js';
import { createCompass, prices, wiresAt, type Field, type Gate, type Meeting } from './grid-field.js';

export interface Corridors {
  /** What is left to the goal from each grid point of the corridor, turns left aside, and `outside` elsewhere; undefined where there is no way. Valid until the next call. */
  lead(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Int32Array | undefined;
  /** Grid points looked at by the last call. */
  steps(): number;
}

/** Left to the goal where there is no way, or none that counts. */
export const outside = 2 ** 28;

/** Grid points along a side of a tile. */
const side = 8;
/** An edge with no more free lanes than these costs more: the wires to come want them too. */
const few = 2;
const narrowPrice = 4 * prices.step;

export function createCorridors(columns: number, rows: number): Corridors {
  return new TileCorridors(columns, rows);
}

class TileCorridors implements Corridors {
  readonly #columns: number;
  readonly #rows: number;
  readonly #across: number;
  readonly #count: number;
  readonly #queue = createQueue();
  readonly #delta: Int32Array;
  /** From a tile over its right edge and its lower one, −1 where it is closed; and how many wires run through the edge. */
  readonly #toRight: Int32Array;
  readonly #toBelow: Int32Array;
  readonly #throughRight: Uint8Array;
  readonly #throughBelow: Uint8Array;
  readonly #sums: Int32Array;
  readonly #parents: Int32Array;
  /** By grid points, `outside` between two calls but for the tiles of the last one. */
  readonly #left: Int32Array;
  #tiles: readonly number[] = [];
  #steps = 0;
  /** Through the edge that was weighed last. */
  #through = 0;

  constructor(columns: number, rows: number) {
    this.#columns = columns;
    this.#rows = rows;
    this.#across = Math.ceil(columns / side);
    this.#count = this.#across * Math.ceil(rows / side);
    this.#delta = createCompass(columns).delta;
    this.#toRight = new Int32Array(this.#count);
    this.#toBelow = new Int32Array(this.#count);
    this.#throughRight = new Uint8Array(this.#count);
    this.#throughBelow = new Uint8Array(this.#count);
    this.#sums = new Int32Array(this.#count);
    this.#parents = new Int32Array(this.#count);
    this.#left = new Int32Array(columns * rows).fill(outside);
  }

  steps(): number {
    return this.#steps;
  }

  lead(field: Field, from: readonly Gate[], to: readonly Gate[], meeting: Meeting): Int32Array | undefined {
    this.#steps = 0;
    for (const tile of this.#tiles) this.#fill(tile, outside);
    this.#tiles = [];
    this.#weigh(field, meeting);
    const way = this.#wayBetween(from, to, meeting.crossing);
    if (way === undefined) return undefined;
    this.#tiles = [...new Set(way.flatMap((tile) => this.#around(tile)))];
    for (const tile of this.#tiles) this.#fill(tile, outside - 1);
    this.#spread(field, to, meeting);
    return this.#left;
  }

  /** What each edge between two tiles costs. */
  #weigh(field: Field, meeting: Meeting): void {
    for (let tile = 0; tile < this.#count; tile++) {
      const column = side * (tile % this.#across);
      const row = side * Math.floor(tile / this.#across);
      const [right, below] = [column + side, row + side];
      const [isAtRight, isAtFoot] = [right >= this.#columns, below >= this.#rows];
      const first = row * this.#columns + column;
      const high = Math.min(side, this.#rows - row);
      const wide = Math.min(side, this.#columns - column);
      this.#toRight[tile] = isAtRight
        ? -1
        : this.#edge(field, meeting, { cell: first + side, along: this.#columns, length: high, axis: 2 });
      this.#throughRight[tile] = this.#through;
      const lower: Edge = { cell: first + side * this.#columns, along: 1, length: wide, axis: 0 };
      this.#toBelow[tile] = isAtFoot ? -1 : this.#edge(field, meeting, lower);
      this.#throughBelow[tile] = this.#through;
    }
  }

  /** What it costs to pass an edge, whose grid points on the far side begin at `cell`; −1 where it is closed. */
  #edge({ blocked, wood, wires, surcharge }: Field, { overlap, isBound }: Meeting, edge: Edge): number {
    const before = edge.axis === 2 ? -1 : -this.#columns;
    let open = 0;
    let free = 0;
    let least = Infinity;
    this.#through = 0;
    for (let index = 0; index < edge.length; index++) {
      const cell = edge.cell + index * edge.along;
      const along = wires[4 * cell + edge.axis] ?? 0;
      const slanting = (wires[4 * cell + 1] ?? 0) + (wires[4 * cell + 3] ?? 0);
      if (along + slanting > 0) this.#through += 1;
      if (blocked[cell] !== 0 || blocked[cell + before] !== 0) continue;
      if (isBound === true && (wood[cell] === 1 || wood[cell + before] === 1)) continue;
      open += 1;
      if (along > 0) continue;
      free += 1;
      least = Math.min(least, surcharge[cell] ?? 0);
    }
    if (open === 0) return -1;
    if (free === 0) return side * prices.step + overlap;
    return side * (prices.step + Math.min(least, prices.step)) + (free <= few ? narrowPrice : 0);
  }

  /** The tiles of the cheapest way, from the start's to the goal's. */
  #wayBetween(from: readonly Gate[], to: readonly Gate[], crossing: number): readonly number[] | undefined {
    const [sums, parents, queue] = [this.#sums, this.#parents, this.#queue];
    const starts = new Set(from.map(({ cell }) => this.#tileOf(cell)));
    sums.fill(outside);
    queue.clear();
    const reach = (tile: number, sum: number, parent: number): void => {
      if (sum >= (sums[tile] ?? 0)) return;
      sums[tile] = sum;
      parents[tile] = parent;
      queue.push(tile, sum);
    };
    for (const { cell } of to) reach(this.#tileOf(cell), 0, -1);
    for (let tile = queue.pop(); tile >= 0; tile = queue.pop()) {
      const sum = sums[tile] ?? 0;
      if (queue.least() > sum) continue;
      if (starts.has(tile)) return this.#back(tile);
      for (const [dx, dy] of moves) {
        const price = this.#moveFrom(tile, dx, dy, crossing);
        if (price >= 0) reach(tile + dy * this.#across + dx, sum + price, tile);
      }
    }
    return undefined;
  }

  #back(tile: number): readonly number[] {
    const way: number[] = [];
    for (let at = tile; at >= 0; at = this.#parents[at] ?? -1) way.push(at);
    return way;
  }

  /** What it costs to move to a neighbour, slantwise by the better of two ways; −1 where there is none. */
  #moveFrom(tile: number, dx: number, dy: number, crossing: number): number {
    if (dy === 0) return this.#stepAcross(tile, dx, crossing);
    if (dx === 0) return this.#stepDown(tile, dy, crossing);
    const [across, down] = [this.#stepAcross(tile, dx, crossing), this.#stepDown(tile, dy, crossing)];
    const one = across < 0 ? -1 : this.#stepDown(tile + dx, dy, crossing);
    const other = down < 0 ? -1 : this.#stepAcross(tile + dy * this.#across, dx, crossing);
    const best = Math.min(one < 0 ? outside : across + one, other < 0 ? outside : down + other);
    return best === outside ? -1 : best - side * (2 * prices.step - prices.slant);
  }

  #stepAcross(tile: number, dx: number, crossing: number): number {
    const column = (tile % this.#across) + dx;
    if (column < 0 || column >= this.#across) return -1;
    const edge = this.#toRight[dx > 0 ? tile : tile - 1] ?? -1;
    return edge < 0 ? -1 : edge + crossing * this.#met(this.#throughBelow, tile, tile + dx, this.#across);
  }

  #stepDown(tile: number, dy: number, crossing: number): number {
    const next = tile + dy * this.#across;
    if (next < 0 || next >= this.#count) return -1;
    const edge = this.#toBelow[dy > 0 ? tile : next] ?? -1;
    return edge < 0 ? -1 : edge + crossing * this.#met(this.#throughRight, tile, next, 1);
  }

  /** Wires that run across the way from one tile's middle to the next one's, by those through the edges beside it. */
  #met(through: Uint8Array, one: number, other: number, behind: number): number {
    const sum = (tile: number): number => (through[tile] ?? 0) + (through[tile - behind] ?? 0);
    return (sum(one) + sum(other)) >> 2;
  }

  #tileOf(cell: number): number {
    const column = Math.floor((cell % this.#columns) / side);
    return Math.floor(Math.floor(cell / this.#columns) / side) * this.#across + column;
  }

  /** A tile with its neighbours. */
  #around(tile: number): number[] {
    const column = tile % this.#across;
    const found = [tile];
    for (const [dx, dy] of moves) {
      const next = tile + dy * this.#across + dx;
      if (column + dx >= 0 && column + dx < this.#across && next >= 0 && next < this.#count) found.push(next);
    }
    return found;
  }

  #fill(tile: number, value: number): void {
    const column = side * (tile % this.#across);
    const top = side * Math.floor(tile / this.#across);
    const end = Math.min(this.#columns, column + side);
    for (let row = top; row < Math.min(this.#rows, top + side); row++)
      this.#left.fill(value, row * this.#columns + column, row * this.#columns + end);
  }

  /** From the goal to all points of the corridor, with what a wire meets on the way. */
  #spread(field: Field, to: readonly Gate[], meeting: Meeting): void {
    const [left, queue, delta] = [this.#left, this.#queue, this.#delta];
    const { blocked, wood } = field;
    const { isBound = false } = meeting;
    queue.clear();
    for (const { cell } of to) {
      if (blocked[cell] !== 0 || left[cell] === outside) continue;
      left[cell] = 0;
      queue.push(cell, 0);
    }
    for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
      const sum = queue.least();
      if (sum > (left[cell] ?? 0)) continue;
      this.#steps += 1;
      for (let heading = 0; heading < 8; heading++) {
        const next = cell + (delta[heading] ?? 0);
        const known = left[next] ?? outside;
        if (known === outside || blocked[next] !== 0 || (isBound && wood[next] === 1)) continue;
        const reached = sum + priceOf(field, cell, heading, meeting);
        if (reached >= known) continue;
        left[next] = reached;
        queue.push(next, reached);
      }
    }
  }
}

/** What it costs to come to a point, with what is met there. */
function priceOf({ surcharge, wires }: Field, cell: number, heading: number, { overlap, crossing, ease = 0 }: Meeting): number {
  const along = wires[4 * cell + (heading & 3)] ?? 0;
  const met = (along > 0 ? overlap : 0) + (wiresAt(wires, cell) > along ? crossing : 0);
  return met + ((surcharge[cell] ?? 0) >> ease) + ((heading & 1) === 0 ? prices.step : prices.slant);
}

/** Grid points in a row on the far side of an edge, and the axis of what passes it. */
interface Edge {
  readonly cell: number;
  readonly along: number;
  readonly length: number;
  readonly axis: 0 | 2;
}

const moves = [
  [0, -1],
  [1, -1],
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
  [-1, -1],
] as const;
