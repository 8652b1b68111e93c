/** Dense complex elimination with partial pivoting: slower, and safe where the planned order meets a vanishing pivot. */

/** One equation: its coefficients, and after them the right-hand side. */
export interface DenseRow {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** The solution in the last number of each row, or the unknown whose column holds no pivot. */
export type DenseResult =
  { readonly ok: true; readonly rows: readonly DenseRow[] } | { readonly ok: false; readonly unknown: number };

/** A column whose largest entry is below this share of what it held at the start counts as empty. */
const empty = 1e-13;

/** Solves as many equations as they have unknowns. The rows are overwritten; the result has them in the order of the unknowns. */
export function solveDense(equations: readonly DenseRow[]): DenseResult {
  const size = equations.length;
  const starts = equations.map((_, column) => Math.max(...equations.map((row) => sizeAt(row, column))));
  let left = [...equations];
  const rows: DenseRow[] = [];
  for (const [column, start] of starts.entries()) {
    const [first] = left;
    let [pivot, most] = [first, 0];
    for (const row of left) {
      const magnitude = sizeAt(row, column);
      if (magnitude > most) [pivot, most] = [row, magnitude];
    }
    if (pivot === undefined || !(most > empty * start)) return { ok: false, unknown: column };
    left = left.filter((row) => row !== pivot);
    for (const row of left) subtract(row, pivot, column, column);
    rows.push(pivot);
  }
  for (let column = size - 1; column >= 0; column--) {
    const solved = rows[column];
    if (solved === undefined) continue;
    divide(solved, column);
    for (const row of rows.slice(0, column)) subtract(row, solved, column, size - 1);
  }
  return { ok: true, rows };
}

// The invariant behind the assertions below: each row has one number more than there are equations, and `column` is one of the unknowns.

function sizeAt({ re, im }: DenseRow, column: number): number {
  return Math.abs(re[column]!) + Math.abs(im[column]!);
}

/** Takes the multiple of `pivot` from a row that leaves nothing in `column`; the numbers up to `after` are not worked out. */
function subtract(row: DenseRow, pivot: DenseRow, column: number, after: number): void {
  const [p, q] = [row.re[column]!, row.im[column]!];
  if (p === 0 && q === 0) return;
  const [x, y] = [pivot.re[column]!, pivot.im[column]!];
  const scale = 1 / (x * x + y * y);
  const u = (p * x + q * y) * scale;
  const v = (q * x - p * y) * scale;
  for (let j = after + 1; j < row.re.length; j++) {
    const [r, s] = [pivot.re[j]!, pivot.im[j]!];
    row.re[j] = row.re[j]! - (u * r - v * s);
    row.im[j] = row.im[j]! - (u * s + v * r);
  }
}

/** The right-hand side by the coefficient in `column`, which becomes 1. */
function divide({ re, im }: DenseRow, column: number): void {
  const last = re.length - 1;
  const [x, y] = [re[column]!, im[column]!];
  const [p, q] = [re[last]!, im[last]!];
  const scale = 1 / (x * x + y * y);
  re[last] = (p * x + q * y) * scale;
  im[last] = (q * x - p * y) * scale;
  re[column] = 1;
  im[column] = 0;
}
