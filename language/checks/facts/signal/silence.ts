/** Silent positions that nobody asked for, parted into those of one switch position and those of a combination. */
import type { Switch } from '../../../circuit/model.js';
import type { Setting } from '../../../electrics/index.js';
import type { Facts } from '../facts.js';

export interface Silence {
  /** A position of a switch at which all is silent, however the others stand, with its settings that nobody asked for. */
  readonly alone: readonly { readonly device: Switch; readonly position: number; readonly settings: readonly Setting[] }[];
  /** Silent settings besides. */
  readonly combined: readonly Setting[];
}

/**
 * Nothing where a fault silences the whole or parts of it, or where a pickup is never heard: its positions are silent for that reason.
 */
export function silenceOf(facts: Facts): Silence {
  const { circuit, signal, intended, unread } = facts;
  if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || signal.neverHeard().size > 0)
    return { alone: [], combined: [] };
  const silent = facts
    .groups()
    .filter((group) => signal.sound(group.setting).silent && !signal.soundsWhenTurned(group.setting))
    .flatMap((group) => group.settings);
  if (silent.length === 0 || silent.length === facts.settings().length) return { alone: [], combined: [] };
  const all = new Set(silent);
  const unasked = new Set(silent.filter((setting) => !intended.asksSilence(setting)));
  const explained = new Set<Setting>();
  const alone: { device: Switch; position: number; settings: readonly Setting[] }[] = [];
  for (const device of circuit.switches.filter(({ rest }) => rest === undefined)) {
    device.positions.forEach((_, position) => {
      const here = facts.settings().filter((setting) => setting.positions[device.id] === position);
      if (here.length === 0 || !here.every((setting) => all.has(setting))) return;
      here.forEach((setting) => explained.add(setting));
      const settings = here.filter((setting) => unasked.has(setting));
      if (settings.length > 0) alone.push({ device, position, settings });
    });
  }
  return { alone, combined: [...unasked].filter((setting) => !explained.has(setting)) };
}
