/** What pots do otherwise: another effect, or the same with other figures where they are turned. */
import type { Steps } from '../../steps.js';
import { shaftById, shaftId, switchId, type AnalysedCircuit, type Shaft, type ShaftId } from '../../circuit/model.js';
import { factsOf } from '../../checks/index.js';
import { restingSetting, settingLabel, withRotation, type ControlEffect, type Setting } from '../../electrics/index.js';
import type { ControlChange } from '../change.js';
import { loudEnough, turnedDifference, type TurnedDifference } from './turned.js';
import { describeHeard, isSameSound, soundAt, type At } from './heard.js';
import type { Match } from '../match/match.js';
import { outputPairs, type OutputPair } from './outputs.js';

/** Rotations at which each pot is compared by itself; two that act together are compared with both half way. */
const rotations = [0, 2.5, 5, 7.5];
const halfWay = 5;
/** Beyond so many positions that differ electrically the rest is not tried: an editor waits for this. */
const mostPositions = 16;

export interface ControlChanges {
  readonly changes: readonly ControlChange[];
  /** What was not compared, a sentence each. */
  readonly notes: readonly string[];
}

/**
 * Every pot at fixed rotations, and every two that act together half way, in each position in which they act, at each output. Of each pot, and
 * of each two, the largest difference that can be heard is reported: that which goes beyond what the position itself does with all pots at rest.
 */
export function* compareControls(before: AnalysedCircuit, after: AnalysedCircuit, match: Match): Steps<ControlChanges> {
  const found: ControlChange[] = [];
  const notes = new Set<string>();
  for (const pair of outputPairs(before, after, match)) {
    if (pair.before === undefined || pair.after === undefined) continue;
    found.push(...roleChanges(pair, match));
    const groups = factsOf(pair.after).groups();
    if (groups.length > mostPositions)
      notes.add(`pots were turned in ${mostPositions} of ${groups.length} different positions only`);
    found.push(...(yield* compareTurned(pair, match)));
  }
  // The same pot may act at several outputs in the same way.
  const said = new Set<string>();
  const changes = found.filter(({ what }) => !said.has(what) && said.add(what));
  return { changes, notes: [...notes] };
}

function isActing({ role }: ControlEffect): boolean {
  return role !== 'nothing' && role !== 'unwired';
}

/** Shafts of both circuits whose effect is another one. */
function roleChanges({ before, after, place }: OutputPair, { shafts }: Match): readonly ControlChange[] {
  if (before === undefined || after === undefined) return [];
  return after.shafts.flatMap((shaft): ControlChange[] => {
    const old = shafts.from.get(shaft.id);
    if (old === undefined) return [];
    const [was, is] = [factsOf(before).effect(old), factsOf(after).effect(shaft.id)];
    const role = { before: describeRole(was), after: describeRole(is) };
    if (role.before === role.after) return [];
    const what = `${shaft.name}: ${role.before} becomes ${role.after}`;
    return [{ name: shaft.name, rotation: shaft.rest, role, what, says: placed(place, what) }];
  });
}

interface Found {
  readonly shafts: readonly Shaft[];
  readonly rotation: number;
  readonly at: At;
  readonly difference: TurnedDifference;
}

