/** Makes the tracks of a pot and the shafts that turn them. */
import type { Builder, Instance } from './builder.js';
import { shaftId, type LugId, type ShaftId, type Taper, type Track } from '../model.js';
import type { ElementEnds, ElementReader } from './element-reader.js';
import { valueOf, wordOf } from './part-properties.js';
import { shaftNames } from '../types/shaft-names.js';
import { taperPoints } from '../types/taper-points.js';

/** Share of an audio track at mid rotation where nothing is said (see the library of pots). */
const AUDIO_MID = 0.15;

export function makeTrack(builder: Builder, reader: ElementReader, base: ElementEnds): Track {
  const { definition, instance } = reader;
  const left = wordOf(reader.properties.turn) === 'left';
  const shaft = shaftOf(builder, reader, reader.word('shaft'), { left, rest: 10 });
  builder.shafts[shaft]?.tracks.push(base.id);
  const [empty, full] = travel(reader);
  const leaves = reader.word('leaves');
  const leavesTo = leaves === undefined ? undefined : builder.lug(instance, leaves);
  const mid = reader.value('mid', 'percent');
  const taper = reader.word('taper');
  const points = taperPoints(taper);
  return {
    ...base,
    // The lug to which the wiper leaves is no end of the track any more: the track ends inside.
    b: leavesTo === base.b ? innerEnd(builder, instance, definition.b) : base.b,
    kind: 'track',
    wiper: builder.lug(instance, definition.wiper ?? definition.a),
    resistance: reader.positive('resistance', 'ohm', 250e3),
    taper: points === undefined ? ((taper ?? 'linear') as Taper) : 'measured',
    ...(points === undefined ? {} : { points }),
    mid: mid === undefined ? AUDIO_MID : mid.value / 100,
    shaft,
    // Turned left the wiper goes the track the other way: at 10 it stands at lug 1.
    empty: left ? 10 - empty : empty,
    full: left ? 10 - full : full,
    end: reader.value('end', 'ohm')?.value ?? 0,
    ...(leavesTo === undefined ? {} : { leavesTo }),
  };
}

/** Rotations at the two ends of the track, 0 and 10 where nothing is said or what is said can't be. */
function travel(reader: ElementReader): readonly [number, number] {
  const empty = reader.value('empty', 'count')?.value ?? 0;
  const full = reader.value('full', 'count')?.value ?? 10;
  if (empty >= 0 && empty <= 10 && full >= 0 && full <= 10 && empty !== full) return [empty, full];
  reader.problems.add('value', reader.definition.range, 'empty and full must be two different rotations from 0 to 10');
  return [0, 10];
}

function innerEnd(builder: Builder, instance: Instance, lug: string): LugId {
  let name = `${lug}-end`;
  while (instance.lugs.has(name)) name += '-end';
  return builder.innerLug(instance, name);
}

/** The shaft of that name on the part, made when the first of what it turns is. A single shaft bears the part's name. */
export function shaftOf(
  builder: Builder,
  { instance, properties }: ElementReader,
  name: string | undefined,
  { left, rest }: { readonly left: boolean; readonly rest: number },
): ShaftId {
  const key = name ?? '';
  const before = instance.shafts.get(key);
  if (before !== undefined) return before;
  const id = shaftId(builder.shafts.length);
  const several = new Set((instance.type?.elements ?? []).flatMap(shaftNames));
  builder.shafts.push({
    id,
    part: instance.part.id,
    name: several.size > 1 && name !== undefined ? `${instance.part.name}.${name}` : instance.part.name,
    rest: valueOf(properties.rest) ?? rest,
    turn: left ? 'left' : 'right',
    tracks: [],
  });
  instance.shafts.set(key, id);
  return id;
}
