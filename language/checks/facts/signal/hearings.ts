/** What is heard at each output, for rules that speak of silence: what one jack does not give, another may. */
import { lugById, partOfElement } from '../../../circuit/model.js';
import { heardAt, outputsOf, withPosition, type Setting } from '../../../electrics/index.js';
import type { Facts } from '../facts.js';
import { factsOf } from '../index.js';

export interface Hearing {
  /** The circuit with this contact of a jack as its output, and what is known of it. */
  readonly facts: Facts;
  /** `output.tip`. */
  readonly label: string;
  /** A setting of the circuit while a plug is in that jack. */
  at(setting: Setting): Setting;
}

/** One for each output, the usual one first, with the facts that are given. */
export function hearingsOf(facts: Facts): readonly Hearing[] {
  const { circuit } = facts;
  const outputs = outputsOf(circuit).map(({ tip }) => ({ tip, heard: heardAt(circuit, tip) }));
  return outputs.map(({ tip, heard }) => {
    // Which plug is in is another matter at each output, at the usual one too.
    const plugs = heard.switches.flatMap(({ id, rest }) =>
      rest === undefined || outputs.every((other) => other.heard.switches[id]?.rest === rest) ? [] : [{ id, rest }],
    );
    return {
      facts: heard === circuit ? facts : factsOf(heard),
      label: lugById(circuit, tip).label,
      at: (setting) => plugs.reduce((plugged, { id, rest }) => withPosition(plugged, id, rest), setting),
    };
  });
}

/** Silent, also while one pot is turned. */
export function isSilentAt({ facts: { signal }, at }: Hearing, setting: Setting): boolean {
  return signal.sound(at(setting)).silent && !signal.soundsWhenTurned(at(setting));
}

/** The names of the pickups that are heard in a setting. */
export function pickupsHeardAt({ facts: { circuit, signal }, at }: Hearing, setting: Setting): ReadonlySet<string> {
  return new Set(signal.sound(at(setting)).heard.map(({ coil }) => partOfElement(circuit, coil).name));
}
