/** Work that leaves room for messages that come in meanwhile, in Node and in a web worker alike. */

/** What waits for a turn of the event loop: a request that was just asked, work on one that goes on, work that nobody waits for. */
export type Urgency = 'asked' | 'going on' | 'background';

const queues: Readonly<Record<Urgency, (() => void)[]>> = { asked: [], 'going on': [], background: [] };
let isScheduled = false;
/** Turns given to requests since the background had one; it gets one in so many at least. */
let passedOver = 0;
const fairness = 4;

/** Resolves in a turn of the event loop of its own, so that messages are read between any two that wait, however many there are. */
export function pause(urgency: Urgency = 'asked'): Promise<void> {
  return new Promise((resolve) => {
    queues[urgency].push(resolve);
    schedule();
  });
}

function schedule(): void {
  if (isScheduled || Object.values(queues).every(({ length }) => length === 0)) return;
  isScheduled = true;
  const turn = (): void => {
    isScheduled = false;
    next()?.();
    schedule();
  };
  // A worker has no `setImmediate`.
  if (typeof setImmediate === 'function') setImmediate(turn);
  else setTimeout(turn, 0);
}

function next(): (() => void) | undefined {
  const { asked, 'going on': goingOn, background } = queues;
  const request = passedOver >= fairness && background.length > 0 ? undefined : (asked.shift() ?? goingOn.shift());
  passedOver = request === undefined ? 0 : passedOver + 1;
  return request ?? background.shift();
}

/** Milliseconds of work between two looks at what has come in. */
const slice = 5;

/** Runs steps to their end, a slice at a time. `isGivenUp` is asked between two slices; undefined where it says so. */
export async function inSlices<T>(
  steps: Generator<undefined, T>,
  isGivenUp: () => boolean,
  urgency: Urgency = 'going on',
): Promise<T | undefined> {
  for (;;) {
    const until = performance.now() + slice;
    let step = steps.next();
    while (step.done !== true && performance.now() < until) step = steps.next();
    if (step.done === true) return step.value;
    if (isGivenUp()) return undefined;
    await pause(urgency);
    if (isGivenUp()) return undefined;
  }
}
