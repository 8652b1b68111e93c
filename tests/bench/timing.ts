/** How the benchmark measures: the middle of several runs, after one that warms up. */

/** Where one run takes longer than this, it is run once, and not at all for larger sizes. */
const patience = 5000;

/** Milliseconds of the middle one of `runs` runs of `work`, each with what `prepare` makes (not timed); of the first where that was slow. */
export function median<T>(runs: number, prepare: (run: number) => T, work: (prepared: T) => unknown): number {
  const first = timed(prepare(0), work);
  if (first > patience) return first;
  const times = Array.from({ length: runs }, (_, index) => timed(prepare(index + 1), work));
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** A column of figures over growing sizes: `measure` as text, or `-` where the size before was too slow. */
export function createColumn(): (measure: () => number) => string {
  let isTooSlow = false;
  return (measure) => {
    if (isTooSlow) return '-';
    const figure = measure();
    isTooSlow = figure > patience;
    return milliseconds(figure);
  };
}

/** `0.42`, `3.1`, `57`. */
export function milliseconds(value: number): string {
  return value < 1 ? value.toFixed(2) : value < 10 ? value.toFixed(1) : value.toFixed(0);
}

function timed<T>(prepared: T, work: (prepared: T) => unknown): number {
  const began = performance.now();
  work(prepared);
  return performance.now() - began;
}