function* compareTurned({ before, after, place }: OutputPair, match: Match): Steps<readonly ControlChange[]> {
  if (before === undefined || after === undefined) return [];
  const worst = new Map<string, Found>();
  const groups = factsOf(after).groups();
  for (const { setting } of groups.slice(0, mostPositions)) {
    const earlier = mappedBack(before, setting, match);
    const [was, is] = [
      { circuit: before, setting: earlier },
      { circuit: after, setting },
    ] as const;
    yield;
    // A position that sounds otherwise is reported as such.
    if (soundAt(is).silent || !isSameSound(was, is, match)) continue;
    const acting = after.shafts.filter((shaft) => actsAlike(was, is, shaft.id, match));
    for (const shafts of [...acting.map((one) => [one]), ...couples(acting)]) {
      const alone = Math.max(0, ...shafts.map(({ id }) => worst.get(String(id))?.difference.score ?? 0));
      for (const rotation of shafts.length > 1 ? [halfWay] : rotations) {
        const difference = yield* turnedDifference(was, is, turned(was, is, shafts, rotation, match));
        const key = shafts.map(({ id }) => id).join();
        // Two together are worth a line only where they differ by clearly more than one of them does.
        if (difference.score < loudEnough || (shafts.length > 1 && difference.score < 1.5 * alone)) continue;
        if (difference.score <= (worst.get(key)?.difference.score ?? 0)) continue;
        worst.set(key, { shafts, rotation, at: is, difference });
      }
    }
  }
  const isOne = groups.length === 1;
  return [...worst.values()].map(({ shafts: [first, ...more], rotation, at, difference }): ControlChange => {
    const label = isOne ? '' : settingLabel(after, at.setting);
    const named = [first, ...more].map((shaft) => `${shaft?.name ?? ''} at ${rotation}`);
    const what = `${[...named, label].filter((text) => text !== '').join(', ')}: ${describeHeard(difference.heard).join('; ')}`;
    return {
      name: first?.name ?? '',
      rotation,
      ...(more.length === 0 ? {} : { together: more.map(({ name }) => ({ name, rotation })) }),
      ...(label === '' ? {} : { label }),
      ...difference.heard,
      what,
      says: placed(place, what),
    };
  });
}

function placed(place: string, text: string): string {
  return place === '' ? text : `${place}, ${text}`;
}

function couples<T>(all: readonly T[]): readonly (readonly [T, T])[] {
  return all.flatMap((one, index) => all.slice(index + 1).map((other) => [one, other] as const));
}

/** True where the pot does the same kind of thing in both circuits, and acts in this position of one of them. */
function actsAlike(was: At, is: At, shaft: ShaftId, { shafts }: Match): boolean {
  const old = shafts.from.get(shaft);
  if (old === undefined) return false;
  const effects = [factsOf(was.circuit).effect(old), factsOf(is.circuit).effect(shaft)] as const;
  if (!effects.some(isActing) || describeRole(effects[0]) !== describeRole(effects[1])) return false;
  return [was, is].some(({ setting }, index) =>
    effects[index]?.actsIn.some(({ positions }) => positions.join() === setting.positions.join()),
  );
}

function turned(was: At, is: At, shafts: readonly Shaft[], rotation: number, match: Match): readonly [At, At] {
  const olds = shafts.flatMap(({ id }) => match.shafts.from.get(id) ?? []);
  const setting = shafts.reduce((at, { id }) => withRotation(at, id, rotation), is.setting);
  const earlier = olds.reduce((at, id) => withRotation(at, shaftById(was.circuit, id).id, rotation), was.setting);
  return [
    { circuit: was.circuit, setting: earlier },
    { circuit: is.circuit, setting },
  ];
}

const roles: Readonly<Record<ControlEffect['role'], string>> = {
  volume: 'a volume',
  tone: 'a tone',
  'bass-cut': 'a bass cut',
  blend: 'a blend',
  spread: 'a coil blend',
  band: 'a lift and cut',
  mixed: 'a mixed effect',
  nothing: 'no effect',
  unwired: 'not wired',
};

function describeRole({ role, backwards }: ControlEffect): string {
  return `${roles[role]}${backwards ? ' that works in reverse' : ''}`;
}

/** The old circuit's setting with its switches and shafts as in a setting of the new circuit. */
function mappedBack(before: AnalysedCircuit, setting: Setting, { switches, shafts }: Match): Setting {
  const rest = factsOf(before).settings()[0] ?? restingSetting(before);
  return {
    positions: rest.positions.map((at, id) => setting.positions[switches.to.get(switchId(id)) ?? -1] ?? at),
    rotations: rest.rotations.map((at, id) => setting.rotations[shafts.to.get(shaftId(id)) ?? -1] ?? at),
  };
}
