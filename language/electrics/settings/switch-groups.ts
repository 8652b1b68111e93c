/** Which switches belong together when there are too many to turn through all at once. */
import type { AnalysedCircuit, LugId, Switch } from '../../circuit/model.js';
import { createForest, join, rootOf } from '../../numerics/index.js';
import { jointClasses, netOf } from '../network/nets.js';

/**
 * Groups of switches to be turned through together, `limit` combinations in all. Switches belong together where they
 * touch a common net through joints, contacts in any position, or elements; ground does not count, since everything meets there.
 * A group that is still too large is cut in order of declaration, and each switch left over is turned by itself.
 */
export function partitionSwitches(
  circuit: AnalysedCircuit,
  turned: readonly Switch[],
  limit: number,
): readonly (readonly Switch[])[] {
  const classes = jointClasses(circuit);
  const ground = circuit.output === undefined ? -1 : netOf(classes, circuit.output.sleeve);
  const parent = createForest(classes.count);
  const tie = (lugs: readonly (LugId | undefined)[]): void => {
    const all = lugs.flatMap((lug) => (lug === undefined ? [] : [netOf(classes, lug)]));
    const [first, ...others] = all.filter((joined) => joined !== ground);
    if (first !== undefined) for (const other of others) join(parent, first, other);
  };
  for (const element of circuit.elements) {
    // At once, for one end of a track on ground must not part its wiper from the other.
    tie(element.kind === 'track' ? [element.a, element.b, element.wiper, element.leavesTo] : [element.a, element.b]);
  }
  for (const device of circuit.switches) {
    // A resting switch joins only what it joins at rest.
    const positions = device.rest === undefined ? device.positions : device.positions.slice(device.rest, device.rest + 1);
    for (const position of positions) position.joins.forEach(tie);
  }
  let groups: { readonly members: readonly Switch[]; readonly sets: ReadonlySet<number> }[] = [];
  for (const device of turned) {
    const sets = new Set<number>();
    for (const position of device.positions) {
      for (const lug of position.joins.flat()) if (classes.of[lug] !== ground) sets.add(rootOf(parent, netOf(classes, lug)));
    }
    // One switch may bridge several groups found so far; they become one.
    const meets = groups.filter((group) => [...sets].some((set) => group.sets.has(set)));
    groups = groups.filter((group) => !meets.includes(group));
    groups.push({
      members: [...meets.flatMap(({ members }) => members), device],
      sets: new Set([...meets.flatMap((group) => [...group.sets]), ...sets]),
    });
  }
  return allotCombinations(
    groups.map(({ members }) => members),
    limit,
    turned,
  );
}

/** Hands out the limit to the groups, the smallest first, after each single position of each switch has been given its own. */
function allotCombinations(
  groups: readonly (readonly Switch[])[],
  limit: number,
  turned: readonly Switch[],
): readonly (readonly Switch[])[] {
  let left = limit - turned.reduce((sum, device) => sum + device.positions.length - 1, 0);
  const size = (group: readonly Switch[]): number => group.reduce((product, device) => product * device.positions.length, 1);
  const ordered = groups.map((group) => [...group].sort((a, b) => a.id - b.id)).sort((a, b) => size(a) - size(b));
  return ordered.flatMap((group) => {
    const together: Switch[] = [];
    const alone: (readonly Switch[])[] = [];
    for (const device of group) {
      if (size(together) * device.positions.length <= left) together.push(device);
      else alone.push([device]);
    }
    if (together.length === 0) return alone;
    left -= size(together);
    return [together, ...alone];
  });
}
