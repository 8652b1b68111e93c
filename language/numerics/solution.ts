/** What solving some equations at several frequencies gives. */
import { addScaled, copyRows, multiply, type Rows } from './rows.js';
import type { Layout } from './sparse-elimination.js';

export interface Solution {
  readonly rows: Rows;
  /** Where the unknowns, a row of zeros for the reference, the admittances and a row to work in are. */
  readonly layout: Pick<Layout, 'x' | 'admittances' | 'scratch'>;
  readonly size: number;
  /** An unknown that nothing decides at some frequency; all unknowns are zero there. */
  readonly undecided?: number;
}

/** The row of an unknown; the reference (−1) is zero. */
export function rowOf({ layout, size }: Solution, unknown: number): number {
  return layout.x + (unknown < 0 ? size : unknown);
}

/** The current that an admittance carries for the difference of two unknowns, in the row to work in: y · (x_to − x_from). */
export function currentThrough(solution: Solution, admittance: number, from: number, to: number): number {
  const { rows, layout } = solution;
  const { scratch, admittances } = layout;
  // The ends of a coil that floats far from ground are nearly alike, so they are subtracted first.
  copyRows(rows, scratch, rowOf(solution, to), 1);
  addScaled(rows, scratch, rows, rowOf(solution, from), -1);
  multiply(rows, scratch, scratch, admittances + admittance);
  return scratch;
}
