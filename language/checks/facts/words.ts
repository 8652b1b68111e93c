/** Words that messages share: lists, counts, and where in the instrument's own text a thing stands. */
import {
  type Circuit,
  type Coil,
  elementById,
  lugById,
  type LugId,
  type Part,
  partById,
  type PartId,
  type Switch,
} from '../../circuit/model.js';
import { type Setting, settingLabel } from '../../electrics/index.js';
import type { SourceRange } from '../../source.js';

/** `a`, `a and b`, `a, b and c`; beyond `most` the rest is counted. */
export function listed(words: readonly string[], joiner: 'and' | 'or' = 'and', most = 5): string {
  const shown = words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  if (shown.length <= 1) return shown[0] ?? '';
  return `${shown.slice(0, -1).join(', ')} ${joiner} ${shown[shown.length - 1]!}`;
}

/** The part that the instrument's own statement declares: an assembly for what stands inside it. */
export function ownPart(circuit: Circuit, id: PartId): Part {
  let part = partById(circuit, id);
  while (part.parent !== undefined) part = partById(circuit, part.parent);
  return part;
}

/** Where a finding about a part stands: its name in its statement. */
export function placeOfPart(circuit: Circuit, id: PartId): SourceRange {
  return ownPart(circuit, id).nameRange;
}

/** Where a finding about a lug stands: where a wire names it first, else its part's name. */
export function placeOfLug(circuit: Circuit, id: LugId): SourceRange {
  const lug = lugById(circuit, id);
  const part = partById(circuit, lug.part);
  return (part.parent === undefined ? lug.uses[0] : undefined) ?? placeOfPart(circuit, lug.part);
}

export function label(circuit: Circuit, id: LugId): string {
  return lugById(circuit, id).label;
}

export function labels(circuit: Circuit, ids: readonly LugId[]): readonly string[] {
  return ids.map((id) => label(circuit, id));
}

/** For a finding without a thing of its own: the title, else the first part, else the file's first character. */
export function placeOfInstrument(circuit: Circuit): SourceRange {
  const start = { line: 0, character: 0 };
  return circuit.titleRange ?? circuit.parts[0]?.nameRange ?? { uri: circuit.uri, start, end: start };
}

/** `neck`, or `neck.north` where the pickup has more than one coil. */
export function coilName(circuit: Circuit, coil: Coil): string {
  const part = partById(circuit, coil.part);
  const coils = part.elements.filter((id) => elementById(circuit, id).kind === 'coil');
  return coils.length > 1 ? `${part.name}.${coil.name}` : part.name;
}

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
