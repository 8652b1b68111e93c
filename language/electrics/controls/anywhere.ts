/** What each shaft does at the output at which it does something. */
import type { AnalysedCircuit, ShaftId } from '../../circuit/model.js';
import { finished, type Steps } from '../../steps.js';
import type { ControlEffect } from '../model.js';
import { heardAt, outputLabel, outputsOf } from '../settings/outputs.js';
import { controlEffectSteps } from './controls.js';

/** The effect of every shaft, each at the first output at which it has one. */
export function effectsAnywhere(circuit: AnalysedCircuit): readonly ControlEffect[] {
  return circuit.shafts.map(({ id }) => effectAnywhere(circuit, id));
}

/** The effect of one shaft at the usual output, or where it has none there, at the first other output at which it has one. */
export function effectAnywhere(circuit: AnalysedCircuit, shaft: ShaftId): ControlEffect {
  return finished(effectAnywhereSteps(circuit, shaft));
}

/** The same in steps of one solved rotation each. */
export function* effectAnywhereSteps(circuit: AnalysedCircuit, shaft: ShaftId): Steps<ControlEffect> {
  const usual = yield* controlEffectSteps(circuit, shaft);
  if (usual.role !== 'nothing') return usual;
  for (const { tip } of outputsOf(circuit).slice(1)) {
    const heard = heardAt(circuit, tip);
    const effect = yield* controlEffectSteps(heard, shaft);
    if (effect.role !== 'nothing') return { ...effect, says: `${effect.says} (at ${outputLabel(heard)})` };
  }
  return usual;
}
