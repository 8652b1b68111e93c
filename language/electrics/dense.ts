/** Dense complex elimination with partial pivoting: slower, and safe where the planned order meets a vanishing pivot. */

/** The solution, or the unknown whose column holds no pivot. */
export type DenseResult = { readonly ok: true } | { readonly ok: false; readonly unknown: number };

/**
 * Solves A·x = b for a row-major complex matrix of `size`; `re`, `im` and the right-hand side are overwritten, the latter by x.
 * A column whose largest entry is below 1e-13 of what it held at the start counts as empty.
 */
export function solveDense(size: number, re: Float64Array, im: Float64Array, bRe: Float64Array, bIm: Float64Array): DenseResult {
  const start = new Float64Array(size);
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
    if (pivot !== k) exchange(size, re, im, bRe, bIm, k, pivot);
    const x = re[k * size + k]!;
    const y = im[k * size + k]!;
    const scale = 1 / (x * x + y * y);
    for (let i = k + 1; i < size; i++) {
      const a = re[i * size + k]!;
      const b = im[i * size + k]!;
      if (a === 0 && b === 0) continue;
      const u = (a * x + b * y) * scale;
      const v = (b * x - a * y) * scale;
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

function exchange(
  size: number,
  re: Float64Array,
  im: Float64Array,
  bRe: Float64Array,
  bIm: Float64Array,
  a: number,
  b: number,
): void {
  for (const [array, width] of [
    [re, size],
    [im, size],
    [bRe, 1],
    [bIm, 1],
  ] as const) {
    for (let j = 0; j < width; j++) {
      const held = array[a * width + j]!;
      array[a * width + j] = array[b * width + j]!;
      array[b * width + j] = held;
    }
  }
}
