/** Positions in which something is heard or measured otherwise, and positions that are new or gone. */
import type { Steps } from '../../steps.js';
import { switchById, type AnalysedCircuit } from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import { factsOf } from '../../checks/index.js';
import { settingLabel, type Setting, type Sound } from '../../electrics/index.js';
import type { Heard, PositionChange } from '../change.js';
import { compareHeard, describeHeard, solveBoth, soundAt, type At } from './heard.js';
import type { Match } from '../match/match.js';
import { outputPairs, type OutputPair } from './outputs.js';

/** Rows of both position tables, output by output. */
export function* comparePositions(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
): Steps<readonly PositionChange[]> {
  const changes: PositionChange[] = [];
  for (const pair of outputPairs(before, after, match)) {
    const { output, place } = pair;
    for (const row of yield* compareAt(pair, match)) {
      const label = [place, row.label].filter((text) => text !== '').join(', ');
      changes.push({ ...row, output, label, says: `${label || 'default'}: ${row.what}` });
    }
  }
  return changes;
}

/** A row of one output, without its output. */
type Row = Omit<PositionChange, 'output' | 'says'>;

/**
 * Paired by the positions of the switches that are one; a switch that only one circuit has pairs each
 * of its positions with the row in which it was not there.
 */
function* compareAt({ before, after }: OutputPair, match: Match): Steps<readonly Row[]> {
  if (before === undefined || after === undefined) {
    return [...allOf('new', after), ...allOf('gone', before)];
  }
  const shared = before.switches.filter(({ id, rest }) => {
    const now = match.switches.to.get(id);
    return now !== undefined && rest === undefined && switchById(after, now).rest === undefined;
  });
  const olds = groupBy(factsOf(before).settings(), ({ positions }) => shared.map(({ id }) => positions[id]).join());
  const news = groupBy(factsOf(after).settings(), ({ positions }) =>
    shared.map(({ id }) => positions[match.switches.to.get(id) ?? -1]).join(),
  );
  const heardOf = keptBySound(before, after, match);
  const changes: Row[] = [];
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

function changed(before: At, after: At, match: Match, heard: Heard): readonly Row[] {
  const pieces = describeHeard(heard);
  if (pieces.length === 0) return [];
  return [{ kind: 'changed', label: labelOf(before, after, match), ...heard, what: pieces.join('; ') }];
}

/** The new circuit's label; a switch that was removed is named with its earlier position. */
function labelOf({ circuit: before, setting: old }: At, { circuit: after, setting: now }: At, { switches }: Match): string {
  const isGone = before.switches.map(({ id }) => !switches.to.has(id));
  if (!isGone.includes(true)) return settingLabel(after, now);
  const positions = old.positions.map((at, id) => (isGone[id] === true ? at : (before.switches[id]?.rest ?? -1)));
  const earlier = settingLabel(before, { positions, rotations: old.rotations });
  return [settingLabel(after, now), earlier === '' ? '' : `${earlier} before`].filter((text) => text !== '').join(', ');
}

function allOf(kind: 'new' | 'gone', circuit: AnalysedCircuit | undefined): readonly Row[] {
  if (circuit === undefined) return [];
  return factsOf(circuit)
    .settings()
    .map((setting) => alone(kind, circuit, setting));
}

function alone(kind: 'new' | 'gone', circuit: AnalysedCircuit, setting: Setting): Row {
  const { text } = soundAt({ circuit, setting });
  const what = kind === 'new' ? `new, sounds ${text}` : `gone, sounded ${text}`;
  return { kind, label: settingLabel(circuit, setting), what };
}
