/** The arithmetic of one front: symmetric, its upper half kept; value (i, j) of a front of `side` unknowns is the row `i * side + j` from its first on. */
import { addScaled, copyRows, fillRows, multiply, reciprocal, type Rows, squareAt, subtractProduct } from './rows.js';

/** A pivot below this share of its row loses so many figures that another order is needed. */
const smallest = 1e-6;

/** Where a front lies and what it leaves: each is the number of a first row. */
export interface FrontRows {
  readonly front: number;
  /** Unknowns in the front: its own and the later ones that it touches. */
  readonly side: number;
  /** Per later unknown, what it is multiplied by and taken from to give the front's own. */
  readonly multipliers: number;
  /** What is left for the parent. */
  readonly block: number;
  /** A row to work in. */
  readonly scratch: number;
}

/** Adds a conductance to a value. */
export function addReal({ re, width }: Rows, row: number, siemens: number): void {
  // As everywhere here, the row is one of the rows, so that all of its places are there.
  for (let at = row * width; at < (row + 1) * width; at++) re[at] = re[at]! + siemens;
}

/** Adds a constant that is real and one that is multiplied by jω. */
export function addLinear(rows: Rows, row: number, real: number, slope: number, omega: Float64Array): void {
  addReal(rows, row, real);
  if (slope === 0) return;
  const { im, width } = rows;
  let at = row * width;
  for (const one of omega) {
    im[at] = im[at]! + slope * one;
    at++;
  }
}

/** Adds what a child has left, at its places in this front. */
export function addBlock(rows: Rows, front: number, side: number, block: number, places: readonly number[]): void {
  let i = 0;
  for (const row of places) {
    let j = 0;
    for (const column of places) {
      if (j >= i) addScaled(rows, front + row * side + column, rows, block + i * places.length + j, 1);
      j++;
    }
    i++;
  }
}

/** Leaves out the first unknown of a front, which is the reference's. */
export function ground(rows: Rows, { front, side, multipliers, block }: FrontRows): void {
  const m = side - 1;
  fillRows(rows, multipliers, m, 0);
  for (let i = 0; i < m; i++) copyRows(rows, block + i * m + i, front + (i + 1) * side + i + 1, m - i);
}

/** Joins the first unknown of a front to another place in it, by adding its row and column to those of the place. */
export function joinTo(rows: Rows, at: FrontRows, joined: number): void {
  ground(rows, at);
  const { front, side, multipliers, block } = at;
  const m = side - 1;
  fillRows(rows, multipliers + joined - 1, 1, -1);
  for (let j = 0; j <= m; j++) {
    const place = j === 0 ? joined : j;
    const to = block + (Math.min(joined, place) - 1) * m + Math.max(joined, place) - 1;
    addScaled(rows, to, rows, front + j, j === joined ? 2 : 1);
  }
}

/** Eliminates the first unknown of a front; false where its pivot is too small beside its row. */
export function eliminateFirst(rows: Rows, at: FrontRows): boolean {
  ground(rows, at);
  const { front, side, multipliers, block, scratch } = at;
  const m = side - 1;
  if (!isPivot(rows, front, side)) return false;
  reciprocal(rows, scratch, front);
  for (let j = 0; j < m; j++) multiply(rows, multipliers + j, front + j + 1, scratch);
  for (let i = 0; i < m; i++) {
    for (let j = i; j < m; j++) subtractProduct(rows, block + i * m + j, multipliers + i, front + j + 1);
  }
  return true;
}

function isPivot(rows: Rows, front: number, side: number): boolean {
  for (let f = 0; f < rows.width; f++) {
    const square = squareAt(rows, front, f);
    if (!(square > 0 && square < Infinity)) return false;
    for (let j = 1; j < side; j++) if (!(square > smallest * smallest * squareAt(rows, front + j, f))) return false;
  }
  return true;
}
