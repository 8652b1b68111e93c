/** The planned elimination run over a block of frequencies: long rows of numbers, step by step. */
import type { Plan } from './elimination-plan.js';

/** Real and imaginary parts; value `v` at frequency `f` of a block of `count` lies at `v * count + f`. */
export interface Rows {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export function createRows(length: number): Rows {
  return { re: new Float64Array(length), im: new Float64Array(length) };
}

/** Factors a block of matrices in place; `inverse` receives the reciprocal pivots by unknown. Nothing is checked here: the residual is. */
export function factor(plan: Plan, a: Rows, inverse: Rows, scratch: Rows, count: number): void {
  for (let step = 0; step < plan.size; step++) {
    const pivot = plan.order[step]! * count;
    const lower = plan.lower[step]!;
    const upper = plan.upper[step]!;
    const fill = plan.fill[step]!;
    const diagonal = plan.diagonal[plan.order[step]!]! * count;
    if (lower.length === 1) {
      eliminateOne(a, inverse, diagonal, pivot, lower[0]! * count, upper[0]! * count, fill[0]! * count, count);
      continue;
    }
    reciprocal(a, diagonal, inverse, pivot, count);
    for (let i = 0; i < lower.length; i++) {
      product(scratch, 0, a, lower[i]! * count, inverse, pivot, count);
      for (let j = 0; j < upper.length; j++) {
        const to = fill[i * upper.length + j]!;
        if (to >= 0) subtractProduct(a, to * count, scratch, 0, a, upper[j]! * count, count);
      }
    }
  }
}

/**
 * Solves a factored block for the right-hand sides in `x` (by unknown), in place. `from` is the first step whose right-hand side is not
 * nothing; what `x` holds for the steps before it is not read.
 */
export function substitute(plan: Plan, a: Rows, inverse: Rows, x: Rows, from: number, scratch: Rows, count: number): void {
  for (let step = from; step < plan.size; step++) {
    const pivot = plan.order[step]! * count;
    const lower = plan.lower[step]!;
    const rest = plan.rest[step]!;
    if (rest.length > 0) product(scratch, 0, x, pivot, inverse, pivot, count);
    for (let i = 0; i < rest.length; i++) subtractProduct(x, rest[i]! * count, a, lower[i]! * count, scratch, 0, count);
  }
  for (let step = plan.size - 1; step >= 0; step--) {
    const pivot = plan.order[step]! * count;
    const upper = plan.upper[step]!;
    const rest = plan.rest[step]!;
    if (step < from) {
      // Nothing stands in this row of the right-hand side, so the first product need not be added to it.
      if (rest.length === 1) followOne(x, pivot, a, upper[0]! * count, rest[0]! * count, inverse, count);
      else follow(x, pivot, a, upper, rest, inverse, count);
      continue;
    }
    for (let i = 0; i < rest.length; i++) subtractProduct(x, pivot, a, upper[i]! * count, x, rest[i]! * count, count);
    product(x, pivot, x, pivot, inverse, pivot, count);
  }
}

/** A pivot with one neighbour, the commonest of all in a guitar, in one run: inverse ← 1/d, t ← t − l·u/d. */
function eliminateOne(a: Rows, inverse: Rows, d: number, p: number, l: number, u: number, t: number, count: number): void {
  const { re, im } = a;
  const { re: inverseRe, im: inverseIm } = inverse;
  for (let f = 0; f < count; f++) {
    const x = re[d + f]!;
    const y = im[d + f]!;
    const size = 1 / (x * x + y * y);
    const r = x * size;
    const s = -y * size;
    inverseRe[p + f] = r;
    inverseIm[p + f] = s;
    const lowerRe = re[l + f]!;
    const lowerIm = im[l + f]!;
    const g = lowerRe * r - lowerIm * s;
    const h = lowerRe * s + lowerIm * r;
    const v = re[u + f]!;
    const w = im[u + f]!;
    re[t + f] = re[t + f]! - (g * v - h * w);
    im[t + f] = im[t + f]! - (g * w + h * v);
  }
}

/** The unknown of such a pivot where its right-hand side is nothing: x_p ← −u·x_i/d. */
function followOne(x: Rows, p: number, a: Rows, u: number, i: number, inverse: Rows, count: number): void {
  const { re: xRe, im: xIm } = x;
  const { re, im } = a;
  const { re: inverseRe, im: inverseIm } = inverse;
  for (let f = 0; f < count; f++) {
    const v = re[u + f]!;
    const w = im[u + f]!;
    const b = xRe[i + f]!;
    const c = xIm[i + f]!;
    const g = v * b - w * c;
    const h = v * c + w * b;
    const r = inverseRe[p + f]!;
    const s = inverseIm[p + f]!;
    xRe[p + f] = -(g * r - h * s);
    xIm[p + f] = -(g * s + h * r);
  }
}

function follow(
  x: Rows,
  p: number,
  a: Rows,
  upper: readonly number[],
  rest: readonly number[],
  inverse: Rows,
  count: number,
): void {
  x.re.fill(0, p, p + count);
  x.im.fill(0, p, p + count);
  for (let i = 0; i < rest.length; i++) subtractProduct(x, p, a, upper[i]! * count, x, rest[i]! * count, count);
  product(x, p, x, p, inverse, p, count);
}

function reciprocal(a: Rows, at: number, out: Rows, to: number, count: number): void {
  for (let f = 0; f < count; f++) {
    const x = a.re[at + f]!;
    const y = a.im[at + f]!;
    const size = 1 / (x * x + y * y);
    out.re[to + f] = x * size;
    out.im[to + f] = -y * size;
  }
}

/** t ← a · b */
function product(t: Rows, to: number, a: Rows, at: number, b: Rows, by: number, count: number): void {
  const { re: tRe, im: tIm } = t;
  const { re: aRe, im: aIm } = a;
  const { re: bRe, im: bIm } = b;
  for (let f = 0; f < count; f++) {
    const x = aRe[at + f]!;
    const y = aIm[at + f]!;
    const u = bRe[by + f]!;
    const v = bIm[by + f]!;
    tRe[to + f] = x * u - y * v;
    tIm[to + f] = x * v + y * u;
  }
}

/** t ← t − a · b */
function subtractProduct(t: Rows, to: number, a: Rows, at: number, b: Rows, by: number, count: number): void {
  const { re: tRe, im: tIm } = t;
  const { re: aRe, im: aIm } = a;
  const { re: bRe, im: bIm } = b;
  for (let f = 0; f < count; f++) {
    const x = aRe[at + f]!;
    const y = aIm[at + f]!;
    const u = bRe[by + f]!;
    const v = bIm[by + f]!;
    tRe[to + f] = tRe[to + f]! - (x * u - y * v);
    tIm[to + f] = tIm[to + f]! - (x * v + y * u);
  }
}
