/** Counts what a fuzz run tried, and notes what must not be: an exception, a step that takes too long. */

export interface Failure {
  readonly seed: number;
  readonly what: string;
}

export interface Watch {
  /** Does a piece of work that nothing can interrupt; undefined where it failed. */
  step<T>(what: string, seed: number, work: () => T): T | undefined;
  /** The same for work in steps, of which each counts by itself. */
  steps<T>(what: string, seed: number, work: () => Generator<unknown, T>): T | undefined;
  fail(what: string, seed: number): void;
  /** Notes how long something took that can be given up, milliseconds. */
  took(what: string, seed: number, ms: number): void;
  readonly failures: readonly Failure[];
  /** The longest time of each kind of work, milliseconds of processor time, and the seed of it. */
  readonly longest: ReadonlyMap<string, { readonly ms: number; readonly seed: number }>;
}

/** Milliseconds of the processor's own time, so that a busy machine is no finding. */
const patience = 1000;

export function createWatch(): Watch {
  const failures: Failure[] = [];
  const longest = new Map<string, { ms: number; seed: number }>();
  const fail = (what: string, seed: number): void => void failures.push({ seed, what });
  const took = (what: string, seed: number, ms: number): void => {
    if (ms > (longest.get(what)?.ms ?? 0)) longest.set(what, { ms, seed });
  };
  const timed = <T>(what: string, seed: number, work: () => T): T => {
    const began = process.cpuUsage();
    try {
      return work();
    } finally {
      const { user } = process.cpuUsage(began);
      const ms = user / 1000;
      took(what, seed, ms);
      if (ms > patience) fail(`${what} took ${ms.toFixed(0)} ms`, seed);
    }
  };
  const reported = (what: string, seed: number, error: unknown): undefined => {
    fail(
      `${what}: ${error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 4).join(' | ') : String(error)}`,
      seed,
    );
    return undefined;
  };
  return {
    fail,
    took,
    failures,
    longest,
    step(what, seed, work) {
      try {
        return timed(what, seed, work);
      } catch (error) {
        return reported(what, seed, error);
      }
    },
    steps<T>(what: string, seed: number, work: () => Generator<unknown, T>): T | undefined {
      try {
        const steps = work();
        for (;;) {
          const step = timed(what, seed, () => steps.next());
          if (step.done === true) return step.value;
        }
      } catch (error) {
        return reported(what, seed, error);
      }
    },
  };
}
