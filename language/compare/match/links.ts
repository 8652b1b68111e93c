/** Which joint and which part of one circuit is which of the other, for drawings that stand side by side. */
import type { AnalysedCircuit, PartId } from '../../circuit/model.js';
import { matchCircuits } from './match.js';
import { pairWires } from './pair-wires.js';

export interface Links {
  /** Ids before and after. */
  readonly parts: readonly (readonly [PartId, PartId])[];
  readonly joints: readonly (readonly [number, number])[];
}

export function linksBetween(before: AnalysedCircuit, after: AnalysedCircuit): Links {
  const match = matchCircuits(before, after);
  const { same, moved } = pairWires(before, after, match);
  return {
    parts: [...match.parts.to].sort(([a], [b]) => a - b),
    joints: [
      ...same.map(([old, now]) => [old.id, now.id] as const),
      ...moved.map((pair) => [pair.before.id, pair.after.id] as const),
    ],
  };
}
