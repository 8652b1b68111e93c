/** Which coils share a magnetic field. */
import { type AnalysedCircuit, derive, derivation, type Coil } from '../../circuit/model.js';

/** Two coils of one pickup that share a field. */
export interface Pair {
  readonly first: Coil;
  readonly second: Coil;
  /**
   * Mutual inductance between currents from start to finish, as a share of √(L1 L2). A positive coupling aids in the usual series connection, the
   * one in which the strings' voltages add: there both currents run with their coil's sign, so the factor is the coupling times both signs. Two
   * coils side by side over opposite poles, wound alike, have a negative one (Neumann's integral: each lies in the other's returning flux), two windings
   * of one core a positive one.
   */
  readonly factor: number;
}

/** Coils of one pickup that both say they are coupled, in pairs. */
export function coupledPairs(circuit: AnalysedCircuit): readonly Pair[] {
  return derive(circuit, pairs);
}

const pairs = derivation(['elements', 'values'], ({ elements }): readonly Pair[] => {
  const found: Pair[] = [];
  const waiting = new Map<number, Coil>();
  for (const coil of elements) {
    if (coil.kind !== 'coil' || (coil.coupling ?? 0) === 0) continue;
    const first = waiting.get(coil.part);
    if (first === undefined) waiting.set(coil.part, coil);
    else {
      waiting.delete(coil.part);
      const signs = first.winding * first.magnet * coil.winding * coil.magnet;
      found.push({ first, second: coil, factor: (first.coupling ?? 0) * signs });
    }
  }
  return found;
});
