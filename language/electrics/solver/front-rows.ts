/** The arithmetic of one front: symmetric, its upper half kept, each value a run over the frequencies; value (i, j) of `side` rows lies at `(i * side + j) * width`. */
import type { Fronts, Rows } from '../../numerics/index.js';
import { windingAdmittance } from '../network/stamps.js';
import type { System } from '../network/system.js';

/** What a step does where its unknown is eliminated, and where it stands on the reference; a number above says which place of its front it joins. */
export const eliminates = 0;
export const grounded = -1;

/** A pivot below this share of its row loses so many figures that another order is needed. */
const smallest = 1e-6;

/** Per step, what the system itself has in the first row of its front; the row of step `s` begins at value `at[s]`. */
export interface OwnRows extends Rows {
  readonly at: Int32Array;
}

export function ownRows(system: System, { size, stepOf, rest }: Fronts, omega: Float64Array): OwnRows {
  const width = omega.length;
  const at = new Int32Array(size + 1);
  for (let step = 0; step < size; step++) at[step + 1] = at[step]! + rest[step]!.length + 1;
  const [re, im] = [new Float64Array(at[size]! * width), new Float64Array(at[size]! * width)];
  const valueAt = (row: number, column: number): number => {
    const step = stepOf[row]!;
    return (at[step]! + (row === column ? 0 : rest[step]!.indexOf(stepOf[column]!) + 1)) * width;
  };
  const { rows, columns, real, slope } = system.entries;
  for (let i = 0; i < rows.length; i++) {
    const [row, column] = [rows[i]!, columns[i]!];
    if (stepOf[row]! > stepOf[column]!) continue;
    const value = valueAt(row, column);
    for (let f = 0; f < width; f++) {
      re[value + f] = re[value + f]! + real[i]!;
      im[value + f] = im[value + f]! + slope[i]! * omega[f]!;
    }
  }
  const y = { re: new Float64Array(width), im: new Float64Array(width) };
  const add = (value: number, sign: 1 | -1): void => {
    for (let f = 0; f < width; f++) {
      re[value + f] = re[value + f]! + sign * y.re[f]!;
      im[value + f] = im[value + f]! + sign * y.im[f]!;
    }
  };
  for (const winding of system.windings) {
    const { from, to } = winding;
    windingAdmittance(winding, omega, y, 0);
    if (from >= 0) add(valueAt(from, from), 1);
    if (to >= 0) add(valueAt(to, to), 1);
    if (from >= 0 && to >= 0) add(stepOf[from]! < stepOf[to]! ? valueAt(from, to) : valueAt(to, from), -1);
  }
  return { re, im, at };
}

/** Adds a conductance to a value. */
export function addReal({ re }: Rows, value: number, siemens: number, width: number): void {
  for (let f = value * width; f < (value + 1) * width; f++) re[f] = re[f]! + siemens;
}

/** Adds what a child has left, at its places in this front. */
export function addBlock(front: Rows, side: number, from: Rows, at: number, places: Int32Array, width: number): void {
  const m = places.length;
  for (let i = 0; i < m; i++) {
    for (let j = i; j < m; j++) {
      const to = (places[i]! * side + places[j]!) * width;
      const value = at + (i * m + j) * width;
      for (let f = 0; f < width; f++) {
        front.re[to + f] = front.re[to + f]! + from.re[value + f]!;
        front.im[to + f] = front.im[to + f]! + from.im[value + f]!;
      }
    }
  }
}

/**
 * Leaves the first unknown of a front. `multipliers` receives what gives the unknown from the others, `block` what is left for the parent.
 * Joining adds row and column to those of the place joined. False where a pivot is too small beside its row.
 */
export function leave(
  front: Rows,
  side: number,
  kind: number,
  multipliers: Rows,
  row: number,
  block: Rows,
  at: number,
  width: number,
): boolean {
  const m = side - 1;
  multipliers.re.fill(0, row, row + m * width);
  multipliers.im.fill(0, row, row + m * width);
  for (let i = 0; i < m; i++) {
    const from = ((i + 1) * side + i + 1) * width;
    const to = at + (i * m + i) * width;
    block.re.set(front.re.subarray(from, from + (m - i) * width), to);
    block.im.set(front.im.subarray(from, from + (m - i) * width), to);
  }
  if (kind === grounded) return true;
  if (kind === eliminates) return subtract(front, m, multipliers, row, block, at, width);
  multipliers.re.fill(1, row + (kind - 1) * width, row + kind * width);
  for (let j = 0; j <= m; j++) {
    const place = j === 0 ? kind : j;
    const to = at + ((Math.min(kind, place) - 1) * m + Math.max(kind, place) - 1) * width;
    const times = j === kind ? 2 : 1;
    for (let f = 0; f < width; f++) {
      block.re[to + f] = block.re[to + f]! + times * front.re[j * width + f]!;
      block.im[to + f] = block.im[to + f]! + times * front.im[j * width + f]!;
    }
  }
  return true;
}

function subtract(front: Rows, m: number, multipliers: Rows, row: number, block: Rows, at: number, width: number): boolean {
  const { re, im } = front;
  for (let f = 0; f < width; f++) {
    const square = re[f]! * re[f]! + im[f]! * im[f]!;
    const share = 1 / square;
    const [p, q] = [-re[f]! * share, im[f]! * share];
    for (let j = 1; j <= m; j++) {
      const [u, w] = [re[j * width + f]!, im[j * width + f]!];
      if (!(square > smallest * smallest * (u * u + w * w))) return false;
      multipliers.re[row + (j - 1) * width + f] = u * p - w * q;
      multipliers.im[row + (j - 1) * width + f] = u * q + w * p;
    }
    if (!(square > 0 && square < Infinity)) return false;
  }
  for (let i = 0; i < m; i++) {
    for (let j = i; j < m; j++) {
      const to = at + (i * m + j) * width;
      for (let f = 0; f < width; f++) {
        const [g, h] = [multipliers.re[row + i * width + f]!, multipliers.im[row + i * width + f]!];
        const [u, w] = [re[(j + 1) * width + f]!, im[(j + 1) * width + f]!];
        block.re[to + f] = block.re[to + f]! + (g * u - h * w);
        block.im[to + f] = block.im[to + f]! + (g * w + h * u);
      }
    }
  }
  return true;
}

/** The unknown of a step from those of the later ones. */
export function follow(x: Rows, step: number, rest: Int32Array, multipliers: Rows, row: number, width: number): void {
  const to = step * width;
  x.re.fill(0, to, to + width);
  x.im.fill(0, to, to + width);
  for (let i = 0; i < rest.length; i++) {
    const [from, by] = [rest[i]! * width, row + i * width];
    for (let f = 0; f < width; f++) {
      const [g, h] = [multipliers.re[by + f]!, multipliers.im[by + f]!];
      const [u, w] = [x.re[from + f]!, x.im[from + f]!];
      x.re[to + f] = x.re[to + f]! + (g * u - h * w);
      x.im[to + f] = x.im[to + f]! + (g * w + h * u);
    }
  }
}
