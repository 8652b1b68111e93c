/** Sparse elimination planned once and run over many frequencies at a time. */
import type { System } from './system.js';

/**
 * The order of elimination (fewest neighbours first, the output last) and where every value lies. The pattern is symmetric; values are not.
 * A matrix value `v` at frequency `f` of a block lies at `v * block + f`, so each step of the elimination is one run over a row of numbers.
 */
export interface Plan {
  readonly size: number;
  readonly values: number;
  /** Unknowns in the order in which they are eliminated. */
  readonly order: Int32Array;
  /** Value of each diagonal, by unknown. */
  readonly diagonal: Int32Array;
  /** Per step, the unknowns left that its pivot touches. */
  readonly rest: readonly (readonly number[])[];
  /** Per step: value (i, pivot) and value (pivot, i) of each unknown `i` in `rest`. */
  readonly lower: readonly (readonly number[])[];
  readonly upper: readonly (readonly number[])[];
  /** Per step: value (i, j) for each pair in `rest`, row by row. */
  readonly fill: readonly (readonly number[])[];
  /** Value of each entry of the system; of the four places of each winding (−1 where one is the reference). */
  readonly entry: Int32Array;
  readonly winding: Int32Array;
  /** Values that are more than fill-in come first: their number, the column of each, and those of each row. */
  readonly own: number;
  readonly columns: Int32Array;
  readonly valuesOfRow: readonly (readonly number[])[];
}

/** Plans the elimination of a system; `last` is eliminated last, so that a unit at the output needs no forward step. */
export function createPlan(system: System, last: number): Plan {
  const { size } = system;
  const value = new Int32Array(size * size).fill(-1);
  const rows: number[] = [];
  const columns: number[] = [];
  const place = (row: number, column: number): number => {
    if (row < 0 || column < 0) return -1;
    const at = row * size + column;
    if (value[at] === -1) {
      value[at] = rows.length;
      rows.push(row);
      columns.push(column);
    }
    return value[at]!;
  };
  const diagonal = new Int32Array(size);
  for (let i = 0; i < size; i++) diagonal[i] = place(i, i);
  const { rows: entryRows, columns: entryColumns } = system.entries;
  const entry = new Int32Array(entryRows.length);
  for (let i = 0; i < entry.length; i++) entry[i] = place(entryRows[i]!, entryColumns[i]!);
  const winding = new Int32Array(4 * system.windings.length);
  system.windings.forEach(({ from, to }, i) => {
    winding[4 * i] = place(from, from);
    winding[4 * i + 1] = place(to, to);
    winding[4 * i + 2] = place(from, to);
    winding[4 * i + 3] = place(to, from);
  });
  const own = rows.length;
  const neighbours: number[][] = Array.from({ length: size }, () => []);
  const valuesOfRow: number[][] = Array.from({ length: size }, () => []);
  for (let v = 0; v < own; v++) {
    const [row, column] = [rows[v]!, columns[v]!];
    valuesOfRow[row]!.push(v);
    if (row === column) continue;
    if (!neighbours[row]!.includes(column)) neighbours[row]!.push(column);
    if (!neighbours[column]!.includes(row)) neighbours[column]!.push(row);
  }
  // A branch current without impedance has nothing on its diagonal: it must wait for its nodes.
  const late = new Uint8Array(size);
  for (const { unknown } of system.currents) late[unknown] = 1;
  const order = new Int32Array(size);
  const done = new Uint8Array(size);
  const rest: (readonly number[])[] = [];
  const lower: (readonly number[])[] = [];
  const upper: (readonly number[])[] = [];
  const fill: (readonly number[])[] = [];
  for (let step = 0; step < size; step++) {
    const pivot = choose(neighbours, done, late, last);
    done[pivot] = 1;
    order[step] = pivot;
    const left = neighbours[pivot]!.filter((other) => done[other] === 0);
    for (const a of left) for (const b of left) if (a !== b && !neighbours[a]!.includes(b)) neighbours[a]!.push(b);
    for (const other of left) neighbours[other] = neighbours[other]!.filter((at) => at !== pivot);
    rest.push(left);
    lower.push(left.map((other) => place(other, pivot)));
    upper.push(left.map((other) => place(pivot, other)));
    const filled: number[] = [];
    for (const a of left) for (const b of left) filled.push(place(a, b));
    fill.push(filled);
  }
  return {
    size,
    values: rows.length,
    order,
    diagonal,
    rest,
    lower,
    upper,
    fill,
    entry,
    winding,
    own,
    columns: Int32Array.from(columns.slice(0, own)),
    valuesOfRow,
  };
}

