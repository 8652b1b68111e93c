/** Solves a system for a unit at its output, at one frequency or many, and names the net that nothing decides. */
import { createPlan, createSparseSolver, type Probe, type Solution as Solved, type SparseSolver } from '../../numerics/index.js';
import { netLabel } from '../network/nets.js';
import { equationsOf, type System } from '../network/system.js';

/** Frequencies worked on at a time: enough to make each step a long run, few enough for an instrument's equations to stay in the processor's cache. */
const block = 50;

/** What solving a system at some frequencies gives. */
export interface Solution extends Solved {
  /** What could not be solved at some frequency, naming the net; all unknowns are zero there. */
  readonly problem?: string;
}

export interface Adjoint {
  /** What `read` makes of the solution at some angular frequencies, best not more than `blockSize`. */
  solve<T>(omega: Float64Array, read: (solution: Solution) => T): T;
  readonly blockSize: number;
}

/** The adjoint solution for one volt read between two unknowns; it is planned when it is first asked for. */
export function createAdjoint(system: System, probe: Probe): Adjoint {
  const { work } = system.network.circuit.analysis;
  let made: { readonly solver: SparseSolver; readonly products: number } | undefined;
  const planned = (): { readonly solver: SparseSolver; readonly products: number } => {
    work?.charge('plan', system.size ** 2);
    const equations = equationsOf(system);
    const plan = createPlan(equations, probe.plus >= 0 ? probe.plus : probe.minus);
    return { solver: createSparseSolver(equations, plan, probe), products: plan.products };
  };
  return {
    blockSize: block,
    solve(omega, read) {
      const { solver, products } = (made ??= planned());
      work?.charge('entry', products * omega.length);
      return solver.solve(omega, (solution) => {
        const { undecided } = solution;
        return read(undecided === undefined ? solution : { ...solution, problem: unsolvable(system, undecided) });
      });
    },
  };
}

function unsolvable({ network, nodeOf }: System, unknown: number): string {
  const node = nodeOf[unknown] ?? -1;
  if (node < 0) return 'a coil or an amplifier stage without resistance is shorted, or two of them conflict: no solution';
  const names = [...network.nodeOf].flatMap((at, net) => (at === node ? [netLabel(network.circuit, network.nets, net)] : []));
  return `the net of ${names.join(', ')} floats: nothing decides its voltage`;
}
