/** Levels of all coils, read off a solution of the turned network; what only scales is not worked out again. */
import type { Circuit, Coil } from '../../circuit/model.js';
import type { Rows } from '../../numerics/index.js';
import { windingAdmittance } from '../network/stamps.js';
import type { System } from '../network/system.js';
import type { Changed, Factors } from '../solver/factors.js';
import { outputOf } from '../solver/solver.js';
import { changedDb, type Levels, levelsOf, toDb, toLevels } from './control-levels.js';

export interface Reader {
  first(): Levels | undefined;
  changed(solution: Changed | undefined): Levels | undefined;
}

/** Reads the coils of a circuit; one whose ends are both outside the system, or on one node, delivers nothing. */
export function createReader(circuit: Circuit, system: System, factors: Factors, omega: Float64Array): Reader {
  const width = omega.length;
  const { fronts } = factors;
  const coils = circuit.elements.filter((element): element is Coil => element.kind === 'coil');
  const ids = coils.map(({ id }) => id);
  const outputs = Float64Array.from(coils, outputOf);
  const admittance = { re: new Float64Array(coils.length * width), im: new Float64Array(coils.length * width) };
  const { plus, minus, coilsOf } = placesOf(system, factors, coils);
  const indexOf = new Map<number, number>(ids.map((id, i) => [id, i]));
  for (const winding of system.windings) {
    const i = indexOf.get(winding.coil);
    if (i !== undefined) windingAdmittance(winding, omega, admittance, i * width);
  }
  const squares = new Float64Array(coils.length * width);
  const ratio = new Float64Array(width);
  const read = (x: Rows, i: number): void => {
    const [p, m, y] = [plus[i]! * width, minus[i]! * width, i * width];
    for (let f = 0; f < width; f++) {
      const u = x.re[p + f]! - x.re[m + f]!;
      const w = x.im[p + f]! - x.im[m + f]!;
      const g = admittance.re[y + f]!;
      const b = admittance.im[y + f]!;
      const [re, im] = [g * u - b * w, g * w + b * u];
      squares[y + f] = re * re + im * im;
    }
  };
  let kept: { readonly levels: Levels; readonly sums: Float64Array } | undefined;
  const first = (): typeof kept => {
    if (kept !== undefined || factors.first === undefined) return kept;
    for (const own of coilsOf) for (const i of own) read(factors.first, i);
    // Squares of whole subtrees, weighted as a total wants them.
    const sums = new Float64Array(fronts.size * width);
    coilsOf.forEach((own, step) => {
      for (const i of own) {
        for (let f = 0; f < width; f++) {
          sums[step * width + f] = sums[step * width + f]! + squares[i * width + f]! * outputs[i]! * outputs[i]!;
        }
      }
      const above = fronts.parent[step]!;
      if (above < 0) return;
      for (let f = 0; f < width; f++) sums[above * width + f] = sums[above * width + f]! + sums[step * width + f]!;
    });
    return (kept = { levels: levelsOf(ids, outputs, squares), sums });
  };
  return {
    first: () => first()?.levels,
    changed(solution) {
      const before = first();
      if (before === undefined || solution === undefined) return undefined;
      const level = [...before.levels.level];
      const db = [...before.levels.db];
      const sums = new Float64Array(width);
      const readAnew = (step: number): void => {
        for (const i of coilsOf[step]!) {
          read(solution.x, i);
          const output = outputs[i]!;
          level[i] = Math.sqrt(squares[i * width]!);
          db[i] = toDb(level[i]);
          for (let f = 0; f < width; f++) sums[f] = sums[f]! + squares[i * width + f]! * output * output;
        }
      };
      for (const step of solution.path) readAnew(step);
      for (const end of solution.anew) for (let step = fronts.first[end]!; step <= end; step++) readAnew(step);
      // Subtrees that hang on one step stand together and share its ratio.
      let [at, factor, gain] = [-1, 0, 0];
      for (const end of solution.scaled) {
        if (fronts.parent[end] !== at) {
          at = fronts.parent[end]!;
          for (let f = 0; f < width; f++) ratio[f] = squaredRatio(solution.x, factors.first!, at * width + f);
          factor = Math.sqrt(ratio[0]!);
          gain = 20 * Math.log10(factor);
        }
        for (let f = 0; f < width; f++) sums[f] = sums[f]! + before.sums[end * width + f]! * ratio[f]!;
        for (let step = fronts.first[end]!; step <= end; step++) {
          for (const i of coilsOf[step]!) {
            level[i] = before.levels.level[i]! * factor;
            db[i] = changedDb(before.levels.level[i]!, before.levels.db[i]!, gain, level[i]);
          }
        }
      }
      return toLevels(ids, outputs, level, db, sums);
    },
  };
}

/** Steps where a coil's current goes in and comes out (the one after the last is the reference), and the coils by the earlier of the two. */
function placesOf(system: System, { fronts: { size, stepOf } }: Factors, coils: readonly Coil[]) {
  const windingOf = new Map(system.windings.map((winding) => [winding.coil, winding]));
  const step = (unknown: number): number => (unknown < 0 ? size : stepOf[unknown]!);
  const coilsOf: number[][] = Array.from({ length: size }, () => []);
  const [plus, minus] = [new Int32Array(coils.length), new Int32Array(coils.length)];
  coils.forEach(({ id }, i) => {
    const winding = windingOf.get(id);
    if (winding === undefined) return;
    [plus[i], minus[i]] = [step(winding.to), step(winding.from)];
    const early = Math.min(plus[i], minus[i]);
    if (early < size && plus[i] !== minus[i]) coilsOf[early]!.push(i);
  });
  return { plus, minus, coilsOf };
}

function squaredRatio(now: Rows, before: Rows, at: number): number {
  return (now.re[at]! ** 2 + now.im[at]! ** 2) / (before.re[at]! ** 2 + before.im[at]! ** 2);
}
