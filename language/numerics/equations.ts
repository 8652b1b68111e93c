/** Equations as numbers alone: what is in a matrix at every frequency, and which admittances are worked out for each. */
import type { Rows } from './rows.js';

/** The constant entries of a matrix: at a place, a real value, and one that is multiplied by jω. Entries at the same place add up. */
export interface Entries {
  /** Adds an entry; a place with a negative row or column is the reference's, and is left out. */
  add(row: number, column: number, real: number, slope?: number): void;
  each(visit: (row: number, column: number, real: number, slope: number) => void): void;
}

/** An admittance between two unknowns (−1 is the reference) whose value is worked out anew at each frequency. */
export interface Admittance {
  readonly from: number;
  readonly to: number;
}

/** A·x = b for right-hand sides of which the entries are 1, −1 and 0. */
export interface Equations {
  readonly size: number;
  /** True where the matrix equals its mirror image: each pair of places is one value then. */
  readonly isSymmetric: boolean;
  readonly entries: Entries;
  readonly admittances: readonly Admittance[];
  /** Unknowns that may have nothing on their diagonal, and are eliminated after their neighbours. */
  readonly late: ReadonlySet<number>;
  /** Writes the admittances, in their order, into rows from `row` on: siemens at these angular frequencies, as many as a row is wide. */
  evaluate(omega: Float64Array, rows: Rows, row: number): void;
}

/** One volt read between two unknowns (−1 is the reference): the right-hand side is 1 at `plus` and −1 at `minus`. */
export interface Probe {
  readonly plus: number;
  readonly minus: number;
}

/** The entry of the right-hand side in this row. */
export function rightHandSide({ plus, minus }: Probe, row: number): number {
  return row === plus ? 1 : row === minus ? -1 : 0;
}

/** No entries yet. Four columns of numbers, since a matrix is made anew for every setting and objects would take longer than the sums. */
export function createEntries(): Entries {
  const rows: number[] = [];
  const columns: number[] = [];
  const reals: number[] = [];
  const slopes: number[] = [];
  return {
    add(row, column, real, slope = 0) {
      if (row < 0 || column < 0) return;
      rows.push(row);
      columns.push(column);
      reals.push(real);
      slopes.push(slope);
    },
    each(visit) {
      // The four are filled together, so that an index of one is an index of all.
      for (let i = 0; i < rows.length; i++) visit(rows[i]!, columns[i]!, reals[i]!, slopes[i]!);
    },
  };
}
