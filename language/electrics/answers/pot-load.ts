/** What a pot takes from each pickup by lying across it. */
import { shaftById, type AnalysedCircuit, type PartId, type ShaftId, type Track } from '../../circuit/model.js';
import type { ResponseSummary, Setting } from '../model.js';
import { responseSummarySteps } from '../response.js';
import { withRotation } from '../settings/settings.js';
import { withElement, withValue } from './variant.js';
import { describeSound } from '../sound/sound.js';
import { finished, type Steps } from '../../steps.js';
import { whereHeardSteps, type SoundIn } from './where-heard.js';

export interface PotLoad {
  readonly pickup: PartId;
  /** The setting looked at: the first in which the pickup sounds alone, else in which it sounds, the pot at 10. */
  readonly setting: Setting;
  readonly withPot: ResponseSummary;
  /** The same with tracks of no end of resistance. */
  readonly withoutPot: ResponseSummary;
  /** How much lower the peak stands with the pot, in dB over the bass; a pickup whose peak is gone has lost all of it. 0 where there is none either way. */
  readonly takes: number;
}

/** The load of a shaft's tracks on each pickup that is ever heard, at 10, by solving with the tracks and without. */
export function potLoad(circuit: AnalysedCircuit, shaft: ShaftId): readonly PotLoad[] {
  return finished(potLoadSteps(circuit, shaft, describeSound));
}

/** The same in steps of one solved setting each. */
export function* potLoadSteps(circuit: AnalysedCircuit, shaft: ShaftId, soundIn: SoundIn): Steps<readonly PotLoad[]> {
  const { tracks } = shaftById(circuit, shaft);
  let open = circuit;
  for (const id of tracks)
    open = withElement(open, id, (track) => ({ ...(track as Track), resistance: withValue((track as Track).resistance, 1e12) }));
  const pickups = circuit.parts.filter((part) => part.elements.some((id) => circuit.elements[id]?.kind === 'coil'));
  const loads: PotLoad[] = [];
  for (const { id } of pickups) {
    const heard = yield* whereHeardSteps(circuit, id, soundIn);
    if (heard === undefined) continue;
    const setting = withRotation(heard, shaft, 10);
    const withPot = yield* responseSummarySteps(circuit, setting);
    yield;
    const withoutPot = yield* responseSummarySteps(open, setting);
    yield;
    loads.push({ pickup: id, setting, withPot, withoutPot, takes: (withoutPot.peak?.db ?? 0) - (withPot.peak?.db ?? 0) });
  }
  return loads;
}
