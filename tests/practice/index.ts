/** A grammar of practice: draws correct circuits from seeds, with what a luthier would state of each. Nothing in it asks the program. */
import { compose } from './compose.js';
import { createDice } from '../harness/dice.js';
import { createDraft } from './draft.js';
import { thinLines } from './intent.js';
import { textOf } from './text.js';

export interface Practice {
  readonly seed: number;
  /** The circuit without any `expect` line. */
  readonly text: string;
  /** `expect` lines: what sounds in each position of the selecting switch, as a luthier writes it. */
  readonly thin: readonly string[];
  readonly families: readonly string[];
  readonly parts: number;
}

/** Sizes that are drawn, in parts. */
export const fewestParts = 12;
export const mostParts = 40;

const pickupCounts = [1, 2, 2, 2, 2, 3, 3, 3, 4, 4] as const;

/** More positions than a bench sheet would have room for are drawn again. */
const mostStates = 32;

/** The same circuit for the same seed. */
export function drawPractice(seed: number): Practice {
  const dice = createDice(seed);
  const count = dice.pick(pickupCounts);
  // Most of what is composed is small: each seed sets its minimum size, so that large circuits are as frequent.
  const least = fewestParts + 3 * dice.whole(0, 2 * (count - 1));
  for (;;) {
    const draft = createDraft(dice);
    compose(draft, count);
    // Ground adds a point and the strings, and wires a splice or two.
    if (draft.parts.length < least - 4 || draft.parts.length > mostParts) continue;
    const states = draft.devices.reduce((product, { positions }) => product * positions.length, 1);
    const text = textOf(draft, 200 + (seed % 800));
    const parts = draft.parts.length;
    if (text === undefined || states > mostStates || parts < least || parts > mostParts) continue;
    return { seed, text, thin: thinLines(draft), families: [...draft.families].sort(), parts };
  }
}
