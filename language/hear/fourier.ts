/** The discrete Fourier transform. */

/**
 * Transforms in place: X[k] = Σ x[n] e^(−2πi kn/N), without a factor, or with e^(+2πi kn/N) where `inverse` is given. The length must be a power of two
 * (RangeError). J. W. Cooley and J. W. Tukey, "An algorithm for the machine calculation of complex Fourier series", Math. Comput. 19 (1965).
 */
export function fourier(re: Float64Array, im: Float64Array, inverse = false): void {
  const count = re.length;
  if (count < 1 || (count & (count - 1)) !== 0 || im.length !== count) throw new RangeError(`${count} is no power of two`);
  reverseBits(re, im);
  for (let half = 1; half < count; half *= 2) {
    const step = ((inverse ? 1 : -1) * Math.PI) / half;
    for (let k = 0; k < half; k++) {
      const [c, s] = [Math.cos(step * k), Math.sin(step * k)];
      for (let a = k; a < count; a += 2 * half) {
        const b = a + half;
        const [x, y] = [(re[b] ?? 0) * c - (im[b] ?? 0) * s, (re[b] ?? 0) * s + (im[b] ?? 0) * c];
        re[b] = (re[a] ?? 0) - x;
        im[b] = (im[a] ?? 0) - y;
        re[a] = (re[a] ?? 0) + x;
        im[a] = (im[a] ?? 0) + y;
      }
    }
  }
}

function reverseBits(re: Float64Array, im: Float64Array): void {
  const count = re.length;
  for (let at = 1, to = 0; at < count; at++) {
    let bit = count >> 1;
    for (; (to & bit) !== 0; bit >>= 1) to ^= bit;
    to ^= bit;
    if (at >= to) continue;
    for (const list of [re, im]) [list[at], list[to]] = [list[to] ?? 0, list[at] ?? 0];
  }
}
