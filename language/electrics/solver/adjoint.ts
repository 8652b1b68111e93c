/** Solves a system for a unit at its output, at one frequency or many, and checks what it found. */
import { createPlan } from './elimination.js';
import { solvePivoted } from './pivoted.js';
import { createPlanned, type Planned } from './planned.js';
import type { Solution } from './solution.js';
import type { System } from '../network/system.js';

/** Frequencies worked on at a time: enough to make each step a long run, few enough to stay in the processor's cache. */
const block = 100;
/** Systems up to this size are solved directly when only a frequency or two is asked for; planning would cost more. */
const directly = 24;

export interface Adjoint {
  /** At some angular frequencies, best not more than `blockSize`. The arrays are used again by the next solution of any system. */
  solve(omega: Float64Array): Solution;
  readonly blockSize: number;
}

/** The adjoint solution for one volt read between two unknowns (−1 is the reference). */
export function createAdjoint(system: System, plus: number, minus: number): Adjoint {
  const { work } = system.network.circuit;
  let planned: Planned | undefined;
  let asked = 0;
  let entries = 0;
  return {
    blockSize: block,
    solve(omega) {
      asked += omega.length;
      if (planned === undefined && system.size <= directly && asked <= 2) {
        work?.charge('entry', system.size ** 2 * omega.length);
        return solvePivoted(system, plus, minus, omega);
      }
      if (planned === undefined) {
        work?.charge('plan', system.size ** 2);
        const plan = createPlan(system, plus >= 0 ? plus : minus);
        entries = plan.fill.reduce((sum, { length }) => sum + length, plan.values);
        planned = createPlanned(system, plan, plus, minus);
      }
      work?.charge('entry', entries * omega.length);
      return planned.solve(omega);
    },
  };
}
