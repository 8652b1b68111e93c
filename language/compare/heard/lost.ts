/** Pickups and coils that were heard somewhere and are heard nowhere now. */
import type { AnalysedCircuit, Coil, ElementId } from '../../circuit/model.js';
import { elementById, partById } from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import { factsOf } from '../../checks/index.js';
import { heardAt, outputsOf } from '../../electrics/index.js';
import type { Steps } from '../../steps.js';
import type { Match } from '../match/match.js';

/** Their names as they were: a pickup none of whose coils is left, or a coil (`neck.south`) of one that is still heard. In steps of one solved setting each. */
export function* lostSteps(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): Steps<readonly string[]> {
  const [old, now] = [yield* heardCoils(before), yield* heardCoils(after)];
  const isLost = (coil: ElementId): boolean => {
    const partner = match.elements.to.get(coil);
    return partner === undefined ? !isReplaced(before, after, coil, now, match) : !now.has(partner);
  };
  const byPickup = groupBy(
    [...old].sort((a, b) => a - b),
    (coil) => elementById(before, coil).part,
  );
  return [...byPickup].flatMap(([part, coils]) => {
    const lost = coils.filter(isLost);
    const { name } = partById(before, part);
    // A coil that was never heard before may be heard now.
    const isHeard = [...now].some((coil) => elementById(after, coil).part === match.parts.to.get(part));
    return lost.length > 0 && !isHeard ? [name] : lost.map((coil) => `${name}.${(elementById(before, coil) as Coil).name}`);
  });
}

/** True for a coil of a pickup whose type has other coils now, where one of those is heard. */
function isReplaced(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  coil: ElementId,
  heard: ReadonlySet<ElementId>,
  { parts }: Match,
): boolean {
  const now = parts.to.get(elementById(before, coil).part);
  return now !== undefined && [...heard].some((other) => elementById(after, other).part === now);
}

function* heardCoils(circuit: AnalysedCircuit): Steps<ReadonlySet<ElementId>> {
  const coils = new Set<ElementId>();
  for (const { tip } of outputsOf(circuit)) {
    const { signal, groups } = factsOf(heardAt(circuit, tip));
    for (const { setting } of groups()) {
      yield;
      const sound = signal.sound(setting);
      if (!sound.silent) for (const { coil } of sound.heard) coils.add(coil);
    }
  }
  return coils;
}
