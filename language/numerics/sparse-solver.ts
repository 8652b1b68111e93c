/** Solves equations by their plan at many frequencies at once, and checks what it found. */
import { createBackwardError, tolerance } from './backward-error.js';
import type { Plan } from './elimination-plan.js';
import type { Equations, Probe } from './equations.js';
import { solvePivoted } from './pivoted.js';
import { addScaled, copyRows, createRows, fillRows, type Rows } from './rows.js';
import type { Solution } from './solution.js';
import { factor, type Layout, layoutOf, reserveRows, substituteBackward, substituteForward } from './sparse-elimination.js';

export interface SparseSolver {
  /**
   * What `read` makes of the solution at some angular frequencies. What fails its check is solved again with pivoting. The rows of the
   * solution are this solver's own and are there while they are read: a setting is solved in less time than its memory would take to copy.
   */
  solve<T>(omega: Float64Array, read: (solution: Solution) => T): T;
}

/** The solver of these equations for one volt read between two unknowns. */
export function createSparseSolver(equations: Equations, plan: Plan, probe: Probe): SparseSolver {
  const layout = layoutOf(plan, equations.admittances.length);
  const firstOf = (unknown: number): number => plan.steps.findIndex(({ pivot }) => pivot === unknown);
  const forward = plan.steps.slice(Math.min(...[probe.plus, probe.minus].filter((one) => one >= 0).map(firstOf)));
  const backward = [...plan.steps].reverse();
  const backwardError = createBackwardError(plan);
  let rows = createRows(0, 0);
  return {
    solve(omega, read) {
      rows = reserveRows(rows, layout, omega.length);
      equations.evaluate(omega, rows, layout.admittances);
      assemble(plan, omega, rows, layout);
      // The elimination overwrites what the check needs.
      copyRows(rows, layout.kept, 0, plan.values.length);
      factor(plan, rows, layout);
      fillRows(rows, layout.x, plan.size + 1, 0);
      if (probe.plus >= 0) fillRows(rows, layout.x + probe.plus, 1, 1);
      if (probe.minus >= 0) fillRows(rows, layout.x + probe.minus, 1, -1);
      substituteForward(forward, rows, layout);
      substituteBackward(backward, rows, layout);
      const checked = { matrix: layout.kept, x: layout.x };
      const { error } = backwardError.measure(rows, checked, probe);
      const undecided = error.every((one) => one <= tolerance) ? undefined : solveAgain(error);
      const solution = { rows, layout, size: plan.size };
      return read(undecided === undefined ? solution : { ...solution, undecided });
    },
  };

  function solveAgain(error: Float64Array): number | undefined {
    const checked = { matrix: layout.kept, x: layout.x };
    const failed = [...error.keys()].filter((f) => !((error[f] ?? 0) <= tolerance));
    const empty = new Map(failed.map((f) => [f, solvePivoted(plan, rows, checked, probe, f)]));
    const again = backwardError.measure(rows, checked, probe);
    let undecided: number | undefined;
    for (const [f, unknown] of empty) {
      const isSolved = unknown < 0 && (again.error[f] ?? 0) <= tolerance;
      if (isSolved) continue;
      undecided ??= unknown >= 0 ? unknown : again.worst[f];
      clear(f);
    }
    return undecided;
  }

  function clear(f: number): void {
    for (let row = layout.x; row < layout.x + plan.size; row++) {
      rows.re[row * rows.width + f] = 0;
      rows.im[row * rows.width + f] = 0;
    }
  }
}

/** Writes the values of the matrix at these frequencies; the fill-in is zero. */
function assemble({ values, count }: Plan, omega: Float64Array, rows: Rows, { admittances }: Layout): void {
  const { re, im, width } = rows;
  for (const [number, value] of values.entries()) {
    const start = number * width;
    re.fill(value.real, start, start + width);
    if (value.slope === 0) im.fill(0, start, start + width);
    else {
      let at = start;
      for (const one of omega) im[at++] = value.slope * one;
    }
    for (const { index, sign } of value.admittances) addScaled(rows, number, rows, admittances + index, sign);
  }
  fillRows(rows, values.length, count - values.length, 0);
}
