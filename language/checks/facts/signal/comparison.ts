/** Whether two settings are the same signal at every output, with the pots at rest and part way. */
import type { AnalysedCircuit } from '../../../circuit/model.js';
import { getOrCreate, itemAt } from '../../../collections.js';
import { createSolver, nets, type Setting } from '../../../electrics/index.js';
import type { Facts } from '../facts.js';
import { factsOf } from '../index.js';

const golden = (Math.sqrt(5) - 1) / 2;

/** True where every coil delivers the same in both. */
export type Comparison = (one: Setting, other: Setting) => boolean;

/** Compares what each coil delivers, at three frequencies. Settings are alike for one output where its nets are, which for another need not be so. */
export function createComparison({ signal, circuit }: Facts): Comparison {
  // With a different rotation for each pot, two equal volumes give different results; the golden section spreads the rotations.
  const partlyTurned = circuit.shafts.map((_, index) => 2 + 6 * ((index * golden) % 1));
  const measures = signal.views().map((view) => {
    const numbers = new Map(
      factsOf(view.circuit)
        .groups()
        .flatMap((group, index) => group.settings.map((setting) => [setting.positions.join(), `group ${index}`] as const)),
    );
    const kept = new Map<string, readonly number[]>();
    return (setting: Setting): readonly number[] => {
      const at = view.at(setting);
      const positions = at.positions.join();
      return getOrCreate(kept, numbers.get(positions) ?? positions, () => solve(view.circuit, at, partlyTurned));
    };
  });
  return (one, other) => {
    const x = measures.map((measure) => measure(one));
    const y = measures.map((measure) => measure(other));
    if (x.every((values, i) => values === y[i])) return true;
    const [own, others] = [x.flat(), y.flat()];
    const scale = Math.max(1e-6, ...own.map(Math.abs), ...others.map(Math.abs));
    return own.every((value, i) => Math.abs(value - itemAt(others, i)) <= 1e-7 * scale);
  };
}

function solve(circuit: AnalysedCircuit, { positions, rotations }: Setting, partlyTurned: readonly number[]): readonly number[] {
  const folded = nets(circuit, positions);
  return [rotations, partlyTurned].flatMap((at) => {
    const { re, im } = createSolver(circuit, folded, { positions, rotations: at }).transfersAt([100, 1000, 4000]);
    return [...re, ...im];
  });
}
