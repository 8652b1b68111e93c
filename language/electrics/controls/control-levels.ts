/** What a control is judged by: levels of the whole and of each coil at a few frequencies, for one rotation. */
import type { Circuit, Coil, ElementId } from '../../circuit/model.js';
import type { Nets, Setting } from '../model.js';
import { createSolver, outputOf } from '../solver/solver.js';

/** Where levels are compared, hertz: the bass of a low string, the middle, and above the resonance of a pickup with its lead. */
export const comparedHz = [100, 400, 1000, 2000, 4000, 8000] as const;
/** Where levels are worked out: those, and far above every resonance, where a capacitor to ground can only darken. */
export const solvedHz = [...comparedHz, 64_000] as const;

export interface Levels {
  /** Root of the sum of squares of all coils, in dB, at each of `solvedHz`; phase plays no part in what a control does. */
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
const floor = 1e-5;

/** Levels in one setting. */
export function levelsIn(circuit: Circuit, folded: Nets, setting: Setting): Levels {
  const solver = createSolver(circuit, folded, setting);
  const { re, im } = solver.transfersAt(solvedHz);
  const outputs = Float64Array.from(solver.coils, (id) => outputOf(circuit.elements[id] as Coil));
  const squares = Float64Array.from(re, (value, i) => value * value + im[i]! * im[i]!);
  return levelsOf(solver.coils, outputs, squares);
}

/** Levels from the square of each coil's transfer; the one of coil `i` at frequency `f` lies at `i * solvedHz.length + f`. */
export function levelsOf(coils: readonly ElementId[], outputs: Float64Array, squares: Float64Array): Levels {
  const width = solvedHz.length;
  const sums = new Float64Array(width);
  const level: number[] = [];
  for (let i = 0; i < coils.length; i++) {
    level.push(Math.sqrt(squares[i * width]!));
    for (let f = 0; f < width; f++) sums[f] = sums[f]! + squares[i * width + f]! * outputs[i]! * outputs[i]!;
  }
  return toLevels(coils, outputs, level, level.map(toDb), sums);
}

/** The same from each coil's level, as ratio and in dB, and the sum of the squared volts of all at each frequency. */
export function toLevels(
  coils: readonly ElementId[],
  outputs: Float64Array,
  level: readonly number[],
  db: readonly number[],
  sums: Float64Array,
): Levels {
  const volts: number[] = [];
  let loudest = 0;
  for (let i = 0; i < coils.length; i++) {
    const own = level[i]! * outputs[i]!;
    volts.push(own);
    if (own > loudest) loudest = own;
  }
  return { total: Array.from(sums, (square) => toDb(Math.sqrt(square))), coils, level, db, volts, loudest };
}

/** A ratio in dB, silence held at −100. */
export function toDb(ratio: number): number {
  return ratio > floor ? 20 * Math.log10(ratio) : floorDb;
}

/** A level that was `before` and has changed by `gain` dB to `now`. */
export function changedDb(before: number, beforeDb: number, gain: number, now: number): number {
  return before > floor && now > floor ? beforeDb + gain : toDb(now);
}
