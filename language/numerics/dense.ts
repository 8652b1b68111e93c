/** Dense complex elimination with partial pivoting: slower, and safe where the planned order meets a vanishing pivot. */

import type { Rows } from './block.js';

/** The solution, or the unknown whose column holds no pivot. */
export type DenseResult = { readonly ok: true } | { readonly ok: false; readonly unknown: number };

/**
 * Solves A·x = b for a row-major complex matrix `a` of `size`; both `a` and the right-hand side `b` are overwritten, the latter by x.
 * `start` is memory for `size` numbers. A column whose largest entry is below 1e-13 of what it held at the start counts as empty.
 */
export function solveDense(size: number, a: Rows, b: Rows, start: Float64Array): DenseResult {
  const { re, im } = a;
  const { re: bRe, im: bIm } = b;
  start.fill(0, 0, size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) start[j] = Math.max(start[j]!, Math.abs(re[i * size + j]!) + Math.abs(im[i * size + j]!));
  }
  for (let k = 0; k < size; k++) {
    let pivot = k;
    let most = 0;
    for (let i = k; i < size; i++) {
      const magnitude = Math.abs(re[i * size + k]!) + Math.abs(im[i * size + k]!);
      if (magnitude > most) [pivot, most] = [i, magnitude];
    }
    if (!(most > 1e-13 * start[k]!)) return { ok: false, unknown: k };
    if (pivot !== k) exchange(size, a, b, k, pivot);
    const x = re[k * size + k]!;
    const y = im[k * size + k]!;
    const scale = 1 / (x * x + y * y);
    for (let i = k + 1; i < size; i++) {
      const r = re[i * size + k]!;
      const s = im[i * size + k]!;
      if (r === 0 && s === 0) continue;
      const u = (r * x + s * y) * scale;
      const v = (s * x - r * y) * scale;
      for (let j = k + 1; j < size; j++) {
        const p = re[k * size + j]!;
        const q = im[k * size + j]!;
        re[i * size + j] = re[i * size + j]! - (u * p - v * q);
        im[i * size + j] = im[i * size + j]! - (u * q + v * p);
      }
      const p = bRe[k]!;
      const q = bIm[k]!;
      bRe[i] = bRe[i]! - (u * p - v * q);
      bIm[i] = bIm[i]! - (u * q + v * p);
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    let p = bRe[k]!;
    let q = bIm[k]!;
    for (let j = k + 1; j < size; j++) {
      p -= re[k * size + j]! * bRe[j]! - im[k * size + j]! * bIm[j]!;
      q -= re[k * size + j]! * bIm[j]! + im[k * size + j]! * bRe[j]!;
    }
    const x = re[k * size + k]!;
    const y = im[k * size + k]!;
    const scale = 1 / (x * x + y * y);
    bRe[k] = (p * x + q * y) * scale;
    bIm[k] = (q * x - p * y) * scale;
  }
  return { ok: true };
}

function exchange(size: number, a: Rows, b: Rows, one: number, other: number): void {
  for (const [array, width] of [
    [a.re, size],
    [a.im, size],
    [b.re, 1],
    [b.im, 1],
  ] as const) {
    for (let j = 0; j < width; j++) {
      const held = array[one * width + j]!;
      array[one * width + j] = array[other * width + j]!;
      array[other * width + j] = held;
    }
  }
}
