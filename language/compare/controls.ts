/** What pots do otherwise: another effect, or the same with other figures where they are turned. */
import type { Steps } from '../steps.js';
import { shaftById, shaftId, switchId, type AnalysedCircuit, type Shaft } from '../circuit/model.js';
import { factsOf } from '../checks/index.js';
import { restingSetting, withRotation, type ControlEffect, type Setting } from '../electrics/index.js';
import type { ControlChange } from './change.js';
import { compareResponse, describeHeard, solveResponses } from './heard.js';
import type { Match } from './match.js';
import { outputPairs } from './outputs.js';

/** A turned pot is reported where it differs by what can be heard. */
const least = { share: 0.02, decibel: 0.5 };

/** A volume is compared half way, any other pot turned down, in the first position in which it acts in both, at the first output at which it acts in one. */
export function* compareControls(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): Steps<readonly ControlChange[]> {
  const changes: ControlChange[] = [];
  const pairs = outputPairs(before, after, match).flatMap(({ before: was, after: is, place }) =>
    was === undefined || is === undefined ? [] : [{ was, is, place }],
  );
  for (const shaft of after.shafts) {
    const old = match.shafts.from.get(shaft.id);
    const acts = ({ was, is }: (typeof pairs)[number]): boolean =>
      old !== undefined && (isActing(factsOf(was).effect(old)) || isActing(factsOf(is).effect(shaft.id)));
    const pair = pairs.find(acts) ?? pairs[0];
    if (old !== undefined && pair !== undefined) {
      const found = yield* compareShaft(pair.was, pair.is, shaftById(before, old), shaft, match);
      changes.push(...found.map((change) => (pair.place === '' ? change : { ...change, says: `${pair.place}, ${change.says}` })));
    }
    yield;
  }
  return changes;
}

function isActing({ role }: ControlEffect): boolean {
  return role !== 'nothing' && role !== 'unwired';
}

function* compareShaft(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  old: Shaft,
  now: Shaft,
  match: Match,
): Steps<readonly ControlChange[]> {
  const [was, is] = [factsOf(before).effect(old.id), factsOf(after).effect(now.id)];
  const role = { before: describeRole(was), after: describeRole(is) };
  const rotation = is.role === 'volume' ? 5 : 0;
  if (role.before !== role.after) {
    return [{ name: now.name, rotation, role, says: `${now.name}: ${role.before} becomes ${role.after}` }];
  }
  const acted = new Set(was.actsIn.map(({ positions }) => positions.join()));
  const setting = is.actsIn.find((one) => acted.has(mappedBack(before, one, match).positions.join()));
  if (setting === undefined) return [];
  const earlier = mappedBack(before, setting, match);
  const sides = [
    { circuit: before, setting: withRotation(earlier, old.id, rotation) },
    { circuit: after, setting: withRotation(setting, now.id, rotation) },
  ] as const;
  yield* solveResponses(...sides);
  const heard = compareResponse(...sides, least);
  const { levelDb, ...rest } = heard;
  // Half way down a volume is compared by its level; a coil's own peak is reported by the positions.
  const difference =
    is.role === 'volume'
      ? levelDb === undefined
        ? {}
        : { levelDb }
      : !isActing(is)
        ? {}
        : { ...rest, ...(levelDb === undefined ? {} : { levelDb }) };
  const pieces = describeHeard(difference);
  return pieces.length === 0
    ? []
    : [{ name: now.name, rotation, ...difference, says: `${now.name} at ${rotation}: ${pieces.join('; ')}` }];
}

const roles: Readonly<Record<ControlEffect['role'], string>> = {
  volume: 'a volume',
  tone: 'a tone',
  'bass-cut': 'a bass cut',
  blend: 'a blend',
  spread: 'a coil blend',
  mixed: 'a mixed effect',
  nothing: 'no effect',
  unwired: 'not wired',
};

function describeRole({ role, backwards }: ControlEffect): string {
  return `${roles[role]}${backwards ? ' that works in reverse' : ''}`;
}

/** The setting of the old circuit in which its switches and shafts stand as in one of the new. */
function mappedBack(before: AnalysedCircuit, setting: Setting, { switches, shafts }: Match): Setting {
  const rest = factsOf(before).settings()[0] ?? restingSetting(before);
  return {
    positions: rest.positions.map((at, id) => setting.positions[switches.to.get(switchId(id)) ?? -1] ?? at),
    rotations: rest.rotations.map((at, id) => setting.rotations[shafts.to.get(shaftId(id)) ?? -1] ?? at),
  };
}
