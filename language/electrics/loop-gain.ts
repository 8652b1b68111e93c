/** Whether an amplifier stage is fed from its own output: the gain once round the loop. */
import { altered, type AnalysedCircuit, type Gain } from '../circuit/model.js';
import type { Setting } from './model.js';
import { sectionsOf, shapeAt } from './network/sections.js';
import { logarithmic } from './response.js';
import { transferImpedances } from './solver/solver.js';

/** From far below the lowest string, where only direct current is left, to far above the treble. */
const frequencies = { from: 1e-2, to: 1e6, points: 81 };
/** A stage without output resistance is given this, ohm, so that its output can be driven. */
const leastOutput = 1e-3;

/**
 * The largest gain, in one setting, with which a stage amplifies what its output brings to its own input, in phase. At 1 and above it oscillates: Nyquist's
 * criterion (H. Nyquist, "Regeneration theory", Bell System Technical Journal 11, 1932), read where the loop gain is real. Undefined where nothing
 * comes back. The other stages work as they do.
 */
export function loopGain(
  circuit: AnalysedCircuit,
  setting: Setting,
  stage: Gain,
): { readonly gain: number; readonly hz: number } | undefined {
  const ohm = Math.max(stage.outputResistance.value, leastOutput);
  const opened: Gain = { ...stage, gain: 0, outputResistance: { ...stage.outputResistance, value: ohm } };
  const elements = circuit.elements.map((element) => (element.id === stage.id ? opened : element));
  const open = altered(circuit, { elements });
  const swept = logarithmic(frequencies.from, frequencies.to, frequencies.points);
  // What the stage would drive into its output resistance, by Norton, and what of it comes back to its input.
  const back = transferImpedances(open, setting, [stage.b, stage.minus], [stage.a, stage.inverting ?? stage.minus], swept);
  if (back === null) return undefined;
  const sections = sectionsOf(stage, setting.rotations);
  let most: { gain: number; hz: number } | undefined;
  let before: { re: number; im: number; hz: number } | undefined;
  for (const [i, hz] of swept.entries()) {
    const shape = shapeAt(sections, hz);
    const [re, im] = [((back.re[i] ?? 0) * stage.gain) / ohm, ((back.im[i] ?? 0) * stage.gain) / ohm];
    const here = { re: re * shape.re - im * shape.im, im: re * shape.im + im * shape.re, hz };
    const real = realNear(here) ?? (before === undefined ? undefined : realBetween(before, here));
    if (real !== undefined && real.gain > (most?.gain ?? 0)) most = real;
    before = here;
  }
  return most;
}

/** Real but for a rest of a hundredth: as for direct current, and far above the corner of a capacitor. */
function realNear({ re, im, hz }: { readonly re: number; readonly im: number; readonly hz: number }) {
  return Math.abs(im) < 1e-2 * Math.abs(re) ? { gain: re, hz } : undefined;
}

/** Where it crosses the real axis between two frequencies. */
function realBetween(
  from: { readonly re: number; readonly im: number; readonly hz: number },
  to: { readonly re: number; readonly im: number; readonly hz: number },
) {
  if (from.im === to.im || from.im * to.im > 0) return undefined;
  const share = from.im / (from.im - to.im);
  return { gain: from.re + share * (to.re - from.re), hz: from.hz * (to.hz / from.hz) ** share };
}
