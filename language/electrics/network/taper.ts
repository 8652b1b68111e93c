/** Where a wiper is on its track: rotation to share of the resistance. */
import type { Taper, TaperPoint, Track } from '../../circuit/model.js';

/** Share of the track's resistance from its first lug at the share `x` of the travel (0 … 1), by its law or its measured points. */
export function trackShare({ taper, mid, points = straight }: Pick<Track, 'taper' | 'mid' | 'points'>, x: number): number {
  return taper === 'measured' ? shareBetween(points, x) : taperShare(taper, mid, x);
}

/**
 * The same by a law. Linear: x. Audio: A(e^λx − 1) with λ = 2 ln(1/m − 1) and A = m²/(1 − 2m), m the share at mid rotation; reverse audio is its
 * mirror. Form of the law: MathWorks, "Potentiometer" block reference; A and λ follow from f(½) = m and f(1) = 1.
 */
export function taperShare(taper: Exclude<Taper, 'measured'>, mid: number, x: number): number {
  if (taper === 'linear') return x;
  if (taper === 'reverse-audio') return 1 - taperShare('audio', mid, 1 - x);
  const m = Math.min(Math.max(mid, 1e-6), 1 - 1e-6);
  // At one half the exponential becomes a straight line, and its closed form 0/0.
  if (Math.abs(m - 0.5) < 1e-6) return x;
  const lambda = 2 * Math.log(1 / m - 1);
  return ((m * m) / (1 - 2 * m)) * Math.expm1(lambda * x);
}

/** Where a circuit that was made elsewhere gives no points. */
const straight: readonly TaperPoint[] = [
  { travel: 0, share: 0 },
  { travel: 1, share: 1 },
];

/** On the straight line between the two points beside `x`, so that the share never falls where theirs don't. */
function shareBetween(points: readonly TaperPoint[], x: number): number {
  let [low, high] = [0, points.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((points[middle]?.travel ?? 0) <= x) low = middle;
    else high = middle;
  }
  const [from, to] = [points[low] ?? { travel: 0, share: 0 }, points[high] ?? { travel: 1, share: 1 }];
  if (!(to.travel > from.travel)) return to.share;
  const part = Math.min(Math.max((x - from.travel) / (to.travel - from.travel), 0), 1);
  return from.share + part * (to.share - from.share);
}

/** Share of the travel from `empty` to `full` at a rotation of 0 to 10; beyond either end the wiper stays there. */
export function travel(track: Track, rotation: number): number {
  const span = track.full - track.empty;
  if (span === 0) return 1;
  const x = (rotation - track.empty) / span;
  // Guarding against NaN keeps a nonsensical rotation from spreading through a whole sweep.
  return x > 0 ? Math.min(x, 1) : 0;
}
