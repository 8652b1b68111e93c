/** Rows of complex numbers, one at each of several frequencies, and the few operations on them that elimination consists of. */

/**
 * Real and imaginary parts of rows that are `width` numbers long; row `r` begins at `r * width`. One step of an elimination is one run over
 * a row, so that the cost of finding the row is paid once for all frequencies.
 *
 * Operations name rows by their numbers, most of them rows of the same `Rows`, and work in place. The invariant behind each assertion in this file: a row's number
 * is less than the number of rows, so that `row * width + f` lies within both arrays for every frequency `f` below `width`.
 */
export interface Rows {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly width: number;
}

/** `count` rows of zeros. */
export function createRows(count: number, width: number): Rows {
  return { re: new Float64Array(count * width), im: new Float64Array(count * width), width };
}

/** Writes a real value at every frequency into `count` rows. */
export function fillRows({ re, im, width }: Rows, row: number, count: number, value: number): void {
  re.fill(value, row * width, (row + count) * width);
  im.fill(0, row * width, (row + count) * width);
}

/** Copies `count` rows; they may overlap. */
export function copyRows({ re, im, width }: Rows, to: number, from: number, count: number): void {
  re.copyWithin(to * width, from * width, (from + count) * width);
  im.copyWithin(to * width, from * width, (from + count) * width);
}

/** t ← 1 / a */
export function reciprocal({ re, im, width }: Rows, to: number, of: number): void {
  const [t, a] = [to * width, of * width];
  for (let f = 0; f < width; f++) {
    const x = re[a + f]!;
    const y = im[a + f]!;
    const size = 1 / (x * x + y * y);
    re[t + f] = x * size;
    im[t + f] = -y * size;
  }
}

/** t ← a · b */
export function multiply({ re, im, width }: Rows, to: number, one: number, other: number): void {
  const [t, a, b] = [to * width, one * width, other * width];
  for (let f = 0; f < width; f++) {
    const x = re[a + f]!;
    const y = im[a + f]!;
    const u = re[b + f]!;
    const v = im[b + f]!;
    re[t + f] = x * u - y * v;
    im[t + f] = x * v + y * u;
  }
}

/** t ← t − a · b */
export function subtractProduct({ re, im, width }: Rows, to: number, one: number, other: number): void {
  const [t, a, b] = [to * width, one * width, other * width];
  for (let f = 0; f < width; f++) {
    const x = re[a + f]!;
    const y = im[a + f]!;
    const u = re[b + f]!;
    const v = im[b + f]!;
    re[t + f] = re[t + f]! - (x * u - y * v);
    im[t + f] = im[t + f]! - (x * v + y * u);
  }
}

/** t ← t + s · a with a real factor; `a` may be a row of other rows that are as wide. */
export function addScaled({ re, im, width }: Rows, to: number, from: Rows, row: number, factor: number): void {
  const { re: fromRe, im: fromIm } = from;
  const [t, a] = [to * width, row * width];
  for (let f = 0; f < width; f++) {
    re[t + f] = re[t + f]! + factor * fromRe[a + f]!;
    im[t + f] = im[t + f]! + factor * fromIm[a + f]!;
  }
}

/** t ← t + a for `count` rows. */
export function addRows({ re, im, width }: Rows, to: number, row: number, count: number): void {
  const [t, a] = [to * width, row * width];
  for (let at = 0; at < count * width; at++) {
    re[t + at] = re[t + at]! + re[a + at]!;
    im[t + at] = im[t + at]! + im[a + at]!;
  }
}

/** The square of the magnitude at the `f`-th frequency of a row. */
export function squareAt({ re, im, width }: Rows, row: number, f: number): number {
  const x = re[row * width + f]!;
  const y = im[row * width + f]!;
  return x * x + y * y;
}

/** Adds the squares of the magnitudes in a row, times a weight, to sums by frequency. */
export function addSquares(sums: Float64Array, rows: Rows, row: number, weight: number): void {
  for (let f = 0; f < sums.length; f++) sums[f] = sums[f]! + weight * squareAt(rows, row, f);
}

/** s ← s + v */
export function addValues(sums: Float64Array, values: Float64Array): void {
  for (let f = 0; f < sums.length; f++) sums[f] = sums[f]! + values[f]!;
}

/** s ← s + v · w, place by place. */
export function addProducts(sums: Float64Array, values: Float64Array, weights: Float64Array): void {
  for (let f = 0; f < sums.length; f++) sums[f] = sums[f]! + values[f]! * weights[f]!;
}
