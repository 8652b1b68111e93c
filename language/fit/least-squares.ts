/** Least squares for a few parameters: Levenberg–Marquardt with bounds, and what the data leave open of each parameter. */

/** The residuals of these parameters; the sum of their squares is made least. */
export type Residuals = (parameters: readonly number[]) => readonly number[];

export interface Bound {
  readonly least: number;
  readonly most: number;
}

export interface Solved {
  readonly parameters: readonly number[];
  /** Sum of the squares of the residuals. */
  readonly squares: number;
  /** Standard error of each parameter, by the curvature at the solution; Infinity where the data leave it open or it lies at a bound. */
  readonly errors: readonly number[];
}

const rounds = 200;
/** The step of a parameter for its derivative; the parameters are logarithms. */
const step = 1e-5;
/** A share of the diagonal below which a parameter counts as left open. */
const open = 1e-10;

/**
 * Minimises from a start within the bounds (K. Levenberg, 1944; D. W. Marquardt, 1963: the damping goes by the diagonal). `freedom` is how many of the residuals
 * say something of their spread: their number without what else was taken from them.
 */
export function leastSquares(residuals: Residuals, start: readonly number[], bounds: readonly Bound[], freedom: number): Solved {
  const within = (values: readonly number[]): number[] =>
    values.map((value, i) => Math.min(Math.max(value, bounds[i]?.least ?? -Infinity), bounds[i]?.most ?? Infinity));
  let parameters = within(start);
  let found = residuals(parameters);
  let squares = sumOfSquares(found);
  let damping = 1e-2;
  for (let round = 0; round < rounds && damping < 1e10; round++) {
    const { matrix, gradient } = normalEquations(residuals, parameters, found);
    const move = solved(
      matrix.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) + Number.MIN_VALUE : value))),
      gradient,
    );
    if (move === undefined) {
      damping *= 10;
      continue;
    }
    const next = within(parameters.map((value, i) => value - Math.max(-1, Math.min(1, move[i] ?? 0))));
    const there = residuals(next);
    const sum = sumOfSquares(there);
    if (!(sum < squares)) {
      damping *= 4;
      continue;
    }
    const isDone = squares - sum <= 1e-11 * squares;
    [parameters, found, squares, damping] = [next, there, sum, Math.max(damping / 5, 1e-12)];
    if (isDone) break;
  }
  return {
    parameters,
    squares,
    errors: errorsAt(residuals, parameters, found, bounds, squares / Math.max(freedom - start.length, 1)),
  };
}

function errorsAt(
  residuals: Residuals,
  parameters: readonly number[],
  found: readonly number[],
  bounds: readonly Bound[],
  variance: number,
): readonly number[] {
  const { matrix } = normalEquations(residuals, parameters, found);
  return parameters.map((value, i) => {
    const { least = -Infinity, most = Infinity } = bounds[i] ?? {};
    if (value <= least || value >= most) return Infinity;
    const unit = parameters.map((_, j) => (i === j ? 1 : 0));
    const inverse = solved(matrix, unit)?.[i];
    return inverse === undefined || !(inverse > 0) ? Infinity : Math.sqrt(variance * inverse);
  });
}

interface NormalEquations {
  readonly matrix: readonly (readonly number[])[];
  readonly gradient: readonly number[];
}

function normalEquations(residuals: Residuals, parameters: readonly number[], found: readonly number[]): NormalEquations {
  const slopes = parameters.map((_, i) => {
    const at = (turn: number): readonly number[] => residuals(parameters.map((value, j) => (i === j ? value + turn : value)));
    const [up, down] = [at(step), at(-step)];
    return up.map((value, k) => (value - (down[k] ?? 0)) / (2 * step));
  });
  return {
    matrix: slopes.map((one) => slopes.map((other) => product(one, other))),
    gradient: slopes.map((slope) => product(slope, found)),
  };
}

/** Cholesky's solution of a symmetric, positive system; nothing where it is not. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] | undefined {
  const lower = lowerFactor(matrix);
  if (lower === undefined) return undefined;
  const forward: number[] = [];
  lower.forEach((row, i) => forward.push(((right[i] ?? 0) - product(row.slice(0, i), forward)) / (row[i] ?? 1)));
  const back = Array<number>(right.length).fill(0);
  for (let i = right.length - 1; i >= 0; i--) {
    const column = lower.map((row) => row[i] ?? 0);
    back[i] = ((forward[i] ?? 0) - product(column, back)) / (column[i] ?? 1);
  }
  return back;
}

/** The lower triangle whose product with its transpose is the matrix. */
function lowerFactor(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] | undefined {
  const lower: number[][] = [];
  for (const [i, entries] of matrix.entries()) {
    const row: number[] = [];
    for (const above of lower) row.push(((entries[row.length] ?? 0) - product(above.slice(0, -1), row)) / (above.at(-1) ?? 1));
    const rest = (entries[i] ?? 0) - product(row, row);
    if (!(rest > open * (entries[i] ?? 0))) return undefined;
    lower.push([...row, Math.sqrt(rest)]);
  }
  return lower;
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0);
}

function sumOfSquares(values: readonly number[]): number {
  return product(values, values);
}
