/** What a pot takes from each pickup by lying across it. */
import type { Circuit, PartId, ShaftId, Track } from '../../circuit/model.js';
import type { ResponseSummary, Setting } from '../model.js';
import { responseSummary } from '../response.js';
import { withRotation } from '../settings.js';
import { withElement, withValue } from './variant.js';
import { whereHeard } from './where-heard.js';

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
export function potLoad(circuit: Circuit, shaft: ShaftId): readonly PotLoad[] {
  const { tracks } = circuit.shafts[shaft]!;
  let open = circuit;
  for (const id of tracks)
    open = withElement(open, id, (track) => ({ ...(track as Track), resistance: withValue((track as Track).resistance, 1e12) }));
  const pickups = circuit.parts.filter((part) => part.elements.some((id) => circuit.elements[id]?.kind === 'coil'));
  return pickups.flatMap((part): readonly PotLoad[] => {
    const heard = whereHeard(circuit, part.id);
    if (heard === undefined) return [];
    const setting = withRotation(heard, shaft, 10);
    const withPot = responseSummary(circuit, setting);
    const withoutPot = responseSummary(open, setting);
    return [{ pickup: part.id, setting, withPot, withoutPot, takes: (withoutPot.peak?.db ?? 0) - (withPot.peak?.db ?? 0) }];
  });
}
