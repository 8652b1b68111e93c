/** How the benchmark measures: the middle of several runs, after one that warms up. */

/** Milliseconds of the middle one of `runs` runs of `work`, each with what `prepare` makes (not timed). */
export function median<T>(runs: number, prepare: (run: number) => T, work: (prepared: T) => unknown): number {
  work(prepare(0));
  const times = Array.from({ length: runs }, (_, index) => {
    const prepared = prepare(index + 1);
    const began = performance.now();
    work(prepared);
    return performance.now() - began;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** `0.42`, `3.1`, `57`. */
export function milliseconds(value: number): string {
  return value < 1 ? value.toFixed(2) : value < 10 ? value.toFixed(1) : value.toFixed(0);
}
