/** Work in steps: a generator that yields where a host may do something else, and returns what it found. */

export type Steps<T> = Generator<undefined, T>;

/** Runs steps to their end at once, for a caller that has nothing else to do. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
