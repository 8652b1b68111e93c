/** Choices drawn from a seed: the same again for the same seed. */
import { createRandom } from './random.js';

export interface Dice {
  /** True in so many of a hundred cases. */
  percent(share: number): boolean;
  pick<T>(from: readonly T[]): T;
  /** A whole number, both ends included. */
  whole(low: number, high: number): number;
  shuffled<T>(list: readonly T[]): T[];
}

export function createDice(seed: number): Dice {
  const random = createRandom('practice', seed);
  const whole = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  return {
    percent: (share) => random() * 100 < share,
    pick: (from) => from[whole(0, from.length - 1)]!,
    whole,
    shuffled(list) {
      const mixed = [...list];
      for (let last = mixed.length - 1; last > 0; last--) {
        const other = whole(0, last);
        [mixed[last], mixed[other]] = [mixed[other]!, mixed[last]!];
      }
      return mixed;
    },
  };
}
