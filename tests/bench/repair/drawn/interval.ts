/** The interval in which a share lies with 95 %, from so many cases. */

/** The two-sided 5 % point of the normal distribution. */
const z = 1.959964;

/** E. B. Wilson's score interval (J. Am. Stat. Assoc. 22, 1927, 209–212), as shares from 0 to 1. */
export function wilsonInterval(hits: number, cases: number): readonly [number, number] {
  if (cases === 0) return [0, 1];
  const share = hits / cases;
  const spread = z * Math.sqrt((share * (1 - share)) / cases + (z * z) / (4 * cases * cases));
  const middle = share + (z * z) / (2 * cases);
  const scale = 1 + (z * z) / cases;
  return [Math.max(0, (middle - spread) / scale), Math.min(1, (middle + spread) / scale)];
}
