/** What a control is judged by: levels of the whole and of each coil at a few frequencies, for one rotation. */
import type { Circuit, Coil, ElementId } from '../circuit/model.js';
import type { Nets, Setting } from './model.js';
import { createSolver, outputOf } from './solver.js';
import { magnitude } from './magnitude.js';

/** Where levels are compared, hertz: the bass of a low string, the middle, and above the resonance of a pickup with its lead. */
export const comparedHz = [100, 400, 1000, 2000, 4000, 8000] as const;

export interface Levels {
  /** Root of the sum of squares of all coils, in dB, at each of `comparedHz`; phase plays no part in what a control does. */
  readonly total: readonly number[];
  /** Per coil, its level at 100 Hz against its own voltage, and in volts. */
  readonly coils: ReadonlyMap<ElementId, { readonly level: number; readonly volts: number }>;
}

/** Levels below this are all alike silent. */
const floorDb = -100;

/** Levels in one setting. */
export function levelsIn(circuit: Circuit, folded: Nets, setting: Setting): Levels {
  const solver = createSolver(circuit, folded, setting);
  const { re, im } = solver.transfersAt(comparedHz);
  const width = comparedHz.length;
  const squares = new Float64Array(width);
  const coils = new Map<ElementId, { level: number; volts: number }>();
  solver.coils.forEach((id, i) => {
    const output = outputOf(circuit.elements[id] as Coil);
    for (let f = 0; f < width; f++) {
      const level = magnitude(re[i * width + f]!, im[i * width + f]!);
      if (f === 0) coils.set(id, { level, volts: level * output });
      squares[f] = squares[f]! + (level * output) ** 2;
    }
  });
  return { total: Array.from(squares, (square) => toDb(Math.sqrt(square))), coils };
}

/** A ratio in dB, silence held at −100. */
export function toDb(ratio: number): number {
  return ratio > 1e-5 ? 20 * Math.log10(ratio) : floorDb;
}
