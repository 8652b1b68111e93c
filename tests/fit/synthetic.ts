/** Measured curves made up from a formula of their own, with noise: complex arithmetic step by step, apart from what the fit computes with. */
import type { Curve, Load } from '../../language/fit/index.js';
import { createRandom } from '../harness/random.js';

/** A pickup that is measured; n is the exponent of a lossy inductor K (jω)^n (W. M. Leach, "Loudspeaker voice-coil inductance losses", 2002), which is L at 120 Hz. */
export interface Truth {
  readonly resistance: number;
  readonly inductance: number;
  readonly capacitance: number;
  readonly loss?: number;
  readonly 'eddy-inductance'?: number;
  readonly 'eddy-resistance'?: number;
  readonly exponent?: number;
}

type Complex = readonly [re: number, im: number];
const plus = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const inverse = ([re, im]: Complex): Complex => [re / (re * re + im * im), -im / (re * re + im * im)];
const beside = (a: Complex, b: Complex): Complex => inverse(plus(inverse(a), inverse(b)));

/** Impedance of the winding alone, R and what is in series with it, without its capacitance. */
function winding(truth: Truth, hz: number): Complex {
  const w = 2 * Math.PI * hz;
  const share = truth['eddy-inductance'] ?? 0;
  const n = truth.exponent ?? 1;
  const plain = truth.inductance * (1 - share);
  const K = (plain * (2 * Math.PI * 120) ** (1 - n)) / Math.sin((n * Math.PI) / 2);
  let core: Complex = [K * w ** n * Math.cos((n * Math.PI) / 2), K * w ** n * Math.sin((n * Math.PI) / 2)];
  if (share > 0) core = plus(core, beside([0, w * truth.inductance * share], [truth['eddy-resistance']!, 0]));
  if (truth.loss !== undefined) core = beside(core, [truth.loss, 0]);
  return plus([truth.resistance, 0], core);
}

function loadOf(truth: Truth, load: Load, hz: number): Complex {
  return inverse([1 / load.ohm, 2 * Math.PI * hz * (truth.capacitance + load.farad)]);
}

/** Level across the load for one volt of the strings, dB. */
export function trueLevel(truth: Truth, load: Load, hz: number): number {
  const across = loadOf(truth, load, hz);
  const [re, im] = times(across, inverse(plus(winding(truth, hz), across)));
  return 20 * Math.log10(Math.hypot(re, im));
}

/** Ohms and degrees with the load across the pickup. */
export function trueImpedance(truth: Truth, load: Load, hz: number): readonly [ohm: number, deg: number] {
  const [re, im] = beside(winding(truth, hz), loadOf(truth, load, hz));
  return [Math.hypot(re, im), (Math.atan2(im, re) * 180) / Math.PI];
}

/** So many frequencies from 60 Hz to 18 kHz at equal steps of their logarithm. */
export const frequencies = (points: number): number[] => Array.from({ length: points }, (_, i) => 60 * 300 ** (i / (points - 1)));

export const noLoad: Load = { farad: 0, ohm: Infinity };

/** A response with noise of so many dB, its level moved by the unknown gain of the set-up. */
export function measuredResponse(truth: Truth, load: Load, noise: number, seed: number, points = 60): Curve {
  const normal = normals(seed);
  const hz = frequencies(points);
  return { measured: { kind: 'response', hz, db: hz.map((at) => trueLevel(truth, load, at) - 23.4 + noise * normal()) }, load };
}

/** An impedance with noise of that share of its size and as many radians of its angle. */
export function measuredImpedance(truth: Truth, load: Load, noise: number, seed: number, points = 60): Curve {
  const normal = normals(seed);
  const hz = frequencies(points);
  const exact = hz.map((at) => trueImpedance(truth, load, at));
  return {
    measured: {
      kind: 'impedance',
      hz,
      ohm: exact.map(([ohm]) => ohm * Math.exp(noise * normal())),
      deg: exact.map(([, deg]) => deg + (noise * normal() * 180) / Math.PI),
    },
    load,
  };
}

/** A pickup by seed: values over the published ranges (H. Lemme, "The Secrets of Electric Guitar Pickups", 2003/2009: 1 to 10 H, winding 80 to 200 pF). */
export function drawnTruth(seed: number, isLossy: boolean): Truth {
  const random = createRandom('values of pickups', seed);
  const between = (low: number, high: number): number => low * (high / low) ** random();
  const inductance = between(1.5, 9);
  const reactance = 2 * Math.PI * 4000 * inductance;
  return {
    resistance: between(4e3, 16e3),
    inductance,
    capacitance: between(80e-12, 200e-12),
    loss: reactance * between(2, 12),
    ...(isLossy ? { 'eddy-inductance': between(0.1, 0.4), 'eddy-resistance': reactance * between(0.1, 0.6) } : {}),
  };
}

/** Normally distributed numbers (G. E. P. Box and M. E. Muller, "A note on the generation of random normal deviates", 1958). */
function normals(seed: number): () => number {
  const random = createRandom('pickups', seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
