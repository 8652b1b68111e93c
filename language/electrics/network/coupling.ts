/** Which coils share a magnetic field. */
import { type AnalysedCircuit, derive, derivation, type Coil } from '../../circuit/model.js';

/** Two coils of one pickup, and the factor of their coupling (−1 to 1). */
export interface Pair {
  readonly first: Coil;
  readonly second: Coil;
  readonly factor: number;
}

/** Coils of one pickup that both say they are coupled, in pairs. */
export function coupledPairs(circuit: AnalysedCircuit): readonly Pair[] {
  return derive(circuit, pairs);
}

const pairs = derivation(['elements', 'values'], ({ elements }): readonly Pair[] => {
  const found: Pair[] = [];
  const coupled = elements.filter((element): element is Coil => element.kind === 'coil' && (element.coupling ?? 0) !== 0);
  const seen = new Set<number>();
  for (const first of coupled) {
    if (seen.has(first.id)) continue;
    const second = coupled.find((other) => other.part === first.part && other.id > first.id && !seen.has(other.id));
    if (second === undefined) continue;
    seen.add(first.id).add(second.id);
    found.push({ first, second, factor: Math.min(Math.max(first.coupling ?? 0, -1), 1) });
  }
  return found;
});
