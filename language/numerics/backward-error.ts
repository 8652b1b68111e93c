/** How far a solution is from meeting its equations. */
import type { Plan } from './elimination-plan.js';
import { rightHandSide, type Probe } from './equations.js';
import type { Rows } from './rows.js';

/** Largest backward error that passes: each equation may be off by this share of its own terms. */
export const tolerance = 1e-10;

/** By frequency. */
export interface BackwardErrors {
  /** The largest of all equations: 0 where all are met, Infinity where the solution is not a number. */
  readonly error: Float64Array;
  /** The unknown of the equation that is off by it; −1 where all are met. */
  readonly worst: Int32Array;
}

export interface BackwardError {
  /** Measures a solution, with the matrix values and the unknowns in rows from these on. */
  measure(rows: Rows, at: { readonly matrix: number; readonly x: number }, probe: Probe): BackwardErrors;
}

/**
 * |A·x − b| of each equation against the sum of the sizes of all its terms, |A|·|x| + |b| (Oettli and Prager, "Compatibility of approximate
 * solution of linear equations with given error bounds", Numerische Mathematik 6, 1964), sizes as |re| + |im|. An equation without any
 * terms is met.
 */
export function createBackwardError({ equations }: Pick<Plan, 'equations'>): BackwardError {
  let sums = createSums(0);
  return {
    measure(rows, at, probe) {
      const { width } = rows;
      const found = { error: new Float64Array(width), worst: new Int32Array(width).fill(-1) };
      if (sums.re.length !== width) sums = createSums(width);
      for (const { unknown, terms } of equations) {
        const b = rightHandSide(probe, unknown);
        sums.re.fill(-b);
        sums.im.fill(0);
        sums.size.fill(Math.abs(b));
        for (const term of terms) addTerm(sums, rows, at.matrix + term.value, at.x + term.unknown);
        compare(sums, found, unknown);
      }
      return found;
    },
  };
}

/** What is left of one equation, and the size of its terms, by frequency. */
interface Sums {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly size: Float64Array;
}

function createSums(width: number): Sums {
  return { re: new Float64Array(width), im: new Float64Array(width), size: new Float64Array(width) };
}

// The invariant behind the assertions below: the arrays of the sums and of the errors are as long as a row is wide, and both rows are there.

function addTerm(sums: Sums, { re, im, width }: Rows, value: number, unknown: number): void {
  const [a, x] = [value * width, unknown * width];
  for (let f = 0; f < width; f++) {
    const p = re[a + f]!;
    const q = im[a + f]!;
    const u = re[x + f]!;
    const w = im[x + f]!;
    sums.re[f] = sums.re[f]! + (p * u - q * w);
    sums.im[f] = sums.im[f]! + (p * w + q * u);
    sums.size[f] = sums.size[f]! + (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
  }
}

function compare(sums: Sums, { error, worst }: BackwardErrors, unknown: number): void {
  for (let f = 0; f < error.length; f++) {
    const off = Math.abs(sums.re[f]!) + Math.abs(sums.im[f]!);
    // What is not a number counts as the worst of all, and no later equation takes its place.
    if (off === 0 || error[f] === Infinity || off <= error[f]! * sums.size[f]!) continue;
    const share = off / sums.size[f]!;
    error[f] = share >= 0 ? share : Infinity;
    worst[f] = unknown;
  }
}
