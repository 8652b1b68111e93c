/** Whether a solution meets its equations. */
import { createRows, type Rows } from './block.js';
import type { Plan } from './elimination-plan.js';

/** Largest backward error that passes: each equation may be off by this share of its own terms. */
export const tolerance = 1e-10;

/** What is left of an equation and the size of its terms, where a row has too many neighbours for one run. */
let left = createRows(0);
let terms = new Float64Array(0);

/**
 * A quick bound of the backward error by frequency into `error`: |A·x − b| against the diagonal term of each row alone. It is never less
 * than the true one, with all terms (Oettli and Prager, 1964), so what passes here passes there; what fails is looked at by `isSolved`.
 */
export function boundError(plan: Plan, a: Rows, x: Rows, plus: number, minus: number, error: Float64Array, count: number): void {
  error.fill(0, 0, count);
  for (let row = 0; row < plan.size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    const values = plan.valuesOfRow[row]!;
    const columns = plan.columnsOfRow[row]!;
    const d = plan.diagonal[row]! * count;
    if (values.length === 1) rowOfTwo(a, x, d, row * count, values[0]! * count, columns[0]! * count, b, error, count);
    else rowOfMany(a, x, d, row * count, values, columns, b, error, count);
  }
}

/** A node with one neighbour, in one run. */
function rowOfTwo(
  a: Rows,
  x: Rows,
  d: number,
  i: number,
  v: number,
  j: number,
  b: number,
  error: Float64Array,
  count: number,
): void {
  const { re, im } = a;
  const { re: xRe, im: xIm } = x;
  const size = Math.abs(b);
  for (let f = 0; f < count; f++) {
    const p = re[d + f]!;
    const q = im[d + f]!;
    const u = xRe[i + f]!;
    const w = xIm[i + f]!;
    const r = re[v + f]!;
    const s = im[v + f]!;
    const y = xRe[j + f]!;
    const z = xIm[j + f]!;
    const off = Math.abs(p * u - q * w + (r * y - s * z) - b) + Math.abs(p * w + q * u + (r * z + s * y));
    const own = size + (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
    // A row of nothing is right as it stands.
    if (off !== 0 && !(off <= error[f]! * own)) error[f] = worse(off, own);
  }
}

function rowOfMany(
  a: Rows,
  x: Rows,
  d: number,
  i: number,
  values: readonly number[],
  columns: readonly number[],
  b: number,
  error: Float64Array,
  count: number,
): void {
  if (terms.length < count) {
    left = createRows(2 * count);
    terms = new Float64Array(2 * count);
  }
  beginRow(a, d, x, i, b, count);
  let at = 0;
  for (; at + 1 < values.length; at += 2) {
    addProducts(a, x, values[at]! * count, columns[at]! * count, values[at + 1]! * count, columns[at + 1]! * count, count);
  }
  if (at < values.length) addProduct(a, values[at]! * count, x, columns[at]! * count, count);
  endRow(error, count);
}

function beginRow(a: Rows, d: number, x: Rows, i: number, b: number, count: number): void {
  const { re, im } = a;
  const { re: xRe, im: xIm } = x;
  const { re: leftRe, im: leftIm } = left;
  const size = Math.abs(b);
  for (let f = 0; f < count; f++) {
    const p = re[d + f]!;
    const q = im[d + f]!;
    const u = xRe[i + f]!;
    const w = xIm[i + f]!;
    leftRe[f] = p * u - q * w - b;
    leftIm[f] = p * w + q * u;
    terms[f] = size + (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
  }
}

function addProducts(a: Rows, x: Rows, v: number, i: number, w: number, j: number, count: number): void {
  const { re, im } = a;
  const { re: xRe, im: xIm } = x;
  const { re: leftRe, im: leftIm } = left;
  for (let f = 0; f < count; f++) {
    const p = re[v + f]!;
    const q = im[v + f]!;
    const r = xRe[i + f]!;
    const s = xIm[i + f]!;
    const t = re[w + f]!;
    const u = im[w + f]!;
    const y = xRe[j + f]!;
    const z = xIm[j + f]!;
    leftRe[f] = leftRe[f]! + (p * r - q * s) + (t * y - u * z);
    leftIm[f] = leftIm[f]! + (p * s + q * r) + (t * z + u * y);
  }
}

function addProduct(a: Rows, at: number, x: Rows, i: number, count: number): void {
  const { re, im } = a;
  const { re: xRe, im: xIm } = x;
  const { re: leftRe, im: leftIm } = left;
  for (let f = 0; f < count; f++) {
    const p = re[at + f]!;
    const q = im[at + f]!;
    const u = xRe[i + f]!;
    const w = xIm[i + f]!;
    leftRe[f] = leftRe[f]! + (p * u - q * w);
    leftIm[f] = leftIm[f]! + (p * w + q * u);
  }
}

function endRow(error: Float64Array, count: number): void {
  const { re: leftRe, im: leftIm } = left;
  for (let f = 0; f < count; f++) {
    const off = Math.abs(leftRe[f]!) + Math.abs(leftIm[f]!);
    if (off !== 0 && !(off <= error[f]! * terms[f]!)) error[f] = worse(off, terms[f]!);
  }
}

/** NaN counts as the worst of all, so that no later row takes its place. */
function worse(off: number, own: number): number {
  const error = off / own;
  return error >= 0 ? error : Infinity;
}

/** True where one frequency of a block meets all its equations within the tolerance, each against all of its own terms. */
export function isSolved(plan: Plan, a: Rows, x: Rows, plus: number, minus: number, count: number, f: number): boolean {
  for (let row = 0; row < plan.size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    let [offRe, offIm, size] = [-b, 0, Math.abs(b)];
    const values = [plan.diagonal[row]!, ...plan.valuesOfRow[row]!];
    const columns = [row, ...plan.columnsOfRow[row]!];
    for (let i = 0; i < values.length; i++) {
      const p = a.re[values[i]! * count + f]!;
      const q = a.im[values[i]! * count + f]!;
      const u = x.re[columns[i]! * count + f]!;
      const w = x.im[columns[i]! * count + f]!;
      offRe += p * u - q * w;
      offIm += p * w + q * u;
      size += (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
    }
    if (!(Math.abs(offRe) + Math.abs(offIm) <= tolerance * size)) return false;
  }
  return true;
}
