/** The peak of a winding with a capacitance across it, and the inductance that puts it where it was measured. */
import { coreImpedance, coreSections } from './core.js';

/** A whole winding but for its inductance: resistance in ohms, winding capacitance in farads, and what it loses. */
export interface WindingValues {
  readonly ohm: number;
  readonly farad: number;
  /** Resistance across the inductance; Infinity where there is none. */
  readonly loss: number;
  readonly eddy?: { readonly share: number; readonly ohm: number } | undefined;
  readonly exponent?: number | undefined;
  /** Share of the source that a cover takes away high above Re/Le, 0 to 1. */
  readonly shading: number;
}

/** Inductances that are tried lie between these times that of a resonance without losses. */
const tried = { most: 30, least: 1 / 300, steps: 240 };
/** The slope is the difference between frequencies this far apart, as a logarithm; its error is of the square of it. */
const apart = 1e-4;

/**
 * The inductance with which the voltage across the winding, loaded by a capacitance alone, is highest at this frequency; undefined where no inductance
 * puts the peak there. A winding has two where it has one, as the peak first rises in frequency and then vanishes when the inductance falls: the larger one,
 * with the higher peak, is meant. Without losses the peak is at ω² = 1/(LC) − R²/(2L²) (textbook), so none lies above 1/(√2 R C).
 */
export function inductanceAtPeak(winding: WindingValues, hz: number, load: number): number | undefined {
  const farad = winding.farad + load;
  const middle = 1 / ((2 * Math.PI * hz) ** 2 * farad);
  if (!(middle > 0) || middle === Infinity) return undefined;
  const rises = (henry: number): boolean => slope(winding, henry, hz, load) > 0;
  const ratio = (tried.least / tried.most) ** (1 / tried.steps);
  let above = middle * tried.most;
  if (rises(above)) return undefined;
  for (let i = 0; i < tried.steps; i++) {
    const below = above * ratio;
    if (rises(below)) return bisect(below, above, rises);
    above = below;
  }
  return undefined;
}

/** The frequency at which the voltage across the winding is highest with this inductance and load; undefined where it only falls, from 20 Hz to 100 kHz. */
export function peakWith(winding: WindingValues, henry: number, load: number): number | undefined {
  const rises = (hz: number): boolean => slope(winding, henry, hz, load) > 0;
  const [from, ratio] = [20, 5000 ** (1 / tried.steps)];
  for (let i = tried.steps; i > 0; i--) {
    const below = from * ratio ** (i - 1);
    if (rises(below)) return bisect(below, below * ratio, rises);
  }
  return undefined;
}

/** Level in dB across the load for one volt of the strings at a frequency: (1 − κ jω/(jω + Re/Le)) / (1 + jωC (R + Z)). */
export function loadedLevel(winding: WindingValues, henry: number, hz: number, load: number): number {
  const { ohm, farad, loss, eddy, exponent, shading } = winding;
  const omega = 2 * Math.PI * hz;
  const { re, im } = coreImpedance(coreSections({ henry, eddy, exponent }), loss, omega);
  const susceptance = omega * (farad + load);
  const [u, v] = [1 - susceptance * im, susceptance * (ohm + re)];
  const level = -10 * Math.log10(u * u + v * v);
  if (eddy === undefined || shading === 0) return level;
  // Its square is (x² + (1 − κ)² ω²) / (x² + ω²) with x = Re/Le.
  const [x, left] = [eddy.ohm / (eddy.share * henry), (1 - shading) * omega];
  return level + 10 * Math.log10((x * x + left * left) / (x * x + omega * omega));
}

function slope(winding: WindingValues, henry: number, hz: number, load: number): number {
  const at = (turn: number): number => loadedLevel(winding, henry, hz * Math.exp(turn), load);
  return at(apart) - at(-apart);
}

/** The place between these two where what holds at the first ends, on a logarithmic axis. */
function bisect(holds: number, fails: number, test: (value: number) => boolean): number {
  let [yes, no] = [holds, fails];
  while (Math.abs(no / yes - 1) > 1e-9) {
    const middle = Math.sqrt(yes * no);
    if (test(middle)) yes = middle;
    else no = middle;
  }
  return Math.sqrt(yes * no);
}
