/** The impulse response of a circuit, from its frequency response. */
import { fourier } from './fourier.js';

/** A frequency response at rising frequencies, three lists of equal length: hertz, dB, degrees. */
export interface ResponsePoints {
  readonly hz: readonly number[];
  readonly db: readonly number[];
  readonly deg: readonly number[];
}

/** Seconds of an impulse response: what a pickup, its lead and the usual capacitors do is over in a tenth of that. */
const seconds = 0.17;
/** Samples before the impulse: a band that ends has a response that begins before it. */
const lead = 128;
/** Share of the length at its end in which the response is faded out. */
const faded = 1 / 8;

/** Samples of an impulse response: the power of two next above 0.17 s. */
export function responseLength(sampleRate: number): number {
  return 2 ** Math.ceil(Math.log2(seconds * sampleRate));
}

/**
 * Samples of the impulse response at `sampleRate`, with the phase that the circuit has, not a minimum phase made from its level: where coils cancel or a
 * capacitor passes them by, the two differ. 1 is 0 dB; the impulse lies 128 samples from the beginning.
 *
 * The transfer is read between the points as a cubic through real and imaginary part over the logarithm of the frequency (E. Catmull and R. Rom, "A class of
 * local interpolating splines", 1974), which stays smooth where a notch turns the phase round. Below the first point the real part is kept and the imaginary
 * part falls in proportion to the frequency, so that it is real at 0 Hz. From the last point, or 0.45 of the sample rate if that is lower, it falls along a
 * half cosine to nothing at half the sample rate, where a response must be real. The inverse transform is faded in and out by half cosines.
 */
export function impulseResponse(points: ResponsePoints, sampleRate: number): Float64Array {
  const count = responseLength(sampleRate);
  const [re, im] = [new Float64Array(count), new Float64Array(count)];
  const transfer = transferOf(points);
  const end = Math.min(points.hz.at(-1) ?? 0, 0.45 * sampleRate);
  for (let k = 0; k < count / 2; k++) {
    const hz = (k * sampleRate) / count;
    const fade = hz <= end ? 1 : halfCosine((sampleRate / 2 - hz) / (sampleRate / 2 - end));
    const [x, y] = transfer(Math.min(hz, points.hz.at(-1) ?? 0));
    // Later by the samples of the lead.
    const turn = (-2 * Math.PI * k * lead) / count;
    const [c, s] = [Math.cos(turn) * fade, Math.sin(turn) * fade];
    re[k] = x * c - y * s;
    im[k] = x * s + y * c;
    if (k === 0) continue;
    re[count - k] = re[k] ?? 0;
    im[count - k] = -(im[k] ?? 0);
  }
  im[0] = 0;
  fourier(re, im, true);
  return re.map((value, at) => {
    const rise = halfCosine(at / (lead / 2));
    const fall = halfCosine((count - 1 - at) / (faded * count));
    return (value / count) * rise * fall;
  });
}

/** From 0 at 0 to 1 at 1, and level outside. */
function halfCosine(share: number): number {
  return 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, share)));
}

/** The transfer at any frequency up to the last point, as real and imaginary part. */
function transferOf({ hz, db, deg }: ResponsePoints): (hz: number) => readonly [number, number] {
  const x = hz.map((one) => Math.log(one));
  const parts = [Math.cos, Math.sin].map((of) =>
    db.map((level, index) => 10 ** (level / 20) * of(((deg[index] ?? 0) * Math.PI) / 180)),
  );
  const [real = [], imaginary = []] = parts;
  let at = 0;
  return (asked) => {
    const first = hz[0] ?? 0;
    if (hz.length < 2 || asked <= first) return [real[0] ?? 0, (imaginary[0] ?? 0) * (first > 0 ? asked / first : 0)];
    const place = Math.log(asked);
    // Asked in rising order, so the stretch is seldom far.
    if ((x[at] ?? 0) > place) at = 0;
    while (at < x.length - 2 && (x[at + 1] ?? 0) <= place) at++;
    return [cubic(x, real, at, place), cubic(x, imaginary, at, place)];
  };
}

/** Between points `at` and `at + 1`; the slope at a point is that of the line through its neighbours. */
function cubic(x: readonly number[], y: readonly number[], at: number, place: number): number {
  const slope = (index: number): number => {
    const [a, b] = [Math.max(0, index - 1), Math.min(x.length - 1, index + 1)];
    return ((y[b] ?? 0) - (y[a] ?? 0)) / ((x[b] ?? 0) - (x[a] ?? 0));
  };
  const [from = 0, to = 0] = [x[at], x[at + 1]];
  const step = to - from;
  const t = Math.min(1, (place - from) / step);
  const [t2, t3] = [t * t, t * t * t];
  return (
    (2 * t3 - 3 * t2 + 1) * (y[at] ?? 0) +
    (t3 - 2 * t2 + t) * step * slope(at) +
    (3 * t2 - 2 * t3) * (y[at + 1] ?? 0) +
    (t3 - t2) * step * slope(at + 1)
  );
}
