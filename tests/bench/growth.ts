/** What growth is told with: the least wall and processor time of several runs, memory that is really held, and the exponent that a column grows by. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { milliseconds } from './timing.js';

/** Milliseconds by the clock on the wall, and of the processor: on a busy machine the first is longer than the work. */
export interface Cost {
  readonly wall: number;
  readonly cpu: number;
}

/** What the work costs, done once. */
export function costOf(work: () => unknown): Cost {
  const used = process.cpuUsage();
  const began = performance.now();
  work();
  const wall = performance.now() - began;
  const { user, system } = process.cpuUsage(used);
  return { wall, cpu: (user + system) / 1000 };
}

/** The least of each: what else the machine does can only add to a run. */
export function least(costs: readonly Cost[]): Cost {
  return { wall: Math.min(...costs.map(({ wall }) => wall)), cpu: Math.min(...costs.map(({ cpu }) => cpu)) };
}

/** `40 (52)`: on the wall, and the processor's, which counts what the engine compiles and collects beside the work. */
export function costText({ wall, cpu }: Cost): string {
  return `${milliseconds(wall)} (${milliseconds(cpu)})`;
}

/** Megabytes on the heap once nothing is left that nobody holds. */
export function heldMegabytes(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  // What finalisers and weak maps let go falls in a later round.
  collect();
  collect();
  return process.memoryUsage().heapUsed / 2 ** 20;
}

/** The power of the size that the figures grow by: the slope of the least squares line through their logarithms. 1 is in proportion. */
export function exponentOf(sizes: readonly number[], figures: readonly number[]): number {
  const points = sizes.map((size, i) => [Math.log(size), Math.log(figures[i]!)] as const);
  const middle = (axis: 0 | 1): number => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  const [x, y] = [middle(0), middle(1)];
  const along = points.reduce((sum, point) => sum + (point[0] - x) ** 2, 0);
  return points.reduce((sum, point) => sum + (point[0] - x) * (point[1] - y), 0) / along;
}

/** Lines under a table of growing sizes: each column's exponent over all sizes, and between the two largest. */
export function growthRows(sizes: readonly number[], columns: readonly (readonly number[])[]): string[][] {
  const row = (title: string, from: number): string[] => [
    title,
    ...columns.map((figures) => exponentOf(sizes.slice(from), figures.slice(from)).toFixed(2)),
  ];
  const large = sizes.slice(-2);
  return [row('exponent', 0), row(`from ${large[0]} to ${large[1]}`, sizes.length - 2)];
}
