/** Hum: what the coils pick up of the mains' field, and how far it cancels at the output. */
import { type AnalysedCircuit, type Coil, derive, derivation, type ElementId } from '../../circuit/model.js';
import { magnitude } from '../../numerics/index.js';
import type { Hum, Sound } from '../model.js';

/** Up to this share of the sum of magnitudes (−20 dB) hum counts as cancelled, up to the next as partly. */
const cancelledBelow = 0.1;
const partlyBelow = 0.5;
/** No two coils are alike to a thousandth: a smaller remainder says nothing of an instrument, dB. */
const leastDb = -60;

/** One coil and its transfer to the output, by a volt that drives its finish positive against its start. */
interface Delivered {
  readonly coil: Coil;
  readonly re: number;
  readonly im: number;
}

/**
 * Whether hum cancels: each coil picks up as much as it has turns, with the sign of its winding, weighed by what it delivers at the output. Output and
 * magnet, which make the strings loud, don't count, so a dummy coil cancels as far as its turns match.
 */
export function humOf(circuit: AnalysedCircuit, coils: readonly Delivered[]): Pick<Sound, 'hum' | 'humDb'> {
  const turns = derive(circuit, turnsByCoil);
  let [re, im, all] = [0, 0, 0];
  for (const { coil, re: x, im: y } of coils) {
    const weight = turns.get(coil.id) ?? 0;
    re += weight * coil.winding * x;
    im += weight * coil.winding * y;
    all += weight * magnitude(x, y);
  }
  if (!(all > 0)) return { hum: 'none', humDb: null };
  const left = magnitude(re, im) / all;
  return { hum: humFrom(left), humDb: Math.max(leastDb, 20 * Math.log10(left)) };
}

function humFrom(left: number): Hum {
  if (left < cancelledBelow) return 'cancelled';
  return left < partlyBelow ? 'partly' : 'present';
}

/**
 * Turns of each coil. The inductance of coils on like cores goes by the square of their turns, so its square root replaces turns that are not given, in
 * the proportion of the coils that give theirs (the middle one of these proportions, where they differ).
 */
const turnsByCoil = derivation(['elements', 'values'], ({ elements }): ReadonlyMap<ElementId, number> => {
  const coils = elements.filter((element): element is Coil => element.kind === 'coil');
  const root = ({ inductance }: Coil): number => Math.sqrt(Math.max(inductance.value, 0));
  const proportions = coils
    .flatMap((coil) => (coil.turns === undefined || !(root(coil) > 0) ? [] : [coil.turns / root(coil)]))
    .sort((a, b) => a - b);
  const proportion = proportions[Math.floor(proportions.length / 2)] ?? 1;
  return new Map(coils.map((coil) => [coil.id, coil.turns ?? proportion * root(coil)]));
});
