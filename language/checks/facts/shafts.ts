/** Which controls are worth judging, and how they are called. */
import { elementById, shaftById, type Circuit, type LugId, type Shaft } from '../../circuit/model.js';
import { controlEffects, type ControlEffect } from '../../electrics/index.js';
import type { Facts } from './facts.js';

/** Effects of shafts that are wired, where the instrument can be judged at all. */
export function judgedEffects(facts: Facts): readonly ControlEffect[] {
  const { circuit } = facts;
  if (!isJudgeable(facts)) return [];
  return facts.effects().filter((effect) => effect.role !== 'unwired' && isWired(facts, shaftById(circuit, effect.shaft)));
}

/** Of these the effects of shafts that do nothing at any jack, with any plug. */
export function idleEffects(facts: Facts): readonly ControlEffect[] {
  const idle = judgedEffects(facts).filter(({ role }) => role === 'nothing');
  if (idle.length === 0) return [];
  const elsewhere = facts.signal
    .views()
    .slice(1)
    .flatMap((view) => controlEffects(view.circuit));
  const acting = new Set(elsewhere.flatMap(({ shaft, role }) => (role === 'nothing' || role === 'unwired' ? [] : [shaft])));
  return idle.filter(({ shaft }) => !acting.has(shaft));
}

/** False where nothing could be found out about any control. */
export function isJudgeable(facts: Facts): boolean {
  const { signal, unread } = facts;
  if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || signal.pickups.length === 0) return false;
  return signal.neverHeard().size < signal.pickups.length;
}

/** Lugs of a shaft's tracks that are wired; a pot soldered by one lug alone hangs loose. */
export function isWired({ circuit, joined }: Facts, shaft: Shaft): boolean {
  return trackLugs(circuit, shaft).some((lug) => joined.isWired(lug));
}

export function trackLugs(circuit: Circuit, shaft: Shaft): readonly LugId[] {
  return shaft.tracks.flatMap((id) => {
    const track = elementById(circuit, id);
    return track.kind === 'track' ? [track.a, track.wiper, track.leavesTo ?? track.b] : [];
  });
}
