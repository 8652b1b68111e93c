/** Which windings share a magnetic field. */
import { type AnalysedCircuit, derive, derivation, type Coil, type Inductor } from '../../circuit/model.js';
import { leastLinkage } from '../../coil/index.js';

/** A coil of a pickup, or a winding of a transformer. */
type Wound = Coil | Inductor;

/** Two coils of one pickup, or two windings of one transformer, that share a field. */
export interface Pair {
  readonly first: Wound;
  readonly second: Wound;
  /**
   * Mutual inductance between currents from start to finish, as a share of √(L1 L2). A positive coupling aids in the usual series connection, the
   * one in which the strings' voltages add: there both currents run with their coil's sign, so the factor is the coupling times both signs. Two
   * coils side by side over opposite poles, wound alike, have a negative one (Neumann's integral: each lies in the other's returning flux), two windings
   * of one core a positive one.
   */
  readonly factor: number;
}

/** Windings of one part that both say they are coupled, in pairs. */
export function coupledPairs(circuit: AnalysedCircuit): readonly Pair[] {
  return derive(circuit, pairs);
}

/**
 * The flux of a coil with the same current in the other coil of its field, in series and in phase, as a multiple of its flux by itself: (L1 + k √(L1 L2)) / L1.
 * 1 for a coil by itself.
 */
export function linkageOf(circuit: AnalysedCircuit, { id, coupling = 0, inductance }: Coil): number {
  const pair =
    coupling === 0 ? undefined : coupledPairs(circuit).find(({ first, second }) => first.id === id || second.id === id);
  if (pair === undefined || !(inductance.value > 0)) return 1;
  const other = pair.first.id === id ? pair.second : pair.first;
  return Math.max(
    1 + (pair.first.coupling ?? 0) * Math.sqrt(Math.max(other.inductance.value, 0) / inductance.value),
    leastLinkage,
  );
}

const pairs = derivation(['elements', 'values'], ({ elements }): readonly Pair[] => {
  const found: Pair[] = [];
  const waiting = new Map<number, Wound>();
  for (const coil of elements) {
    if ((coil.kind !== 'coil' && coil.kind !== 'inductor') || (coil.coupling ?? 0) === 0) continue;
    const first = waiting.get(coil.part);
    if (first === undefined) waiting.set(coil.part, coil);
    else {
      waiting.delete(coil.part);
      const signs = signOf(first) * signOf(coil);
      found.push({ first, second: coil, factor: (first.coupling ?? 0) * signs });
    }
  }
  return found;
});

function signOf(wound: Wound): number {
  return wound.kind === 'coil' ? wound.winding * wound.magnet : 1;
}
