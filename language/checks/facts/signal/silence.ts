/** Silent positions that nobody asked for, parted into those of one switch position and those of a combination. */
import type { Switch } from '../../../circuit/model.js';
import { withSwitchMoved, type Setting } from '../../../electrics/index.js';
import type { Facts } from '../facts.js';
import { hearingsOf, isSilentAt, type Hearing } from './hearings.js';

export interface Silence {
  /** A position of a switch at which all is silent, however the others stand, with its settings that nobody asked for. */
  readonly alone: readonly SilentPosition[];
  /** Silent settings besides. */
  readonly combined: readonly Setting[];
}

export interface SilentPosition {
  readonly device: Switch;
  readonly position: number;
  readonly settings: readonly Setting[];
  /** The output that is silent, where another one goes on that the switch has nothing to do with. */
  readonly output?: string;
}

/**
 * Nothing where a fault silences the whole or parts of it, or where a pickup is never heard: its positions are silent for that reason. A position is silent
 * by itself at any output, but not where silence is asked for at the usual one; a combination, only where no output sounds.
 */
export function silenceOf(facts: Facts): Silence {
  const { signal, unread } = facts;
  if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || signal.neverHeard().size > 0)
    return { alone: [], combined: [] };
  const hearings = hearingsOf(facts);
  const alone: SilentPosition[] = [];
  let combined: readonly Setting[] = [];
  for (const [index, hearing] of hearings.entries()) {
    const others = hearings.filter((other) => other !== hearing);
    const silence = silenceAt(hearing.facts, hearing.label, others);
    const isKnown = ({ device, position }: SilentPosition): boolean =>
      alone.some((other) => other.device.id === device.id && other.position === position);
    alone.push(...silence.alone.filter((one) => !isKnown(one) && (index === 0 || !isAsked(facts, one))));
    if (index === 0) combined = silence.combined;
  }
  return { alone, combined };
}

/** True where silence is asked for in all settings of a position. */
function isAsked({ settings, intended }: Facts, { device, position }: SilentPosition): boolean {
  const here = settings().filter((setting) => setting.positions[device.id] === position);
  return here.length > 0 && here.every((setting) => intended.asksSilence(setting));
}

/** The same at one output. */
function silenceAt(facts: Facts, label: string, others: readonly Hearing[]): Silence {
  const { circuit, signal, intended } = facts;
  const silent = facts
    .groups()
    .filter((group) => signal.sound(group.setting).silent && !signal.soundsWhenTurned(group.setting))
    .flatMap((group) => group.settings);
  if (silent.length === 0 || silent.length === facts.settings().length) return { alone: [], combined: [] };
  const all = new Set(silent);
  const unasked = new Set(silent.filter((setting) => !intended.asksSilence(setting)));
  const explained = new Set<Setting>();
  const soundsAt = (hearing: Hearing, here: readonly Setting[]): boolean => here.some((setting) => !isSilentAt(hearing, setting));
  const alone: SilentPosition[] = [];
  for (const device of circuit.switches.filter(({ rest }) => rest === undefined)) {
    device.positions.forEach((_, position) => {
      const here = facts.settings().filter((setting) => setting.positions[device.id] === position);
      if (here.length === 0 || !here.every((setting) => all.has(setting))) return;
      const sounding = others.filter((hearing) => soundsAt(hearing, here));
      // It sends the signal to another jack.
      if (sounding.some((hearing) => actsAt(hearing, device, here))) return;
      here.forEach((setting) => explained.add(setting));
      const settings = here.filter((setting) => unasked.has(setting));
      if (settings.length === 0) return;
      alone.push({ device, position, settings, ...(sounding.length === 0 ? {} : { output: label }) });
    });
  }
  const isSilent = (setting: Setting): boolean => !others.some((hearing) => soundsAt(hearing, [setting]));
  return { alone, combined: [...unasked].filter((setting) => !explained.has(setting) && isSilent(setting)) };
}

/** True where a switch changes what sounds at an output. */
function actsAt({ facts: { circuit, signal }, at }: Hearing, device: Switch, settings: readonly Setting[]): boolean {
  return settings.some((setting) => {
    const { text, silent } = signal.sound(at(setting));
    return device.positions.some((_, index) => {
      const moved = signal.sound(at(withSwitchMoved(circuit, setting, device.id, index)));
      return moved.silent !== silent || moved.text !== text;
    });
  });
}
