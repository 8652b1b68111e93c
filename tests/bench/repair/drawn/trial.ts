/** One slip in a drawn circuit under each intent: found or not, and whether the fixes bring the circuit back. */
import type { AnalysedCircuit } from '../../../../language/circuit/model.js';
import { faultsOf, repairs } from '../../../../language/intent/index.js';
import { createRandom } from '../../../harness/random.js';
import { behaviourOf, likeness } from '../behaviour.js';
import { processorTime, wiresOf } from '../case.js';
import { apply } from '../files.js';
import { alarmOf, circuitOf, textWith, type Drawn, type Intent } from './circuits.js';
import { slipKinds, slipsOf, type Slip, type SlipKind } from './slips.js';

export interface Trial {
  readonly seed: number;
  readonly families: readonly string[];
  readonly parts: number;
  readonly kind: SlipKind;
  readonly says: string;
  readonly intent: Intent;
  /** The rules that report something that they don't report of the correct circuit; none where the slip is missed. */
  readonly rules: readonly string[];
  /** The first three fixes, in order. */
  readonly fixes: readonly { readonly title: string; readonly restores: boolean }[];
  /** Processor time of the list of fixes, in milliseconds; nothing where nothing was found. */
  readonly ms?: number;
}

/** How many slips of a kind are tried to find one that can be observed. */
const mostTried = 12;

/** Up to `count` slips that a player, the meter or the metal can tell, of different kinds as long as there are any. */
export function tellingSlips(drawn: Drawn, count: number): readonly (readonly [SlipKind, Slip])[] {
  const random = createRandom('slips', drawn.practice.seed);
  const left = slipsOf(drawn.circuit);
  const kinds = slipKinds
    .map((kind) => ({ kind, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ kind }) => kind);
  const observed: (readonly [SlipKind, Slip])[] = [];
  for (let round = 0; round * kinds.length < count; round++)
    for (const kind of kinds) {
      if (observed.length === count) return observed;
      const slip = oneTelling(drawn, [...(left.get(kind) ?? [])], random);
      if (slip !== undefined) observed.push([kind, slip]);
    }
  return observed;
}

/** Looks at some of the slips, each taken out of the list. */
function oneTelling(drawn: Drawn, left: Slip[], random: () => number): Slip | undefined {
  for (let tried = 0; tried < mostTried && left.length > 0; tried++) {
    const [slip] = left.splice(Math.floor(random() * left.length), 1) as [Slip];
    if (isTelling(drawn, slip)) return slip;
  }
  return undefined;
}

function isTelling({ practice, behaviour }: Drawn, { edits }: Slip): boolean {
  const circuit = circuitOf(apply(practice.text, edits));
  const isRead = !circuit.problems.some(({ severity }) => severity === 'error');
  return isRead && likeness(behaviour, behaviourOf(circuit)) === 'different';
}

export function trySlip(drawn: Drawn, kind: SlipKind, { says, edits }: Slip, intent: Intent): Trial {
  const { seed, families, parts, text } = drawn.practice;
  const spoilt = apply(textWith(text, drawn.lines[intent]), edits);
  const circuit = circuitOf(spoilt);
  const faults = faultsOf(circuit).filter((fault) => !drawn.alarms[intent].has(alarmOf(fault)));
  const common = { seed, families, parts, kind, says, intent, rules: [...new Set(faults.map(({ rule }) => rule))] };
  if (faults.length === 0) return { ...common, fixes: [] };
  const began = processorTime();
  const found = repairs(circuit);
  const ms = processorTime() - began;
  const fixes = found.slice(0, 3).map((repair) => ({
    title: repair.title,
    restores: isRestored(drawn, circuitOf(apply(spoilt, repair.edits))),
  }));
  return { ...common, fixes, ms };
}

/** True where nothing tells the repaired circuit from the original. */
function isRestored({ behaviour, wires, judged }: Drawn, repaired: AnalysedCircuit): boolean {
  const key = wiresOf(repaired);
  const known = key === wires ? true : judged.get(key);
  const restores = known ?? likeness(behaviour, behaviourOf(repaired)) !== 'different';
  judged.set(key, restores);
  return restores;
}
