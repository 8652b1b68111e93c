/** A system solved by its plan over a block of frequencies, each solution checked. */
import { boundError, createRows, factor, isSolved, type Plan, type Rows, substitute, tolerance } from '../../numerics/index.js';
import { windingAdmittance } from '../network/stamps.js';
import type { System } from '../network/system.js';
import { solvePivoted } from './pivoted.js';
import type { Solution } from './solution.js';

export interface Planned {
  /** At some angular frequencies. What fails its check is solved again with pivoting. */
  solve(omega: Float64Array): Solution;
}

/** The planned solution for one volt read between two unknowns (−1 is the reference). */
export function createPlanned(system: System, plan: Plan, plus: number, minus: number): Planned {
  const constants = constantsOf(system, plan);
  const first = Math.min(...[plus, minus].map((unknown) => (unknown < 0 ? plan.size : plan.order.indexOf(unknown))));
  return {
    solve(omega) {
      const count = omega.length;
      reserve(plan, system.windings.length, count);
      const { matrix, kept, inverse, x, admittance, scratch, error } = memory;
      stamp(system, plan, constants, matrix, admittance, omega);
      // The elimination overwrites what the check needs.
      kept.re.set(matrix.re.subarray(0, plan.own * count));
      kept.im.set(matrix.im.subarray(0, plan.own * count));
      factor(plan, matrix, inverse, scratch, count);
      for (let step = first; step < plan.size; step++) {
        x.re.fill(0, plan.order[step]! * count, (plan.order[step]! + 1) * count);
        x.im.fill(0, plan.order[step]! * count, (plan.order[step]! + 1) * count);
      }
      if (plus >= 0) x.re.fill(1, plus * count, (plus + 1) * count);
      if (minus >= 0) x.re.fill(-1, minus * count, (minus + 1) * count);
      substitute(plan, matrix, inverse, x, first, scratch, count);
      boundError(plan, kept, x, plus, minus, error, count);
      let problem: string | undefined;
      for (let f = 0; f < count; f++) {
        if (error[f]! <= tolerance || isSolved(plan, kept, x, plus, minus, count, f)) continue;
        const one = solvePivoted(system, plus, minus, Float64Array.of(omega[f]!));
        problem ??= one.problem;
        for (let u = 0; u < plan.size; u++) {
          x.re[u * count + f] = one.re[u]!;
          x.im[u * count + f] = one.im[u]!;
        }
      }
      return { re: x.re, im: x.im, count, admittance, ...(problem === undefined ? {} : { problem }) };
    },
  };
}

/** Values of one system that do not change with the frequency, by place in the plan: a real part, and one that is multiplied by jω. */
interface Constants {
  readonly real: Float64Array;
  readonly slope: Float64Array;
}

function constantsOf(system: System, plan: Plan): Constants {
  const real = new Float64Array(plan.values);
  const slope = new Float64Array(plan.values);
  for (let i = 0; i < plan.entry.length; i++) {
    const at = plan.entry[i]!;
    if (at < 0) continue;
    real[at] = real[at]! + system.entries.real[i]!;
    slope[at] = slope[at]! + system.entries.slope[i]!;
  }
  return { real, slope };
}

/** Working memory, used again by every solution: a setting is solved in less time than its memory would take to clear. */
const memory = {
  matrix: createRows(0),
  kept: createRows(0),
  inverse: createRows(0),
  x: createRows(0),
  admittance: createRows(0),
  scratch: createRows(0),
  error: new Float64Array(0),
};

function reserve(plan: Plan, windings: number, count: number): void {
  const enough = (has: Rows, length: number): Rows => (has.re.length >= length ? has : createRows(2 * length));
  memory.matrix = enough(memory.matrix, plan.values * count);
  memory.kept = enough(memory.kept, plan.values * count);
  memory.inverse = enough(memory.inverse, plan.size * count);
  memory.x = enough(memory.x, plan.size * count);
  memory.admittance = enough(memory.admittance, windings * count);
  memory.scratch = enough(memory.scratch, count);
  if (memory.error.length < count) memory.error = new Float64Array(2 * count);
}

function stamp(system: System, plan: Plan, constants: Constants, matrix: Rows, admittance: Rows, omega: Float64Array): void {
  const { re, im } = matrix;
  const count = omega.length;
  for (let w = 0; w < system.windings.length; w++) windingAdmittance(system.windings[w]!, omega, admittance, w * count);
  for (let v = 0; v < plan.own; v++) {
    const windings = plan.windingsOfValue[v]!;
    setRow(matrix, v * count, constants.real[v]!, constants.slope[v]!, omega, admittance, windings[0]);
    for (let i = 1; i < windings.length; i++)
      addRow(matrix, v * count, admittance, windings[i]!.winding * count, windings[i]!.sign, count);
  }
  re.fill(0, plan.own * count, plan.values * count);
  im.fill(0, plan.own * count, plan.values * count);
}

/** A value's constant part with the first winding that touches it, in one run. */
function setRow(
  { re, im }: Rows,
  to: number,
  real: number,
  slope: number,
  omega: Float64Array,
  from: Rows,
  first: { readonly winding: number; readonly sign: 1 | -1 } | undefined,
): void {
  const count = omega.length;
  if (first === undefined) {
    re.fill(real, to, to + count);
    if (slope === 0) im.fill(0, to, to + count);
    else for (let f = 0; f < count; f++) im[to + f] = slope * omega[f]!;
    return;
  }
  const { re: fromRe, im: fromIm } = from;
  const at = first.winding * count;
  const { sign } = first;
  for (let f = 0; f < count; f++) {
    re[to + f] = real + sign * fromRe[at + f]!;
    im[to + f] = slope * omega[f]! + sign * fromIm[at + f]!;
  }
}

function addRow({ re, im }: Rows, to: number, from: Rows, at: number, sign: 1 | -1, count: number): void {
  const { re: fromRe, im: fromIm } = from;
  for (let f = 0; f < count; f++) {
    re[to + f] = re[to + f]! + sign * fromRe[at + f]!;
    im[to + f] = im[to + f]! + sign * fromIm[at + f]!;
  }
}
