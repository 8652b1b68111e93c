/** The equations of a small network at one frequency, stored transposed, set up and solved in memory that is used again. */
// The invariant behind the assertions below: an unknown is less than the size, so that its row and column lie within the arrays.
import { magnitude } from './magnitude.js';
import { tolerance } from './backward-error.js';

export interface SmallSystem {
  /** Begins anew with so many unknowns, at most those that it was made for. */
  clear(size: number): void;
  /** Adds an admittance, in siemens, between two unknowns; −1 is the reference. */
  add(from: number, to: number, re: number, im: number): void;
  /** Adds the current, in amperes per volt between `input` and `minus`, that a stage drives from `minus` into `output`; −1 is the reference. */
  addStage(input: number, output: number, minus: number, siemens: number): void;
  /** Solves for a unit at one unknown. False where an equation is off by more than the tolerance: another order of elimination is needed then. */
  solve(at: number): boolean;
  /** The current that an admittance carries for the difference of two unknowns, as its magnitude: |y · (x_to − x_from)|. */
  current(from: number, to: number, re: number, im: number): number;
}

/** Equations of at most so many unknowns. Elimination in their order, without pivoting; the backward error of each solution is checked. */
export function createSmallSystem(most: number): SmallSystem {
  const matrix = createPlane(most * most);
  const factors = createPlane(most * most);
  // One more than the unknowns: the reference, which stays 0.
  const x = createPlane(most + 1);
  let size = 0;
  const addAt = (place: number, re: number, im: number): void => {
    matrix.re[place] = matrix.re[place]! + re;
    matrix.im[place] = matrix.im[place]! + im;
  };
  const control = (row: number, column: number, siemens: number): void => {
    if (row >= 0 && column >= 0) addAt(row * size + column, siemens, 0);
  };
  return {
    clear(count) {
      size = count;
      matrix.re.fill(0, 0, size * size);
      matrix.im.fill(0, 0, size * size);
    },
    add(from, to, re, im) {
      if (from >= 0) addAt(from * size + from, re, im);
      if (to >= 0) addAt(to * size + to, re, im);
      if (from < 0 || to < 0) return;
      addAt(from * size + to, -re, -im);
      addAt(to * size + from, -re, -im);
    },
    addStage(input, output, minus, siemens) {
      control(input, output, -siemens);
      control(minus, output, siemens);
      control(input, minus, siemens);
      control(minus, minus, -siemens);
    },
    solve(at) {
      factors.re.set(matrix.re.subarray(0, size * size));
      factors.im.set(matrix.im.subarray(0, size * size));
      x.re.fill(0);
      x.im.fill(0);
      x.re[at] = 1;
      eliminate(factors, x, size);
      substitute(factors, x, size);
      for (let row = 0; row < size; row++) if (!isMet(matrix, x, size, row, row === at ? 1 : 0)) return false;
      return true;
    },
    current(from, to, re, im) {
      const [a, b] = [from < 0 ? most : from, to < 0 ? most : to];
      const [u, v] = [x.re[b]! - x.re[a]!, x.im[b]! - x.im[a]!];
      return magnitude(re * u - im * v, re * v + im * u);
    },
  };
}

/** Complex numbers, a matrix row by row. */
interface Plane {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function createPlane(count: number): Plane {
  return { re: new Float64Array(count), im: new Float64Array(count) };
}

/** Leaves an upper triangle; the right-hand side goes along. */
function eliminate({ re, im }: Plane, x: Plane, size: number): void {
  for (let pivot = 0; pivot < size; pivot++) {
    const row = pivot * size;
    const [p, q] = [re[row + pivot]!, im[row + pivot]!];
    const scale = 1 / (p * p + q * q);
    for (let below = pivot + 1; below < size; below++) {
      const start = below * size;
      const [a, b] = [re[start + pivot]!, im[start + pivot]!];
      if (a === 0 && b === 0) continue;
      const [u, v] = [(a * p + b * q) * scale, (b * p - a * q) * scale];
      for (let column = pivot + 1; column < size; column++) {
        const [c, d] = [re[row + column]!, im[row + column]!];
        re[start + column] = re[start + column]! - (u * c - v * d);
        im[start + column] = im[start + column]! - (u * d + v * c);
      }
      const [s, t] = [x.re[pivot]!, x.im[pivot]!];
      x.re[below] = x.re[below]! - (u * s - v * t);
      x.im[below] = x.im[below]! - (u * t + v * s);
    }
  }
}

function substitute({ re, im }: Plane, x: Plane, size: number): void {
  for (let unknown = size - 1; unknown >= 0; unknown--) {
    const row = unknown * size;
    let [s, t] = [x.re[unknown]!, x.im[unknown]!];
    for (let column = unknown + 1; column < size; column++) {
      const [c, d] = [re[row + column]!, im[row + column]!];
      s -= c * x.re[column]! - d * x.im[column]!;
      t -= c * x.im[column]! + d * x.re[column]!;
    }
    const [p, q] = [re[row + unknown]!, im[row + unknown]!];
    const scale = 1 / (p * p + q * q);
    x.re[unknown] = (s * p + t * q) * scale;
    x.im[unknown] = (t * p - s * q) * scale;
  }
}

/** Whether one equation is met, as `createBackwardError` measures it; what is not a number is not. */
function isMet({ re, im }: Plane, x: Plane, size: number, row: number, b: number): boolean {
  let [s, t, all] = [-b, 0, b];
  for (let column = 0; column < size; column++) {
    const [c, d] = [re[row * size + column]!, im[row * size + column]!];
    const [u, v] = [x.re[column]!, x.im[column]!];
    s += c * u - d * v;
    t += c * v + d * u;
    all += (Math.abs(c) + Math.abs(d)) * (Math.abs(u) + Math.abs(v));
  }
  return Math.abs(s) + Math.abs(t) <= tolerance * all;
}
