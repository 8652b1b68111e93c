/** Settings: where every switch and shaft stands, and how a setting is called. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  type Circuit,
  type ControlSetting,
  type ShaftId,
  type SwitchId,
} from '../../circuit/model.js';
import type { Setting } from '../model.js';
import { hasRelays, settledPositions } from './driven.js';

/** Switches at rest or in their first position, relays where the batteries then bring them, shafts at their rest (10 for most). The same object for the same circuit. */
export function restingSetting(circuit: AnalysedCircuit): Setting {
  return derive(circuit, hasRelays(circuit) ? settledResting : resting);
}

const settledResting = derivation(['joints', 'contacts', 'elements', 'values', 'rests'], (circuit): Setting => {
  const { positions, rotations } = derive(circuit, resting);
  return { positions: settledPositions(circuit, positions), rotations };
});

const resting = derivation(['contacts', 'rests'], ({ switches, shafts }): Setting => ({
  positions: switches.map((device) => device.rest ?? 0),
  rotations: shafts.map((shaft) => shaft.rest),
}));

/** One switch moved to a position index, and nothing else. */
export function withPosition(setting: Setting, id: SwitchId, position: number): Setting {
  return { ...setting, positions: setting.positions.map((at, other) => (other === id ? position : at)) };
}

/** One switch moved by hand to a position index, and the relays where the batteries then bring them. */
export function withSwitchMoved(circuit: AnalysedCircuit, setting: Setting, id: SwitchId, position: number): Setting {
  return withRelaysSettled(circuit, withPosition(setting, id, position), [id]);
}

/** One shaft turned, 0 to 10. */
export function withRotation(setting: Setting, id: ShaftId, rotation: number): Setting {
  return { ...setting, rotations: setting.rotations.map((at, other) => (other === id ? rotation : at)) };
}

/** `base` (the resting setting where absent) with some controls moved, and the relays where the batteries then bring them. */
export function withSettings(circuit: AnalysedCircuit, controls: readonly ControlSetting[], base?: Setting): Setting {
  let setting = base ?? restingSetting(circuit);
  for (const control of controls) {
    setting =
      control.kind === 'switch'
        ? withPosition(setting, control.switch, control.position)
        : withRotation(setting, control.shaft, control.rotation);
  }
  const named = controls.flatMap((control) => (control.kind === 'switch' ? [control.switch] : []));
  return withRelaysSettled(circuit, setting, named);
}

function withRelaysSettled(circuit: AnalysedCircuit, setting: Setting, named: readonly SwitchId[]): Setting {
  const positions = settledPositions(circuit, setting.positions, named);
  return positions === setting.positions ? setting : { ...setting, positions };
}

/** Switch name to position key, for JSON `set`; a switch that rests is named only where it is off its rest. */
export function settingKeys(circuit: Circuit, setting: Setting): Readonly<Record<string, string>> {
  const keys: Record<string, string> = {};
  for (const device of circuit.switches) {
    const position = device.positions[setting.positions[device.id] ?? -1];
    if (position !== undefined && isShown(device, setting)) keys[device.name] = position.key;
  }
  return keys;
}

/** `selector "both", mute on, volume 5`: switches that do not rest, and whatever is off its rest. A name of the user's stands in quotes. */
export function settingLabel(circuit: Circuit, setting: Setting): string {
  const words: string[] = [];
  for (const device of circuit.switches) {
    const position = device.positions[setting.positions[device.id] ?? -1];
    if (position === undefined || !isShown(device, setting)) continue;
    words.push(`${device.name} ${position.label === position.key ? position.label : `"${position.label}"`}`);
  }
  for (const shaft of circuit.shafts) {
    const rotation = setting.rotations[shaft.id] ?? shaft.rest;
    if (rotation !== shaft.rest && Number.isFinite(rotation)) words.push(`${shaft.name} ${Number(rotation.toFixed(2))}`);
  }
  return words.join(', ');
}

function isShown(device: Circuit['switches'][number], setting: Setting): boolean {
  return device.rest === undefined || device.rest !== setting.positions[device.id];
}
