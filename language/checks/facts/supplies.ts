/** Amplifier stages and what feeds them. */
import type { Circuit, Gain } from '../../circuit/model.js';
import { isAlive, type Nets } from '../../electrics/index.js';
import type { Group } from './group.js';

export interface Stage {
  readonly stage: Gain;
  /** Groups of settings in which a battery stands the right way round, and those in which it is turned. */
  readonly fed: readonly Group[];
  readonly turned: readonly Group[];
}

export function stagesOf(circuit: Circuit, groups: readonly Group[]): readonly Stage[] {
  const stages = circuit.elements.filter((element): element is Gain => element.kind === 'gain');
  return stages.map((stage) => ({
    stage,
    fed: groups.filter(({ folded }) => isAlive(circuit, folded, stage)),
    turned: groups.filter(({ folded }) => isTurned(circuit, folded, stage)),
  }));
}

function isTurned(circuit: Circuit, folded: Nets, stage: Gain): boolean {
  return isAlive(circuit, folded, { ...stage, plus: stage.minus, minus: stage.plus });
}
