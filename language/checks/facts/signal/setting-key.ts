/** Short keys of settings: one for all settings that fold alike and have the pots at the same rotations. */
import type { Setting } from '../../../electrics/index.js';
import { getOrCreate } from '../../../collections.js';
import { lazy } from '../../../lazy.js';
import type { Group } from '../group.js';

/** Settings of one group fold alike however the pots stand, so one of them is solved for all. */
export function createSettingKey(groups: () => readonly Group[]): (setting: Setting) => string {
  const positionsOf = createNumbers();
  const rotationsOf = createNumbers();
  const alike = lazy(
    () =>
      new Map(
        groups().flatMap((group, index) => group.settings.map(({ positions }) => [positionsOf(positions), index] as const)),
      ),
  );
  return ({ positions, rotations }) => {
    const group = alike().get(positionsOf(positions));
    // A group's number must not be taken for that of positions.
    return `${group === undefined ? `at ${positionsOf(positions)}` : group}|${rotationsOf(rotations)}`;
  };
}

/** A number for each list of numbers, the same for lists with the same content; the content of one list is read once. */
function createNumbers(): (list: readonly number[]) => number {
  const byList = new WeakMap<readonly number[], number>();
  const byContent = new Map<string, number>();
  return (list) => {
    const known = byList.get(list);
    if (known !== undefined) return known;
    const found = getOrCreate(byContent, list.join(), () => byContent.size);
    byList.set(list, found);
    return found;
  };
}
