/** What a control is judged by: levels of the whole and of each coil at a few frequencies, for one rotation. */
import { elementById, type AnalysedCircuit, type Circuit, type ElementId } from '../../circuit/model.js';
import { addSquares, squareAt } from '../../numerics/index.js';
import type { Nets, Setting } from '../model.js';
import { createSolver, outputOf } from '../solver/solver.js';

/** Where levels are compared, hertz: the bass of a low string, the middle, and above the resonance of a pickup with its lead. */
export const comparedHz = [100, 400, 1000, 2000, 4000, 8000] as const;
/** Above all that is compared: far above every resonance, where a capacitor to ground can only darken. */
export const farHz = 64_000;
/** Where levels are worked out. */
export const solvedHz = [...comparedHz, farHz] as const;

export interface Levels {
  /** Root of the sum of squares of all coils, in dB, at each of `solvedHz`; phase plays no part in what a control does. */
  readonly total: readonly number[];
  /** The circuit's coils, and the level of each at 100 Hz against its own voltage. */
  readonly coils: readonly ElementId[];
  readonly level: Float64Array;
  /** The same in dB. */
  readonly db: Float64Array;
  /** The output of each coil, in volts for one volt of a pickup of 100 %. */
  readonly outputs: readonly number[];
  /** The most volts of any coil. */
  readonly loudest: number;
}

/** Levels below this are all alike silent. */
const floorDb = -100;
const floor = 1e-5;

/** Levels in one setting. */
export function levelsIn(circuit: AnalysedCircuit, folded: Nets, setting: Setting): Levels {
  const solver = createSolver(circuit, folded, setting);
  const { re, im } = solver.transfersAt(solvedHz);
  const transfers = { re, im, width: solvedHz.length };
  const outputs = solver.coils.map((id) => outputOfElement(circuit, id));
  const sums = new Float64Array(solvedHz.length);
  for (const [i, output] of outputs.entries()) addSquares(sums, transfers, i, output * output);
  const level = Float64Array.from(outputs, (_, i) => Math.sqrt(squareAt(transfers, i, 0)));
  return toLevels(solver.coils, outputs, level, level.map(toDb), sums);
}

/** Levels from each coil's level, as ratio and in dB, and the sum of the squared volts of all at each frequency. */
export function toLevels(
  coils: readonly ElementId[],
  outputs: readonly number[],
  level: Float64Array,
  db: Float64Array,
  sums: Float64Array,
): Levels {
  let loudest = 0;
  for (let i = 0; i < outputs.length; i++) {
    const own = (level[i] ?? 0) * (outputs[i] ?? 0);
    if (own > loudest) loudest = own;
  }
  const total: number[] = [];
  for (const square of sums) total.push(toDb(Math.sqrt(square)));
  return { total, coils, level, db, outputs, loudest };
}

/** The total at one of `solvedHz`. */
export function totalAt({ total }: Levels, hz: (typeof solvedHz)[number]): number {
  return total[solvedHz.indexOf(hz)] ?? floorDb;
}

/** A ratio in dB, silence held at −100. */
export function toDb(ratio: number): number {
  return ratio > floor ? 20 * Math.log10(ratio) : floorDb;
}

/** A level that was `before` and has changed by `gain` dB to `now`. */
export function changedDb(before: number, beforeDb: number, gain: number, now: number): number {
  return before > floor && now > floor ? beforeDb + gain : toDb(now);
}

function outputOfElement(circuit: Circuit, id: ElementId): number {
  const coil = elementById(circuit, id);
  return coil.kind === 'coil' ? outputOf(coil) : 0;
}
