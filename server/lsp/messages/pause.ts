/** Work that leaves room for messages that come in meanwhile, in Node and in a web worker alike. */

/** What waits for a turn of the event loop: a request whose answer someone waits for with a finger on the mouse or on a key, or anything else. */
export type Urgency = 'interactive' | 'background';

const queues: Readonly<Record<Urgency, (() => void)[]>> = { interactive: [], background: [] };
let isScheduled = false;

/**
 * Resolves in a separate turn of the event loop, so that messages are read between any two waiting callers, however many there are. Background
 * work has a turn only where nothing interactive waits; of either kind, the one that has waited longest is next.
 */
export function pause(urgency: Urgency): Promise<void> {
  return new Promise((resolve) => {
    queues[urgency].push(resolve);
    schedule();
  });
}

function schedule(): void {
  const { interactive, background } = queues;
  if (isScheduled || interactive.length + background.length === 0) return;
  isScheduled = true;
  const turn = (): void => {
    isScheduled = false;
    (interactive.shift() ?? background.shift())?.();
    schedule();
  };
  // A worker has no `setImmediate`.
  if (typeof setImmediate === 'function') setImmediate(turn);
  else setTimeout(turn, 0);
}

/** Milliseconds of work between two looks at what has come in. */
const slice = 4;

/**
 * Runs steps to their end, a slice at a time. `isGivenUp` is asked between two slices; undefined where it says so. `urgency` is asked
 * before each pause, so that work may become urgent while it goes on.
 */
export async function inSlices<T>(
  steps: Generator<undefined, T>,
  isGivenUp: () => boolean,
  urgency: () => Urgency = () => 'background',
): Promise<T | undefined> {
  for (;;) {
    const until = performance.now() + slice;
    let step = steps.next();
    while (step.done !== true && performance.now() < until) step = steps.next();
    if (step.done === true) return step.value;
    if (isGivenUp()) return undefined;
    await pause(urgency());
    if (isGivenUp()) return undefined;
  }
}
