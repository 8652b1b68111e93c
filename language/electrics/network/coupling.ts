/** Which coils share a magnetic field. */
import type { Circuit, Coil } from '../../circuit/model.js';

/** Two coils of one pickup, and the factor of their coupling (−1 to 1). */
export interface Pair {
  readonly first: Coil;
  readonly second: Coil;
  readonly factor: number;
}

const kept = new WeakMap<Circuit, readonly Pair[]>();

/** Coils of one pickup that both say they are coupled, in pairs. */
export function coupledPairs(circuit: Circuit): readonly Pair[] {
  const known = kept.get(circuit);
  if (known !== undefined) return known;
  const pairs: Pair[] = [];
  const coupled = circuit.elements.filter((element): element is Coil => element.kind === 'coil' && (element.coupling ?? 0) !== 0);
  const seen = new Set<number>();
  for (const first of coupled) {
    if (seen.has(first.id)) continue;
    const second = coupled.find((other) => other.part === first.part && other.id > first.id && !seen.has(other.id));
    if (second === undefined) continue;
    seen.add(first.id).add(second.id);
    pairs.push({ first, second, factor: Math.min(Math.max(first.coupling ?? 0, -1), 1) });
  }
  kept.set(circuit, pairs);
  return pairs;
}
