/** What is heard and measured in a setting of each circuit, held against each other. */
import type { Steps } from '../../steps.js';
import {
  lugById,
  shaftById,
  switchById,
  type AnalysedCircuit,
  type Arrangement,
  type Circuit,
  type LugId,
} from '../../circuit/model.js';
import { factsOf, limitText } from '../../checks/index.js';
import {
  arrangementText,
  heardAt,
  restingSetting,
  sameArrangement,
  type ResponseSummary,
  type Setting,
  type Sound,
} from '../../electrics/index.js';
import { becomes, isSameAmount, isSameLevel, levelBecomes, signed } from '../amounts.js';
import type { Figures, Heard, Limits } from '../change.js';
import { matchCircuits, type Match } from '../match/match.js';

/** A setting of one circuit. */
export interface At {
  readonly circuit: AnalysedCircuit;
  readonly setting: Setting;
}

/** How much must differ before it is reported: a share of ohm and hertz, decibels. */
export interface Least {
  readonly share?: number;
  readonly decibel?: number;
}

/** What differs; nothing in it where all is the same. */
export function compareHeard(before: At, after: At, match: Match, least: Least = {}): Heard {
  const [old, now] = [soundAt(before), soundAt(after)];
  const isHeard = !old.silent && !now.silent;
  const reads = { before: readAt(before), after: readAt(after) };
  const response = isHeard ? compareResponse(before, after, least) : {};
  return {
    ...(sameSound(before.circuit, after.circuit, old, now, match) ? {} : { sounds: { before: old.text, after: now.text } }),
    ...(isHeard && old.hum !== now.hum ? { hum: { before: old.hum, after: now.hum } } : {}),
    ...(isSameAmount(reads, least.share) ? limitsDiffer(before, after) : { reads }),
    ...response,
  };
}

/** The limits of a reading, where one of them moves by a share that a meter's third digit shows. */
function limitsDiffer(before: At, after: At): Heard {
  const [was, is] = [limitsAt(before), limitsAt(after)];
  if (was === undefined || is === undefined) return {};
  const isSame = (['low', 'high'] as const).every((end) => isSameAmount({ before: was[end], after: is[end] }, leastLimit));
  return isSame ? {} : { limits: { before: was, after: is } };
}

const leastLimit = 0.005;

function limitsAt({ circuit, setting }: At): Limits | undefined {
  const { low, high } = factsOf(circuit).signal.reading(setting);
  return low === null || high === null ? undefined : { low, high };
}

/** Peak, corner and level alone. */
export function compareResponse(before: At, after: At, least: Least = {}): Heard {
  const [old, now] = [responseAt(before), responseAt(after)];
  const peakHz = { before: old.peak?.hz ?? null, after: now.peak?.hz ?? null };
  const peakDb = { before: old.peak?.db ?? null, after: now.peak?.db ?? null };
  const cutoffHz = { before: old.cutoffHz, after: now.cutoffHz };
  const levelDb = { before: old.levelDb, after: now.levelDb };
  const hasPeak = peakHz.before !== null && peakHz.after !== null;
  return {
    ...(isSameAmount(peakHz, least.share) ? {} : { peakHz }),
    ...(!hasPeak || isSameLevel(peakDb, least.decibel) ? {} : { peakDb }),
    ...(hasPeak || isSameAmount(cutoffHz, least.share) ? {} : { cutoffHz }),
    ...(isSameLevel(levelDb, least.decibel) ? {} : { levelDb }),
  };
}

/** The sentence's pieces, in the order in which a table has its columns. */
export function describeHeard({ sounds, hum, reads, limits, peakHz, peakDb, cutoffHz, levelDb }: Heard): readonly string[] {
  const figures = (name: string, value: Figures | undefined, say: (value: Figures) => string): string[] =>
    value === undefined ? [] : [`${name} ${say(value)}`];
  return [
    ...(sounds === undefined ? [] : [`sounds ${sounds.before} becomes ${sounds.after}`]),
    ...(hum === undefined ? [] : [`hum ${hum.before} becomes ${hum.after}`]),
    ...figures('reads', reads, (value) => becomes(value, 'ohm', 'open')),
    ...(limits === undefined ? [] : [`may read ${limitsText(limits.after)}, before ${limitsText(limits.before)}`]),
    ...figures('peak', peakHz, (value) => `${becomes(value, 'hertz', 'none')}${onlyHeight(peakDb)}`),
    ...(onlyHeight(peakDb) === '' ? figures('peak height', peakDb, levelBecomes) : []),
    ...figures('-3 dB at', cutoffHz, (value) => becomes(value, 'hertz', 'none')),
    ...figures('level', levelDb, levelBecomes),
  ];
}

function limitsText({ low, high }: Limits): string {
  return `${limitText(low)} to ${limitText(high)}`;
}

/** `(+0.5 dB high)` of a peak that is in one of them alone. */
function onlyHeight({ before, after }: Figures = { before: 0, after: 0 }): string {
  const height = before === null ? after : after === null ? before : null;
  return height === null ? '' : ` (${signed(height)} dB high)`;
}

