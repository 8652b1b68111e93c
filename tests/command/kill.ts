/** Ends writes by `kill -9` at seeded moments and looks at what they leave: the old file whole or the new one whole. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, watch, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { createRandom } from '../electrics/random-circuit.js';
import { root } from '../harness/checkout.js';
import { clean } from './circuits.js';

/** What became of a number of killed writes. */
export interface Toll {
  readonly problems: readonly string[];
  /** Kills that met a process while it wrote: its new file had not taken its place yet. */
  readonly met: number;
}

const isLeftOver = (name: string): boolean => name.startsWith('.lugwork-');

/**
 * Kills processes that do nothing but write two texts in turn over the same file, `count` times in the same folder, so that each has to
 * cope with what the one before left behind.
 */
export async function killWriters(count: number, seed: number, folder: string): Promise<Toll> {
  const random = createRandom(seed);
  const writer = join(folder, 'writer.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['server/command/output/write-file.ts'],
    outfile: join(folder, 'write-file.mjs'),
    bundle: true,
    platform: 'node',
    format: 'esm',
  });
  writeFileSync(writer, loop);
  const target = join(folder, 'target.lug');
  const texts = ['A', 'B'].map((letter) => letter.repeat(sizeOfTexts));
  writeFileSync(target, texts[0]!);
  const problems: string[] = [];
  let met = 0;
  for (let i = 0; i < count; i++) {
    const child = spawn(process.execPath, [writer, target, String(sizeOfTexts)], { stdio: ['ignore', 'pipe', 'inherit'] });
    await new Promise((resolve) => child.stdout.once('data', resolve));
    await wait(random() * 20);
    await kill(child);
    if (readdirSync(folder).some(isLeftOver)) met += 1;
    if (!texts.includes(readFileSync(target, 'utf8'))) problems.push(`kill ${i} of seed ${seed}: the file is cut`);
  }
  return { problems, met };
}

const sizeOfTexts = 1_000_000;

/** The first write is done before it says that it has begun. */
const loop = `
import { replaceFile } from './write-file.mjs';
const [path, size] = process.argv.slice(2);
for (let i = 0; ; i++) {
  const { problem } = replaceFile(path, 'AB'[i % 2].repeat(Number(size)));
  if (problem !== undefined) throw new Error(problem);
  if (i === 0) process.stdout.write('begun');
}
`;

const folderOfFormat = 8;
const untidy = `instrument   "Alder Lane no. 3"\n\n${'part a:pot   250k // as bought\n'.repeat(400)}`;

/** Each kind of write of the command: its words and the files it writes. */
export const kinds: Readonly<Record<string, { readonly words: readonly string[]; readonly files: readonly string[] }>> = {
  format: { words: ['format', 'many'], files: Array.from({ length: folderOfFormat }, (_, i) => `many/${i}.lug`) },
  draw: { words: ['draw', 'a.lug', '-o', 'out/a.svg'], files: ['out/a.svg'] },
  sheet: { words: ['sheet', 'a.lug', '--no-drawing', '-o', 'out/a.html'], files: ['out/a.html'] },
  circuit: { words: ['circuit', 'a.lug', '-o', 'out/a.json'], files: ['out/a.json'] },
  compare: { words: ['compare', 'b.lug', 'a.lug', '-o', 'out/a.txt'], files: ['out/a.txt'] },
  baseline: { words: ['check', 'many', '--write-baseline', 'out/known.json'], files: ['out/known.json'] },
};

/** What the folder of a kill holds at first. */
export const before: Readonly<Record<string, string>> = {
  'a.lug': clean,
  'b.lug': '',
  ...Object.fromEntries(kinds['format']!.files.map((path) => [path, untidy])),
  ...Object.fromEntries(
    Object.values(kinds).flatMap(({ files }) => files.filter((path) => path.startsWith('out/')).map((path) => [path, 'old'])),
  ),
};

/**
 * Runs one kind of write, kills it a seeded moment after its new file has come into sight, and looks at every file; then lets it run to its
 * end in the same folder. `run` runs the command until it ends.
 */
export async function killCommand(
  kind: string,
  seed: number,
  folder: string,
  bundle: string,
  run: (words: readonly string[]) => { readonly code: number | null; readonly err: string },
): Promise<Toll> {
  const { words, files } = kinds[kind]!;
  const child = spawn(process.execPath, [bundle, ...words], { cwd: folder, stdio: 'ignore' });
  await sightOf(join(folder, files[0]!, '..'), child);
  await wait(createRandom(seed)() * 6);
  await kill(child);
  const left = readdirSync(join(folder, files[0]!, '..')).some(isLeftOver);
  const at = files.map((path) => readFileSync(join(folder, path), 'utf8'));
  const { code, err } = run(words);
  const problems = code === 0 ? [] : [`${kind}, seed ${seed}: the next run failed: ${err}`];
  files.forEach((path, i) => {
    const now = existsSync(join(folder, path)) ? readFileSync(join(folder, path), 'utf8') : '';
    if (at[i] !== before[path] && at[i] !== now) problems.push(`${kind}, seed ${seed}: ${path} is neither the old nor the new`);
    if (now === before[path]) problems.push(`${kind}, seed ${seed}: the next run did not write ${path}`);
  });
  return { problems, met: left ? 1 : 0 };
}

/** Until a write in that folder has begun, or the process has ended. */
function sightOf(folder: string, child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    const watcher = watch(folder, (_, name) => {
      if (name !== null && isLeftOver(name)) done();
    });
    const done = (): void => {
      watcher.close();
      resolve();
    };
    child.once('exit', done);
  });
}

function kill(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill('SIGKILL');
  });
}

function wait(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