function choose(neighbours: readonly (readonly number[])[], done: Uint8Array, late: Uint8Array, last: number): number {
  let best = -1;
  let least = Infinity;
  for (let i = 0; i < neighbours.length; i++) {
    if (done[i] === 1) continue;
    const weight = i === last ? Number.MAX_VALUE : neighbours[i]!.length + (late[i] === 1 ? neighbours.length : 0);
    if (weight < least) [best, least] = [i, weight];
  }
  return best;
}

/** Factors a block of `count` matrices in place; `inverse` receives the reciprocal pivots by unknown. Nothing is checked here: the residual is. */
export function factor(
  plan: Plan,
  re: Float64Array,
  im: Float64Array,
  inverse: { re: Float64Array; im: Float64Array },
  count: number,
): void {
  for (let step = 0; step < plan.size; step++) {
    const pivot = plan.order[step]!;
    reciprocal(re, im, plan.diagonal[pivot]! * count, inverse.re, inverse.im, pivot * count, count);
    const lower = plan.lower[step]!;
    const upper = plan.upper[step]!;
    const fill = plan.fill[step]!;
    for (let i = 0; i < lower.length; i++) {
      scale(re, im, lower[i]! * count, inverse.re, inverse.im, pivot * count, count);
      for (let j = 0; j < upper.length; j++) {
        subtractProduct(re, im, fill[i * upper.length + j]! * count, re, im, lower[i]! * count, re, im, upper[j]! * count, count);
      }
    }
  }
}

/** Solves a factored block for right-hand sides in `x` (by unknown), in place. `from` is the first step whose right-hand side is not nothing. */
export function substitute(
  plan: Plan,
  re: Float64Array,
  im: Float64Array,
  inverse: { readonly re: Float64Array; readonly im: Float64Array },
  x: { readonly re: Float64Array; readonly im: Float64Array },
  from: number,
  count: number,
): void {
  for (let step = from; step < plan.size; step++) {
    const pivot = plan.order[step]! * count;
    const lower = plan.lower[step]!;
    const rest = plan.rest[step]!;
    for (let i = 0; i < rest.length; i++)
      subtractProduct(x.re, x.im, rest[i]! * count, re, im, lower[i]! * count, x.re, x.im, pivot, count);
  }
  for (let step = plan.size - 1; step >= 0; step--) {
    const pivot = plan.order[step]! * count;
    const upper = plan.upper[step]!;
    const rest = plan.rest[step]!;
    for (let i = 0; i < rest.length; i++)
      subtractProduct(x.re, x.im, pivot, re, im, upper[i]! * count, x.re, x.im, rest[i]! * count, count);
    scale(x.re, x.im, pivot, inverse.re, inverse.im, pivot, count);
  }
}

function reciprocal(
  re: Float64Array,
  im: Float64Array,
  at: number,
  outRe: Float64Array,
  outIm: Float64Array,
  out: number,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    const x = re[at + f]!;
    const y = im[at + f]!;
    const size = 1 / (x * x + y * y);
    outRe[out + f] = x * size;
    outIm[out + f] = -y * size;
  }
}

/** a ← a · b */
function scale(
  aRe: Float64Array,
  aIm: Float64Array,
  a: number,
  bRe: Float64Array,
  bIm: Float64Array,
  b: number,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    const x = aRe[a + f]!;
    const y = aIm[a + f]!;
    const u = bRe[b + f]!;
    const v = bIm[b + f]!;
    aRe[a + f] = x * u - y * v;
    aIm[a + f] = x * v + y * u;
  }
}

/** t ← t − a · b */
function subtractProduct(
  tRe: Float64Array,
  tIm: Float64Array,
  t: number,
  aRe: Float64Array,
  aIm: Float64Array,
  a: number,
  bRe: Float64Array,
  bIm: Float64Array,
  b: number,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    const x = aRe[a + f]!;
    const y = aIm[a + f]!;
    const u = bRe[b + f]!;
    const v = bIm[b + f]!;
    tRe[t + f] = tRe[t + f]! - (x * u - y * v);
    tIm[t + f] = tIm[t + f]! - (x * v + y * u);
  }
}
