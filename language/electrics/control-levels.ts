/** What a control is judged by: levels of the whole and of each coil at a few frequencies, for one rotation. */
import type { Circuit, Coil, ElementId } from '../circuit/model.js';
import type { Nets, Setting } from './model.js';
import { createSolver, outputOf } from './solver.js';

/** Where levels are compared, hertz: the bass of a low string, the middle, and above the resonance of a pickup with its lead. */
export const comparedHz = [100, 400, 1000, 2000, 4000, 8000] as const;

export interface Levels {
  /** Root of the sum of squares of all coils, in dB, at each of `comparedHz`; phase plays no part in what a control does. */
  readonly total: readonly number[];
  /** The circuit's coils, and the level of each at 100 Hz against its own voltage. */
  readonly coils: readonly ElementId[];
  readonly level: readonly number[];
  /** The same in dB, and in volts with the coil's output. */
  readonly db: readonly number[];
  readonly volts: readonly number[];
  /** The most volts of any coil. */
  readonly loudest: number;
}

/** Levels below this are all alike silent. */
const floorDb = -100;

/** Levels in one setting. */
export function levelsIn(circuit: Circuit, folded: Nets, setting: Setting): Levels {
  const solver = createSolver(circuit, folded, setting);
  const { re, im } = solver.transfersAt(comparedHz);
  const outputs = Float64Array.from(solver.coils, (id) => outputOf(circuit.elements[id] as Coil));
  const squares = Float64Array.from(re, (value, i) => value * value + im[i]! * im[i]!);
  return levelsOf(solver.coils, outputs, squares);
}

/** Levels from the square of each coil's transfer; the one of coil `i` at frequency `f` lies at `i * comparedHz.length + f`. Plain arrays: short typed ones cost more to make than to use. */
export function levelsOf(coils: readonly ElementId[], outputs: Float64Array, squares: Float64Array): Levels {
  const width = comparedHz.length;
  const sums = comparedHz.map(() => 0);
  const level: number[] = [];
  const db: number[] = [];
  const volts: number[] = [];
  let loudest = 0;
  for (let i = 0; i < coils.length; i++) {
    const output = outputs[i]!;
    const own = Math.sqrt(squares[i * width]!);
    level.push(own);
    db.push(toDb(own));
    volts.push(own * output);
    if (own * output > loudest) loudest = own * output;
    for (let f = 0; f < width; f++) sums[f] = sums[f]! + squares[i * width + f]! * output * output;
  }
  return { total: sums.map((square) => toDb(Math.sqrt(square))), coils, level, db, volts, loudest };
}

/** A ratio in dB, silence held at −100. */
export function toDb(ratio: number): number {
  return ratio > 1e-5 ? 20 * Math.log10(ratio) : floorDb;
}
