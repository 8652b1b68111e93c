/** Rows of the benchmark for the command as a process, start to finish. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateCircuit, sizes } from './circuits.js';
import { createColumn, median, milliseconds } from './timing.js';

export const processHeads = ['parts', '--version', 'check', 'positions'];

/** A line of milliseconds for each size; `bundle` is the built command. Throws where the command cannot run. */
export function processRows(bundle: string): string[][] {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-bench-'));
  try {
    const columns = processHeads.slice(1).map(createColumn);
    return sizes.map((size) => {
      const file = join(folder, `${size}.lug`);
      writeFileSync(file, generateCircuit(size));
      const run = (...words: string[]) =>
        median(
          3,
          () => words,
          (given) => start([bundle, ...given]),
        );
      const measures = [() => run('--version'), () => run('check', file), () => run('positions', file)];
      return [String(size), ...measures.map((measure, index) => columns[index]!(measure))];
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export const referenceHeads = ['what', 'ms', 'times an empty Node.js'];

/** Lines for what people start most often, beside a Node.js process that does nothing; what the command keeps between starts is there. */
export function referenceRows(bundle: string): string[][] {
  const time = (words: readonly string[]): number => median(9, () => words, start);
  const empty = time(['-e', '0']);
  const rows: readonly (readonly [string, readonly string[]])[] = [
    ['lugwork --version', ['--version']],
    ['check a right circuit', ['check', 'examples/push-pull-coil-split.lug']],
    ['check a faulty circuit', ['check', 'examples/faulty/lead-on-the-common.lug']],
    ['check the folder of examples', ['check', 'examples']],
  ];
  const line = (what: string, ms: number): string[] => [what, milliseconds(ms), (ms / empty).toFixed(1)];
  return [line('empty Node.js', empty), ...rows.map(([what, words]) => line(what, time([bundle, ...words])))];
}

function start(words: readonly string[]): void {
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8', maxBuffer: 1 << 28 });
  // What it finds is for the tests to judge: here only the time counts.
  if (status !== 0 && status !== 1)
    throw new Error(`node ${words.join(' ')} ended with ${status}:\n${stdout.slice(0, 2000)}${stderr}`);
}
