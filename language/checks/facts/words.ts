/** Words that messages share: names, settings, and where in the instrument's own text a thing stands. */
import {
  type Circuit,
  type Element,
  elementById,
  type Joint,
  lugById,
  lugLabel,
  type LugId,
  type Part,
  partById,
  type PartId,
  type Switch,
} from '../../circuit/model.js';
import type { ControlAt } from '../../claim.js';
import type { Setting } from '../../electrics/index.js';
import type { SourceRange, Statement } from '../../source.js';
import { abridged, capitalised } from '../../words.js';

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

/** Where a finding about a joint stands: its run, but for one in a type of another file the part that has it inside. */
export function placeOfJoint(circuit: Circuit, { holder, range }: Joint): SourceRange {
  return holder === undefined || range.uri === circuit.uri ? range : placeOfPart(circuit, holder);
}

export function lugLabels(circuit: Circuit, ids: readonly LugId[]): readonly string[] {
  return ids.map((id) => lugLabel(circuit, id));
}

/** For a finding without a thing of its own: the title, else the first part, else the file's first character. */
export function placeOfInstrument(circuit: Circuit): SourceRange {
  const start = { line: 0, character: 0 };
  return circuit.titleRange ?? circuit.parts[0]?.nameRange ?? { uri: circuit.uri, start, end: start };
}

/** `neck`, or `neck.north` where the pickup has more than one coil. */
export function coilName(circuit: Circuit, coil: Element): string {
  const part = partById(circuit, coil.part);
  const coils = part.elements.filter((id) => elementById(circuit, id).kind === 'coil');
  return coils.length > 1 ? `${part.name}.${coil.name}` : part.name;
}

/**
 * Where something is so, as data: nothing where nothing can be set, every position, positions that combine freely, or the first few settings. Where
 * `all` is not every combination of the switches only settings are listed: the first two would speak of what was not tried.
 */
export function settingsOf(
  circuit: Circuit,
  all: readonly Setting[],
  some: readonly Setting[],
  most = 3,
): Pick<Statement, 'settings' | 'moreSettings'> {
  if (all.length <= 1) return {};
  const switches = circuit.switches.filter(({ rest }) => rest === undefined);
  if (all.length < switches.reduce((product, { positions }) => product * Math.max(1, positions.length), 1))
    return listed(circuit, some, most);
  if (some.length >= all.length) return { settings: [[]] };
  const free = switches.map((device) => ({ device, at: new Set(some.flatMap(({ positions }) => positions[device.id] ?? [])) }));
  const isAt = ({ positions }: Setting, { device, at }: (typeof free)[number]): boolean => at.has(positions[device.id] ?? -1);
  const covered = all.filter((setting) => free.every((one) => isAt(setting, one)));
  if (covered.length === some.length) {
    const narrow = free.filter((one) => all.some((setting) => !isAt(setting, one)));
    return { settings: [narrow.map(({ device, at }) => controlAt(device, [...at]))] };
  }
  return listed(circuit, some, most);
}

function listed(circuit: Circuit, some: readonly Setting[], most: number): Pick<Statement, 'settings' | 'moreSettings'> {
  const more = some.length - most;
  return {
    settings: some.slice(0, most).map((setting) => controlsIn(circuit, setting)),
    ...(more > 0 ? { moreSettings: more } : {}),
  };
}

/** `in every position`, `at selector "both"`, `at phase 2, selector 2 or 3`, or the first few settings; empty where nothing can be set. */
export function describeSettings({ settings = [], moreSettings = 0 }: Pick<Statement, 'settings' | 'moreSettings'>): string {
  if (settings.length === 0) return '';
  if (settings.some((controls) => controls.length === 0)) return 'in every position';
  const words = settings.map((controls) => controls.map(describeControl).join(', '));
  if (moreSettings > 0) words.push(`${moreSettings} more position${moreSettings > 1 ? 's' : ''}`);
  const last = words.pop() ?? '';
  return `at ${words.length > 0 ? `${words.join('; ')} and ${last}` : last}`;
}

/** `settingsOf` in words. */
export function whereSaid(circuit: Circuit, all: readonly Setting[], some: readonly Setting[], most?: number): string {
  return describeSettings(settingsOf(circuit, all, some, most));
}

/** A switch at some of its positions, given by index. */
export function controlAt(device: Switch, indices: readonly number[]): ControlAt {
  const at = [...indices]
    .sort((a, b) => a - b)
    .flatMap((index) => device.positions[index] ?? [])
    .map(({ key, label }) => ({ position: key, ...(label === key ? {} : { name: label }) }));
  return { control: device.name, at };
}

/** Where a setting puts each control: switches that do not rest, and whatever is off its rest. */
export function controlsIn(circuit: Circuit, { positions, rotations }: Setting): readonly ControlAt[] {
  const switches = circuit.switches.flatMap((device) => {
    const index = positions[device.id] ?? -1;
    return device.positions[index] === undefined || device.rest === index ? [] : [controlAt(device, [index])];
  });
  return [...switches, ...potsIn(circuit, rotations)];
}

/** The pots that are off their rest. */
export function potsIn({ shafts }: Circuit, rotations: readonly number[]): readonly ControlAt[] {
  return shafts.flatMap(({ id, name, rest }) => {
    const rotation = rotations[id] ?? rest;
    const isTurned = rotation !== rest && Number.isFinite(rotation);
    return isTurned ? [{ control: name, at: [{ position: String(Number(rotation.toFixed(2))) }] }] : [];
  });
}

/** `selector "both"`, `selector 2 or 3`. */
export function describeControl({ control, at }: ControlAt): string {
  return `${control} ${abridged(at.map(positionText), 'or')}`;
}

/** A position as written: its name in quotes, else its number. */
export function positionText({ position, name }: ControlAt['at'][number]): string {
  return name === undefined ? position : `"${name}"`;
}

/** The words as the beginning of a sentence, the rest behind a comma; the rest alone where there are none. */
export function leading(words: string, rest: string): string {
  return words === '' ? capitalised(rest) : `${capitalised(words)}, ${rest}`;
}