/** Solves what `compareHeard` asks of both, so that a host can do something else in between; what is solved is kept. */
export function* solveBoth(before: At, after: At): Steps<void> {
  const isSilent: boolean[] = [];
  for (const at of [before, after]) {
    isSilent.push(soundAt(at).silent);
    yield;
    readAt(at);
    yield;
  }
  if (!isSilent.includes(true)) yield* solveResponses(before, after);
}

/** The same for `compareResponse`. */
export function* solveResponses(before: At, after: At): Steps<void> {
  responseAt(before);
  yield;
  responseAt(after);
  yield;
}

export function soundAt({ circuit, setting }: At): Sound {
  return factsOf(circuit).signal.sound(setting);
}

export function readAt({ circuit, setting }: At): number | null {
  const { ohm } = factsOf(circuit).signal.reading(setting);
  // What no meter would tell from nought is nought.
  return ohm !== null && ohm < 0.05 ? 0 : ohm;
}

export function responseAt({ circuit, setting }: At): ResponseSummary {
  return factsOf(circuit).signal.response(setting);
}

/** True where both are silent, or the same coils sound in the same way. */
export function isSameSound(before: At, after: At, match: Match): boolean {
  return sameSound(before.circuit, after.circuit, soundAt(before), soundAt(after), match);
}

function sameSound(before: Circuit, after: AnalysedCircuit, old: Sound, now: Sound, match: Match): boolean {
  if (old.silent || now.silent || old.arrangement === undefined || now.arrangement === undefined)
    return old.silent === now.silent;
  const mapped = mapArrangement(before, old.arrangement, match);
  if (mapped === undefined) return false;
  // Mostly nothing has changed at all, and there may be thousands of positions.
  if (JSON.stringify(mapped) === JSON.stringify(now.arrangement)) return true;
  if (!sameArrangement(after, mapped, now.arrangement)) return false;
  // Order is free, so texts of equal arrangements may differ; shares are part of what is heard.
  return sharesOf(mapped, after) === sharesOf(now.arrangement, after);
}

/** The arrangement with the ids of the new circuit; absent where something in it is gone. */
export function mapArrangement(before: Circuit, arrangement: Arrangement, match: Match): Arrangement | undefined {
  if (arrangement.kind === 'pickup') {
    const part = match.parts.to.get(arrangement.part);
    return part === undefined ? undefined : { ...arrangement, part };
  }
  if (arrangement.kind === 'coil') {
    const coil = match.elements.to.get(arrangement.coil);
    return coil === undefined ? undefined : { ...arrangement, coil };
  }
  const members = arrangement.members.map((member) => mapArrangement(before, member, match));
  return members.includes(undefined) ? undefined : { ...arrangement, members: members as Arrangement[] };
}

function sharesOf(arrangement: Arrangement, circuit: AnalysedCircuit): string {
  const leaves = (one: Arrangement): string[] =>
    one.kind === 'pickup' || one.kind === 'coil'
      ? one.share === undefined
        ? []
        : [arrangementText(circuit, { ...one, reversed: false })]
      : one.members.flatMap(leaves);
  return leaves(arrangement).sort().join();
}

/** A setting of a circuit, at one of its outputs; the usual one where `tip` is absent. */
export interface HeardSetting {
  readonly circuit: AnalysedCircuit;
  readonly setting: Setting;
  readonly tip?: LugId;
}

/** `before` is the same setting of the earlier circuit; `missing` names what that circuit has not, so that there is no such setting. */
export type SettingChange =
  { readonly before: HeardSetting; readonly heard: Heard; readonly says: readonly string[] } | { readonly missing: string };

/** Parts, switches and positions are matched as in a comparison of the whole, so that other names make no difference. */
export function compareSetting(before: AnalysedCircuit, after: HeardSetting): SettingChange {
  const match = matchCircuits(before, after.circuit);
  const [rest, restNow] = [restingSetting(before), restingSetting(after.circuit)];
  const [positions, rotations] = [[...rest.positions], [...rest.rotations]];
  for (const { id, name, positions: all } of after.circuit.switches) {
    const position = after.setting.positions[id] ?? -1;
    const old = match.switches.from.get(id);
    if (old === undefined && position !== restNow.positions[id]) return { missing: name };
    if (old === undefined) continue;
    if (switchById(before, old).positions[position] === undefined) return { missing: `${name} "${all[position]?.label ?? ''}"` };
    positions[old] = position;
  }
  for (const { id } of after.circuit.shafts) {
    const rotation = after.setting.rotations[id];
    const old = match.shafts.from.get(id);
    if (old === undefined && rotation !== restNow.rotations[id]) return { missing: shaftById(after.circuit, id).name };
    if (old !== undefined && rotation !== undefined) rotations[old] = rotation;
  }
  const tip = after.tip === undefined ? undefined : match.lugs.from.get(after.tip);
  if (after.tip !== undefined && tip === undefined) return { missing: lugById(after.circuit, after.tip).label };
  const setting = { positions, rotations };
  const heard = compareHeard(
    { circuit: heardAt(before, tip), setting },
    { circuit: heardAt(after.circuit, after.tip), setting: after.setting },
    match,
  );
  return { before: { circuit: before, setting, ...(tip === undefined ? {} : { tip }) }, heard, says: describeHeard(heard) };
}
