/** Work that leaves room for messages that come in meanwhile, in Node and in a web worker alike. */

/** Resolves once everything that waits has had its turn. */
export function pause(): Promise<void> {
  return new Promise((resolve) => {
    // A worker has no `setImmediate`.
    if (typeof setImmediate === 'function') setImmediate(resolve);
    else setTimeout(resolve, 0);
  });
}

/** Milliseconds of work between two looks at what has come in. */
const slice = 5;

/** Runs steps to their end, a slice at a time. `isGivenUp` is asked between two slices; undefined where it says so. */
export async function inSlices<T>(steps: Generator<undefined, T>, isGivenUp: () => boolean): Promise<T | undefined> {
  for (;;) {
    const until = performance.now() + slice;
    let step = steps.next();
    while (step.done !== true && performance.now() < until) step = steps.next();
    if (step.done === true) return step.value;
    if (isGivenUp()) return undefined;
    await pause();
    if (isGivenUp()) return undefined;
  }
}
