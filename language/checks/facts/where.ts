/** In which positions something is so, in few words. */
import type { Circuit, Switch } from '../../circuit/model.js';
import { settingLabel, type Setting } from '../../electrics/index.js';
import { listed } from './words.js';

/** `in every position`, `at selector "both"`, `at phase 2, selector 2 or 3`, or the first few settings by name; empty where nothing can be set. */
export function whereSaid(circuit: Circuit, all: readonly Setting[], some: readonly Setting[], most = 3): string {
  if (all.length <= 1) return '';
  if (some.length >= all.length) return 'in every position';
  const free = circuit.switches.filter((device) => device.rest === undefined);
  const stands = free.map((device) => new Set(some.map((setting) => setting.positions[device.id]!)));
  const covered = all.filter((setting) => free.every((device, i) => stands[i]!.has(setting.positions[device.id]!)));
  if (covered.length === some.length) {
    const narrow = free.filter((device, i) => all.some((setting) => !stands[i]!.has(setting.positions[device.id]!)));
    const words = narrow.map((device) => positionsSaid(device, [...stands[free.indexOf(device)]!]));
    return `at ${words.join(', ')}`;
  }
  const words = some.slice(0, most).map((setting) => settingLabel(circuit, setting));
  if (some.length > most) words.push(`${some.length - most} more position${some.length - most > 1 ? 's' : ''}`);
  return `at ${words.length > 1 ? `${words.slice(0, -1).join('; ')} and ${words[words.length - 1]!}` : words[0]!}`;
}

/** `selector "both"`, `selector 2 or 3`. */
export function positionsSaid(device: Switch, indices: readonly number[]): string {
  const names = [...indices]
    .sort((a, b) => a - b)
    .map((index) => device.positions[index]!)
    .map((position) => (position.label === position.key ? position.label : `"${position.label}"`));
  return `${device.name} ${listed(names, 'or')}`;
}
