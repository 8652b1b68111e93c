/** Whether two settings are the same signal at every output, with the pots at rest and part way. */
import type { AnalysedCircuit } from '../../../circuit/model.js';
import { itemAt } from '../../../collections.js';
import { createSolver, nets, type Setting } from '../../../electrics/index.js';
import type { Facts } from '../facts.js';

/** True where every coil delivers the same in both. */
export type Comparison = (one: Setting, other: Setting) => boolean;

/** Compares what each coil delivers, at three frequencies. */
export function createComparison(facts: Facts): Comparison {
  const { signal, circuit } = facts;
  const partlyTurned = circuit.shafts.map(() => 4);
  const numbers = new Map(
    facts
      .groups()
      .flatMap((group, index) => group.settings.map((setting) => [setting.positions.join(), `group ${index}`] as const)),
  );
  const keyOf = ({ positions }: Setting): string => numbers.get(positions.join()) ?? positions.join();
  const kept = new Map<string, readonly number[]>();
  const measure = (setting: Setting, key: string): readonly number[] => {
    const known = kept.get(key) ?? signal.views().flatMap((view) => solve(view.circuit, view.at(setting), partlyTurned));
    kept.set(key, known);
    return known;
  };
  return (one, other) => {
    const [a, b] = [keyOf(one), keyOf(other)];
    if (a === b) return true;
    const [x, y] = [measure(one, a), measure(other, b)];
    const scale = Math.max(1e-6, ...x.map(Math.abs), ...y.map(Math.abs));
    return x.every((value, i) => Math.abs(value - itemAt(y, i)) <= 1e-7 * scale);
  };
}

function solve(circuit: AnalysedCircuit, { positions, rotations }: Setting, partlyTurned: readonly number[]): readonly number[] {
  const folded = nets(circuit, positions);
  return [rotations, partlyTurned].flatMap((at) => {
    const { re, im } = createSolver(circuit, folded, { positions, rotations: at }).transfersAt([100, 1000, 4000]);
    return [...re, ...im];
  });
}
