/** Which pickups are heard in which position, planned before anything is wired: every family of selecting switch that suits so many pickups. */
import type { Draft } from './draft.js';

/** Pickups by their order, heard together in one position. */
export type Group = readonly number[];

export type Plan =
  /** Throws of one pole, each with one pickup; a lever with in-between positions joins neighbours. */
  | { readonly way: 'one pole'; readonly type: string; readonly groups: readonly Group[]; readonly stop?: number }
  /** A pole for each pickup, joined at every throw at which it is heard. */
  | { readonly way: 'pole each'; readonly type: string; readonly groups: readonly Group[]; readonly stop?: number }
  /** A switch of one's own, that joins in each position exactly what should be heard. */
  | { readonly way: 'own'; readonly groups: readonly Group[] }
  | { readonly way: 'toggle'; readonly type: 'toggle-3' | 'toggle-3-open'; readonly groups: readonly Group[] }
  /** A two-pole toggle that goes on-on-on as a selector. */
  | { readonly way: 'on-on-on'; readonly groups: readonly Group[] }
  | { readonly way: 'either'; readonly groups: readonly Group[] }
  /** One, both side by side, the other, both in series. */
  | { readonly way: 'four ways'; readonly groups: readonly Group[] }
  | { readonly way: 'series or parallel'; readonly groups: readonly Group[] }
  | { readonly way: 'on each'; readonly groups: readonly Group[] }
  /** A toggle for the outer two, a switch for the one in the middle. */
  | { readonly way: 'toggle and one'; readonly groups: readonly Group[] }
  | { readonly way: 'blend'; readonly groups: readonly Group[] }
  | { readonly way: 'always'; readonly groups: readonly Group[] };

const neighbours: readonly Group[] = [[0], [0, 1], [1]];
const fiveOfThree: readonly Group[] = [[0], [0, 1], [1], [1, 2], [2]];

export function planSelection(draft: Draft, count: number): Plan {
  const { dice } = draft;
  if (count === 1) return { way: 'always', groups: [[0]] };
  const plans = count === 2 ? forTwo(draft) : count === 3 ? forThree(draft) : forFour(draft);
  return dice.pick(plans)();
}

type Choice = () => Plan;

function forTwo(draft: Draft): readonly Choice[] {
  return [
    () => ({ way: 'pole each', type: 'lever-3', groups: neighbours }),
    () => ({ way: 'pole each', type: 'lever-3', groups: neighbours }),
    () => ({ way: 'toggle', type: 'toggle-3', groups: neighbours }),
    () => ({ way: 'toggle', type: 'toggle-3', groups: neighbours }),
    () => ({ way: 'toggle', type: 'toggle-3-open', groups: neighbours }),
    () => ({ way: 'four ways', groups: [[0], [0, 1], [1], [0, 1]] }),
    () => ({ way: 'pole each', type: 'rotary-2x6', stop: 3, groups: neighbours }),
    () => ({ way: 'on-on-on', groups: neighbours }),
    () => ({ way: 'either', groups: [[0], [1]] }),
    () => ({ way: 'series or parallel', groups: [[0, 1]] }),
    () => ({ way: 'on each', groups: allOf(2) }),
    () => ({ way: 'blend', groups: [[0, 1]] }),
    () => ({ way: 'always', groups: [[0, 1]] }),
    () => ({ way: 'own', groups: draft.dice.shuffled(neighbours) }),
  ];
}

function forThree(draft: Draft): readonly Choice[] {
  return [
    () => ({ way: 'one pole', type: 'lever-5', groups: fiveOfThree }),
    () => ({ way: 'one pole', type: 'lever-5', groups: fiveOfThree }),
    () => ({ way: 'one pole', type: 'lever-3', groups: allOf(3) }),
    () => ({ way: 'one pole', type: 'rotary-1x12', stop: 3, groups: allOf(3) }),
    () => ({ way: 'pole each', type: 'lever-5x4', groups: drawnGroups(draft, 3, 5) }),
    () => ({ way: 'pole each', type: 'rotary-3x4', groups: drawnGroups(draft, 3, 4) }),
    () => ({ way: 'pole each', type: 'rotary-4x3', groups: drawnGroups(draft, 3, 3) }),
    () => ({ way: 'on each', groups: allOf(3) }),
    () => ({ way: 'toggle and one', groups: neighbours }),
    () => ({ way: 'own', groups: drawnGroups(draft, 3, draft.dice.whole(4, 6)) }),
  ];
}

function forFour(draft: Draft): readonly Choice[] {
  return [
    () => ({ way: 'one pole', type: 'lever-4', groups: allOf(4) }),
    () => ({ way: 'one pole', type: 'rotary-1x12', stop: 4, groups: allOf(4) }),
    () => ({ way: 'pole each', type: 'lever-5x4', groups: drawnGroups(draft, 4, 5) }),
    () => ({ way: 'pole each', type: 'rotary-4x3', groups: drawnGroups(draft, 4, 3) }),
    () => ({ way: 'on each', groups: allOf(4) }),
    () => ({ way: 'own', groups: drawnGroups(draft, 4, draft.dice.whole(5, 6)) }),
  ];
}

function allOf(count: number): readonly Group[] {
  return Array.from({ length: count }, (_, index) => [index]);
}

/** So many different groups that have each pickup in one of them and leave it out of another. */
function drawnGroups({ dice }: Draft, count: number, positions: number): readonly Group[] {
  const every = Array.from({ length: 2 ** count - 1 }, (_, bits) =>
    Array.from({ length: count }, (_, index) => index).filter((index) => ((bits + 1) >> index) & 1),
  ).filter((group) => group.length < Math.max(3, count));
  for (;;) {
    const groups = dice.shuffled(every).slice(0, positions);
    const pickups = allOf(count).flat();
    const isUsed = pickups.every(
      (index) => groups.some((group) => group.includes(index)) && groups.some((group) => !group.includes(index)),
    );
    if (isUsed) return groups;
  }
}

/** What the plan means for one pickup. */
export interface Place {
  /** Some position has it sound beside another. */
  readonly isCombined: boolean;
  /** The switch moves its ground lead, so nothing else may be joined between its leads and ground. */
  readonly isMoved: boolean;
}

export function placeIn(plan: Plan, index: number): Place {
  return {
    isCombined:
      plan.way === 'on each' ||
      plan.way === 'toggle and one' ||
      plan.groups.some((group) => group.length > 1 && group.includes(index)),
    isMoved: (plan.way === 'four ways' && index === 1) || (plan.way === 'series or parallel' && index === 0),
  };
}
