/** One frequency solved again with partial pivoting, where the planned order has met a vanishing pivot. */
import { type DenseRow, solveDense } from './dense.js';
import type { Plan } from './elimination-plan.js';
import { type Probe, rightHandSide } from './equations.js';
import type { Rows } from './rows.js';

/**
 * Solves at the `f`-th frequency and writes the unknowns into `x`; the matrix lies in rows from `at.matrix` on. Returns −1, or the unknown whose
 * column holds no pivot, and all unknowns are zero then.
 */
export function solvePivoted(
  { size, isSymmetric, values }: Plan,
  rows: Rows,
  at: { readonly matrix: number; readonly x: number },
  probe: Probe,
  f: number,
): number {
  const { re, im, width } = rows;
  const matrix = Array.from({ length: size }, (_, row): DenseRow => {
    const equation = { re: new Float64Array(size + 1), im: new Float64Array(size + 1) };
    equation.re[size] = rightHandSide(probe, row);
    return equation;
  });
  const put = (row: number, column: number, place: number): void => {
    const equation = matrix[row];
    if (equation === undefined) return;
    // The plan numbers no more values than there are rows of them.
    equation.re[column] = re[place]!;
    equation.im[column] = im[place]!;
  };
  for (const [value, { row, column }] of values.entries()) {
    put(row, column, (at.matrix + value) * width + f);
    if (isSymmetric) put(column, row, (at.matrix + value) * width + f);
  }
  const result = solveDense(matrix);
  for (let unknown = 0; unknown < size; unknown++) {
    const solved = result.ok ? result.rows[unknown] : undefined;
    re[(at.x + unknown) * width + f] = solved?.re[size] ?? 0;
    im[(at.x + unknown) * width + f] = solved?.im[size] ?? 0;
  }
  return result.ok ? -1 : result.unknown;
}
