/** Levels of all coils, read off a solution of the network with its shafts turned; what only scales is not worked out again. */
import type { Circuit, Coil } from '../../circuit/model.js';
import {
  addProducts,
  addScaled,
  addSquares,
  addValues,
  type Changed,
  copyRows,
  type Factors,
  type Front,
  multiply,
  type Rows,
  squareAt,
} from '../../numerics/index.js';
import { itemAt, lastOf } from '../../collections.js';
import type { System } from '../network/system.js';
import { outputOf } from '../solver/solver.js';
import { changedDb, type Levels, toDb, toLevels } from './control-levels.js';

export interface Reader {
  /** With everything as it was at first; `undefined` where elimination would lose figures. */
  first(): Levels | undefined;
  changed(solution: Changed): Levels | undefined;
}

/** A coil in the equations: where its current goes in and comes out, as steps, and which admittance it has. */
interface PlacedCoil {
  /** Its place among the circuit's coils. */
  readonly index: number;
  readonly output: number;
  readonly plus: number;
  readonly minus: number;
  readonly admittance: number;
}

/** The first solution's levels, and the weighted squares of whole subtrees by step. */
interface First {
  readonly levels: Levels;
  readonly sums: readonly Float64Array[];
}

/** Reads the coils of a circuit; one whose ends are both outside the system, or on one node, delivers nothing. */
export function createReader(circuit: Circuit, system: System, factors: Factors): Reader {
  const { rows, fronts, scratch } = factors;
  const coils = circuit.elements.filter((element): element is Coil => element.kind === 'coil');
  const ids = coils.map(({ id }) => id);
  const outputs = coils.map(outputOf);
  const placing = placeCoils(system, factors, coils);
  const { placed, from } = placing;
  /** Reads the coils of one step, and adds their squared volts to the sums. */
  const read = (x: number, step: number, { level, db }: Columns, sums: Float64Array): void => {
    for (let at = from[step] ?? 0; at < (from[step + 1] ?? 0); at++) {
      const { index, output, plus, minus, admittance } = itemAt(placed, at);
      copyRows(rows, scratch, x + plus, 1);
      addScaled(rows, scratch, rows, x + minus, -1);
      multiply(rows, scratch, scratch, factors.admittances + admittance);
      const own = Math.sqrt(squareAt(rows, scratch, 0));
      level[index] = own;
      db[index] = toDb(own);
      addSquares(sums, rows, scratch, output * output);
    }
  };
  const readFirst = (x: number): First => {
    const columns = { level: new Float64Array(coils.length), db: new Float64Array(coils.length).fill(toDb(0)) };
    const sums = fronts.order.map(() => new Float64Array(rows.width));
    const all = new Float64Array(rows.width);
    for (const { step, parent } of fronts.order) {
      const own = sums[step];
      if (own === undefined) continue;
      read(x, step, columns, own);
      addValues((parent === undefined ? undefined : sums[parent.step]) ?? all, own);
    }
    return { levels: toLevels(ids, outputs, columns.level, columns.db, all), sums };
  };
  let kept: First | undefined;
  const first = (): First | undefined => (kept ??= factors.first === undefined ? undefined : readFirst(factors.first));
  return {
    first: () => first()?.levels,
    changed({ x, path, anew, scaled }) {
      const before = first();
      if (before === undefined || factors.first === undefined) return undefined;
      const columns = { level: before.levels.level.slice(), db: before.levels.db.slice() };
      const sums = new Float64Array(rows.width);
      for (const { step } of path) read(x, step, columns, sums);
      for (const end of anew) for (let step = end.first; step <= end.step; step++) read(x, step, columns, sums);
      for (const { on, subtrees } of scaled) {
        const ratios = squaredRatios(rows, x + on.step, factors.first + on.step);
        for (const end of subtrees) addProducts(sums, itemAt(before.sums, end.step), ratios);
        scaleLevels(columns, before.levels, { coils: placing.coils, runs: runsOf(placing, subtrees) }, ratios);
      }
      return toLevels(ids, outputs, columns.level, columns.db, sums);
    },
  };
}

/** Levels by coil, as a ratio and in dB. */
interface Columns {
  readonly level: Float64Array;
  readonly db: Float64Array;
}

/** The coils of subtrees, as runs of their places: from the first of each pair up to before the second. What lies side by side is one run. */
function runsOf({ from }: Placed, subtrees: readonly Front[]): readonly number[] {
  const runs: number[] = [];
  for (const subtree of subtrees) {
    const start = from[subtree.first] ?? 0;
    const end = from[subtree.step + 1] ?? 0;
    if (runs.length > 0 && runs[runs.length - 1] === start) runs[runs.length - 1] = end;
    else runs.push(start, end);
  }
  return runs;
}

/** Scales the levels of runs of coils by the square root of the first ratio, which is that of the frequency where levels are compared. */
function scaleLevels(
  { level, db }: Columns,
  { level: before, db: beforeDb }: Levels,
  { coils, runs }: { readonly coils: Int32Array; readonly runs: readonly number[] },
  ratios: Float64Array,
): void {
  const factor = Math.sqrt(ratios[0] ?? 0);
  const gain = 20 * Math.log10(factor);
  for (let run = 0; run < runs.length; run += 2) {
    for (let at = runs[run] ?? 0; at < (runs[run + 1] ?? 0); at++) {
      const coil = coils[at] ?? 0;
      const was = before[coil] ?? 0;
      const now = was * factor;
      level[coil] = now;
      db[coil] = changedDb(was, beforeDb[coil] ?? toDb(was), gain, now);
    }
  }
}

function squaredRatios(rows: Rows, now: number, before: number): Float64Array {
  const ratios = new Float64Array(rows.width);
  for (let f = 0; f < ratios.length; f++) ratios[f] = squareAt(rows, now, f) / squareAt(rows, before, f);
  return ratios;
}

/** Coils in the order of the earlier step of the two at their ends, and the place of the first one of each step, so that a subtree has a run of them. */
interface Placed {
  readonly placed: readonly PlacedCoil[];
  readonly from: readonly number[];
  /** Their places among the circuit's coils. */
  readonly coils: Int32Array;
}

/** The reference is later than all steps. */
function placeCoils(system: System, { fronts }: Factors, coils: readonly Coil[]): Placed {
  const sourceOf = new Map(system.sources.map((source) => [source.coil, source]));
  const step = (unknown: number): number => fronts.of[unknown]?.step ?? fronts.order.length;
  const coilsAt: PlacedCoil[][] = fronts.order.map(() => []);
  for (const [index, coil] of coils.entries()) {
    const source = sourceOf.get(coil.id);
    if (source === undefined) continue;
    const { admittance } = source;
    const [plus, minus] = [step(source.to), step(source.from)];
    const own = coilsAt[Math.min(plus, minus)];
    if (plus !== minus) own?.push({ index, output: outputOf(coil), plus, minus, admittance });
  }
  const from = [0];
  for (const own of coilsAt) from.push(lastOf(from) + own.length);
  const placed = coilsAt.flat();
  return { placed, from, coils: Int32Array.from(placed, ({ index }) => index) };
}
