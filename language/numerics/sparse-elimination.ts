/** The planned elimination at several frequencies at once, and the rows that it works in. */
import type { Plan, Step } from './elimination-plan.js';
import { createRows, multiply, reciprocal, type Rows, subtractProduct } from './rows.js';

/** Where everything lies that a solution needs; each is the number of a first row. */
export interface Layout {
  /** The matrix before it is factored, without the fill-in. */
  readonly kept: number;
  /** The reciprocal of each pivot, by unknown. */
  readonly inverse: number;
  /** From here on the rows of a solution: the unknowns, a row of zeros for the reference, the admittances, a row to work in. */
  readonly x: number;
  readonly admittances: number;
  readonly scratch: number;
  /** Rows in all; the matrix, and later its factors, are the first of them. */
  readonly count: number;
}

export function layoutOf(plan: Plan, admittances: number): Layout {
  const kept = plan.count;
  const inverse = kept + plan.values.length;
  const x = inverse + plan.size;
  const first = x + plan.size + 1;
  const scratch = first + admittances;
  return { kept, inverse, x, admittances: first, scratch, count: scratch + 1 };
}

/** Rows for a layout: the earlier ones where they are large enough, whatever they hold. */
export function reserveRows(earlier: Rows, { count }: Layout, width: number): Rows {
  const { re, im } = earlier;
  return re.length < count * width ? createRows(count, width) : { re, im, width };
}

/** Factors the matrix in place. Nothing is checked here: the backward error of the solution is. */
export function factor({ steps }: Plan, rows: Rows, { inverse, scratch }: Layout): void {
  for (const { pivot, diagonal, neighbours } of steps) {
    reciprocal(rows, inverse + pivot, diagonal);
    for (const { lower, changes } of neighbours) {
      multiply(rows, scratch, lower, inverse + pivot);
      for (const { to, upper } of changes) subtractProduct(rows, to, scratch, upper);
    }
  }
}

/** Carries the right-hand side in `x` through these steps, in their order. */
export function substituteForward(steps: readonly Step[], rows: Rows, { inverse, x, scratch }: Layout): void {
  for (const { pivot, neighbours } of steps) {
    if (neighbours.length > 0) multiply(rows, scratch, x + pivot, inverse + pivot);
    for (const { unknown, lower } of neighbours) subtractProduct(rows, x + unknown, lower, scratch);
  }
}

/** Turns the right-hand side in `x` into the solution; the steps are given from the last to the first. */
export function substituteBackward(steps: readonly Step[], rows: Rows, { inverse, x }: Layout): void {
  for (const { pivot, neighbours } of steps) {
    for (const { unknown, upper } of neighbours) subtractProduct(rows, x + pivot, upper, x + unknown);
    multiply(rows, x + pivot, x + pivot, inverse + pivot);
  }
}
