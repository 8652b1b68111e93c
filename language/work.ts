/** Work that a search may do, counted in steps whose cost is known: the same on every machine, however busy it is. */

/**
 * What each elementary step costs, in units. One unit is the folding of one lug into its class, 10 to 19 nanoseconds when busy on the machine that the limits in
 * DEVELOPERS.md were measured on; the others are measured against it. The largest single step is a candidate's marks: some milliseconds in a
 * circuit of 1,000 parts.
 */
const prices = {
  /** A lug or a joint folded into its class. */
  fold: 1,
  /** A class or a contact looked at, to tell two foldings apart. */
  key: 2,
  /** A pair of unknowns compared while the order of elimination is chosen. */
  plan: 4,
  /** Two places looked at as the ends of a change. */
  pair: 40,
  /** A change that is kept to be tried, and put in order among the others. */
  change: 400,
  /** A finding put among others, or looked for there by one of its subjects. */
  match: 60,
  /** An element whose level is read and judged at one rotation. */
  level: 13,
  /** A branch of a small network that is put together and solved at one frequency. */
  listen: 14,
  /** A lug, a joint or an element that a rule looks at. */
  rule: 60,
  /** A branch or a net put into a network. */
  branch: 75,
  /** An entry of the equations eliminated at one frequency. */
  entry: 110,
  /** A lug, a joint or an element looked at for odd uses. */
  mark: 140,
  /** A node or a branch written into the equations and read from their solution. */
  equation: 150,
} as const;

export type Step = keyof typeof prices;

export interface Work {
  /** Units that may be spent. */
  readonly limit: number;
  /** Units spent so far: never more than the limit. */
  readonly spent: number;
  /** True once a step was refused: whatever was looked for may be there all the same. */
  readonly isSpent: boolean;
  /** Takes what these steps cost, before they are done. Throws `WorkSpent` where there is not enough left, and from then on always. */
  charge(step: Step, count: number): void;
}

/** Thrown where a search has no work left; the search catches it and answers with what it has found. */
export class WorkSpent extends Error {
  constructor() {
    super('the search has used up its budget');
  }
}

export function createWork(limit: number): Work {
  let spent = 0;
  let isSpent = false;
  return {
    limit,
    get spent() {
      return spent;
    },
    get isSpent() {
      return isSpent;
    },
    charge(step, count) {
      const cost = prices[step] * count;
      // Once a step was refused a smaller one is refused as well, so that a larger limit only ever goes on from here.
      if (isSpent || spent + cost > limit) {
        isSpent = true;
        throw new WorkSpent();
      }
      spent += cost;
    },
  };
}

/** Goes through steps until they end or have no work left; undefined then. */
export function* untilSpent<T>(steps: Generator<undefined, T>): Generator<undefined, T | undefined> {
  try {
    return yield* steps;
  } catch (error) {
    if (error instanceof WorkSpent) return undefined;
    throw error;
  }
}

/** What is said of a search that had no work left; `things` are what it searched for, in the plural. */
export function stoppedText(sought: string, found: number): string {
  return `The search for ${sought} stopped when its budget ran out; ${found === 0 ? 'none' : found} found so far.`;
}
