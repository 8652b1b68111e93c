/** What the core and the cover of a pickup lose, in the figures of its model. */
import { coreImpedance, coreSections, lossFactor } from '../../coil/index.js';
import type { AnalysedCircuit, Coil, ElementId } from '../../circuit/model.js';
import { coupledPairs } from '../network/coupling.js';

export interface CoreAnswer {
  /** Inductance of the coils in series, in phase, as a meter reads it at 120 Hz. */
  readonly henry: number;
  /** Resistance across the inductance, ohm. */
  readonly loss?: number;
  /** Inductance that eddy currents short, and the resistance of their path. */
  readonly eddy?: { readonly henry: number; readonly ohm: number };
  /** The lossy inductor K (jω)^n: n, and K in Ω·s^n. */
  readonly lossy?: { readonly exponent: number; readonly factor: number };
  /** Share of the voltage that a cover takes away far above its corner Re / (2π Le), hertz. */
  readonly cover?: { readonly share: number; readonly hz: number };
  /** The inductance that acts at a frequency: reactance over ω, henry. */
  at(hz: number): number;
}

/** Of these coils together, in series and in phase; undefined where none of them loses anything but in its resistance. */
export function coreAnswer(circuit: AnalysedCircuit, coils: readonly ElementId[]): CoreAnswer | undefined {
  const own = coils.map((id) => circuit.elements[id]).filter((element): element is Coil => element?.kind === 'coil');
  const [first] = own;
  if (first === undefined || own.every((coil) => !isLossy(coil))) return undefined;
  const sum = (of: (coil: Coil) => number): number => own.reduce((all, coil) => all + of(coil), 0);
  const mutual = coupledPairs(circuit)
    .filter((pair) => coils.includes(pair.first.id) && coils.includes(pair.second.id))
    .reduce(
      (all, pair) => all + 2 * (pair.first.coupling ?? 0) * Math.sqrt(pair.first.inductance.value * pair.second.inductance.value),
      0,
    );
  const henry = sum((coil) => coil.inductance.value) + mutual;
  const { eddyInductance: share = 0, lossExponent: exponent = 1, coverShading: shading = 0 } = first;
  const ohm = sum((coil) => coil.eddyResistance?.value ?? 0);
  const loss = first.loss === undefined ? Infinity : sum((coil) => coil.loss?.value ?? 0);
  const sections = coreSections({ henry, eddy: share > 0 ? { share, ohm } : undefined, exponent });
  return {
    henry,
    ...(loss === Infinity ? {} : { loss }),
    ...(share > 0 ? { eddy: { henry: share * henry, ohm } } : {}),
    ...(exponent < 1 ? { lossy: { exponent, factor: lossFactor(henry * (1 - share), exponent) } } : {}),
    ...(shading > 0 && share > 0 ? { cover: { share: shading, hz: ohm / (2 * Math.PI * share * henry) } } : {}),
    at(hz) {
      const omega = 2 * Math.PI * hz;
      return coreImpedance(sections, loss, omega).im / omega;
    },
  };
}

function isLossy({ loss, eddyInductance = 0, lossExponent = 1 }: Coil): boolean {
  return loss !== undefined || eddyInductance > 0 || lossExponent < 1;
}
