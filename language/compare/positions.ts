/** Positions in which something is heard or measured otherwise, and positions that are new or gone. */
import type { Steps } from '../steps.js';
import { switchById, type AnalysedCircuit } from '../circuit/model.js';
import { groupBy } from '../collections.js';
import { factsOf } from '../checks/index.js';
import { settingLabel, type Setting, type Sound } from '../electrics/index.js';
import type { Heard, PositionChange } from './change.js';
import { compareHeard, describeHeard, solveBoth, soundAt, type At } from './heard.js';
import type { Match } from './match.js';

/**
 * Rows of both position tables, paired by the positions of the switches that are one; a switch that stands in one circuit alone pairs each
 * of its positions with the row in which it was not there.
 */
export function* comparePositions(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
): Steps<readonly PositionChange[]> {
  const shared = before.switches.filter(({ id, rest }) => {
    const now = match.switches.to.get(id);
    return now !== undefined && rest === undefined && switchById(after, now).rest === undefined;
  });
  const olds = groupBy(factsOf(before).settings(), ({ positions }) => shared.map(({ id }) => positions[id]).join());
  const news = groupBy(factsOf(after).settings(), ({ positions }) =>
    shared.map(({ id }) => positions[match.switches.to.get(id) ?? -1]).join(),
  );
  const heardOf = keptBySound(before, after, match);
  const changes: PositionChange[] = [];
  for (const [key, settings] of news) {
    for (const setting of settings) {
      yield;
      const partners = olds.get(key);
      if (partners === undefined) changes.push(alone('new', after, setting));
      for (const old of partners ?? []) {
        const [was, is] = [
          { circuit: before, setting: old },
          { circuit: after, setting },
        ] as const;
        yield* solveBoth(was, is);
        changes.push(...changed(was, is, match, heardOf(old, setting)));
      }
    }
  }
  for (const [key, settings] of olds) {
    if (!news.has(key)) changes.push(...settings.map((setting) => alone('gone', before, setting)));
  }
  return changes;
}

/** Settings that fold alike give the very same sound, so that a pair of sounds is held against each other once however many settings have it. */
function keptBySound(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): (old: Setting, now: Setting) => Heard {
  const kept = new Map<Sound, Map<Sound, Heard>>();
  return (old, now) => {
    const [was, is] = [
      { circuit: before, setting: old },
      { circuit: after, setting: now },
    ];
    const [soundWas, soundIs] = [soundAt(was), soundAt(is)];
    const known = kept.get(soundWas) ?? new Map<Sound, Heard>();
    kept.set(soundWas, known);
    const heard = known.get(soundIs) ?? compareHeard(was, is, match);
    known.set(soundIs, heard);
    return heard;
  };
}

function changed(before: At, after: At, match: Match, heard: Heard): readonly PositionChange[] {
  const pieces = describeHeard(heard);
  if (pieces.length === 0) return [];
  const what = pieces.join('; ');
  const label = labelOf(before, after, match);
  return [{ kind: 'changed', label, ...heard, what, says: `${label || 'default'}: ${what}` }];
}

/** The new circuit's label; a switch that was removed is named with its earlier position. */
function labelOf({ circuit: before, setting: old }: At, { circuit: after, setting: now }: At, { switches }: Match): string {
  const isGone = before.switches.map(({ id }) => !switches.to.has(id));
  if (!isGone.includes(true)) return settingLabel(after, now);
  const positions = old.positions.map((at, id) => (isGone[id] === true ? at : (before.switches[id]?.rest ?? -1)));
  const earlier = settingLabel(before, { positions, rotations: old.rotations });
  return [settingLabel(after, now), earlier === '' ? '' : `${earlier} before`].filter((text) => text !== '').join(', ');
}

function alone(kind: 'new' | 'gone', circuit: AnalysedCircuit, setting: Setting): PositionChange {
  const label = settingLabel(circuit, setting);
  const { text } = soundAt({ circuit, setting });
  const what = kind === 'new' ? `new, sounds ${text}` : `gone, sounded ${text}`;
  return { kind, label, what, says: `${label || 'default'}: ${what}` };
}
