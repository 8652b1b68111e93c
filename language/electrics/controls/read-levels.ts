/** Levels of all coils, read off a solution of the network with its shafts turned; what only scales is not worked out again. */
import type { Circuit, Coil } from '../../circuit/model.js';
import {
  addScaled,
  addSquares,
  type Changed,
  copyRows,
  type Factors,
  multiply,
  type Rows,
  squareAt,
} from '../../numerics/index.js';
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
  const coilsAt = placeCoils(system, factors, coils);
  /** Reads the coils of one step, and adds their squared volts to the sums. */
  const read = (x: number, step: number, { level, db }: Columns, sums: Float64Array): void => {
    for (const { index, output, plus, minus, admittance } of coilsAt[step] ?? []) {
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
    const columns = { level: coils.map(() => 0), db: coils.map(() => toDb(0)) };
    const sums = fronts.order.map(() => new Float64Array(rows.width));
    const all = new Float64Array(rows.width);
    for (const { step, parent } of fronts.order) {
      const own = sums[step];
      if (own === undefined) continue;
      read(x, step, columns, own);
      addRatios((parent === undefined ? undefined : sums[parent.step]) ?? all, own);
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
      const columns = { level: [...before.levels.level], db: [...before.levels.db] };
      const sums = new Float64Array(rows.width);
      for (const { step } of path) read(x, step, columns, sums);
      for (const end of anew) for (let step = end.first; step <= end.step; step++) read(x, step, columns, sums);
      for (const { on, subtrees } of scaled) {
        const ratios = squaredRatios(rows, x + on.step, factors.first + on.step);
        for (const end of subtrees) {
          addRatios(sums, before.sums[end.step], ratios);
          scaleLevels(columns, before.levels, coilsAt.slice(end.first, end.step + 1), ratios);
        }
      }
      return toLevels(ids, outputs, columns.level, columns.db, sums);
    },
  };
}

/** Levels by coil, as a ratio and in dB. */
interface Columns {
  readonly level: number[];
  readonly db: number[];
}

/** Scales the coils of some steps by the square root of the first ratio, which is that of the frequency where levels are compared. */
function scaleLevels(
  { level, db }: Columns,
  before: Levels,
  coilsAt: readonly (readonly PlacedCoil[])[],
  [ratio = 0]: Iterable<number>,
): void {
  const factor = Math.sqrt(ratio);
  const gain = 20 * Math.log10(factor);
  for (const coils of coilsAt) {
    for (const { index } of coils) {
      const was = before.level[index] ?? 0;
      level[index] = was * factor;
      db[index] = changedDb(was, before.db[index] ?? toDb(was), gain, was * factor);
    }
  }
}

/** Adds values times ratios, place by place. */
function addRatios(sums: Float64Array, values: Float64Array | undefined, ratios?: Float64Array): void {
  for (let f = 0; f < sums.length; f++) sums[f] = (sums[f] ?? 0) + (values?.[f] ?? 0) * (ratios?.[f] ?? 1);
}

function squaredRatios(rows: Rows, now: number, before: number): Float64Array {
  const ratios = new Float64Array(rows.width);
  for (let f = 0; f < ratios.length; f++) ratios[f] = squareAt(rows, now, f) / squareAt(rows, before, f);
  return ratios;
}

/** The coils by the earlier step of the two at their ends; the reference is later than all steps. */
function placeCoils(system: System, { fronts }: Factors, coils: readonly Coil[]): readonly (readonly PlacedCoil[])[] {
  const admittanceOf = new Map(system.windings.map(({ coil }, admittance) => [coil, admittance]));
  const step = (unknown: number): number => fronts.of[unknown]?.step ?? fronts.order.length;
  const coilsAt: PlacedCoil[][] = fronts.order.map(() => []);
  for (const [index, coil] of coils.entries()) {
    const admittance = admittanceOf.get(coil.id);
    const winding = admittance === undefined ? undefined : system.windings[admittance];
    if (admittance === undefined || winding === undefined) continue;
    const [plus, minus] = [step(winding.to), step(winding.from)];
    const own = coilsAt[Math.min(plus, minus)];
    if (plus !== minus) own?.push({ index, output: outputOf(coil), plus, minus, admittance });
  }
  return coilsAt;
}
