/** What each changed wire does by itself: the new circuit held against itself with that one change undone. */
import type { Steps } from '../../steps.js';
import { altered, type AnalysedCircuit, type Circuit, type Joint, type LugId } from '../../circuit/model.js';
import type { Change, WireChange } from '../change.js';
import { electricalSteps } from './electrical.js';
import { matchCircuits } from '../match/match.js';
import { comparePositions } from './positions.js';

/** Beyond so many changed wires none is tried by itself: an editor waits for this. */
const most = 24;

/** For each of the change's wires, in its order, what it changes in each position; nothing for one that changes nothing that is heard or measured. In steps of one solved setting each. */
export function* wireEffectSteps(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  change: Change,
): Steps<readonly (readonly string[])[]> {
  if (!change.electrical || change.wires.length > most) return change.wires.map(() => []);
  const { lugs } = matchCircuits(before, after);
  const effects: (readonly string[])[] = [];
  for (const wire of change.wires) {
    yield;
    effects.push(yield* effectOf(before, after, wire, (lug) => lugs.to.get(lug)));
  }
  return effects;
}

/** The lug of the new circuit that one of the old became, if any. */
type As = (lug: LugId) => LugId | undefined;

function* effectOf(before: AnalysedCircuit, after: AnalysedCircuit, wire: WireChange, as: As): Steps<readonly string[]> {
  const joints = undone(before, after, wire, as);
  if (joints === undefined) return [];
  const without = altered(after, { joints: joints.map((joint, id) => ({ ...joint, id })) });
  const match = matchCircuits(without, after);
  yield;
  if ((yield* electricalSteps(without, after, match)).same) return [];
  return (yield* comparePositions(without, after, match)).map(({ says }) => says);
}

/** The new circuit's joints without this change; absent where it has no lug to go back to, or changes looks alone. */
function undone(before: Circuit, after: Circuit, { kind, ids }: WireChange, as: As): readonly Joint[] | undefined {
  if (kind === 'changed') return undefined;
  if (kind === 'new') return after.joints.filter(({ id }) => id !== ids.after);
  const old = before.joints.find(({ id }) => id === ids.before);
  if (old === undefined) return undefined;
  const [a, b] = [as(old.a), as(old.b)];
  if (a === undefined || b === undefined) return undefined;
  if (kind === 'moved') return after.joints.map((joint) => (joint.id === ids.after ? { ...joint, a, b } : joint));
  // The screen of a wire that is gone stands in no list any more.
  const bare = Object.fromEntries(Object.entries(old).filter(([key]) => key !== 'screen')) as unknown as Joint;
  return [...after.joints, { ...bare, a, b }];
}
