/** `npm run mutate`: puts one small mistake at a time into a copy of the sources and tells which ones no test notices. `-- --folder language/electrics --count 150 --seed 1`, `--only TEXT` for files whose path holds it. */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import ts from 'typescript';
import { filesUnder, root, sources } from '../harness/checkout.js';
import { applied, mutantsOf, sample, type Mutant } from './mutants.js';

/** The tests that hold a folder to its word. */
const testsOf: Readonly<Record<string, readonly string[]>> = {
  'language/electrics': ['tests/electrics', 'tests/checks'],
  'language/checks': ['tests/checks', 'tests/workshop'],
};
/** Milliseconds after which a mutant counts as noticed: the mistake has made a loop without end. */
const patience = 300_000;

const words = new Map<string, string>();
for (let i = 3; i < process.argv.length; i += 2) words.set(process.argv[i]!, process.argv[i + 1]!);
const folder = words.get('--folder') ?? 'language/electrics';
const count = Number(words.get('--count') ?? 100);
const seed = Number(words.get('--seed') ?? 1);
const only = words.get('--only') ?? '';

const scratch = mkdtempSync(join(tmpdir(), 'lugwork-mutants-'));
let running: number | undefined;
process.once('SIGINT', () => {
  stop(running);
  rmSync(scratch, { recursive: true, force: true });
  process.exit(130);
});

try {
  copyCheckout();
  const paths = sources(folder).filter((path) => path.includes(only));
  const all = mutantsOf(paths, createProgram());
  const chosen = sample(all, count, seed);
  console.log(`${folder}: ${chosen.length} of ${all.length} mutants, seed ${seed}`);
  if ((await tested()) !== 'passed') throw new Error('The tests do not pass without a mistake.');
  const survivors = [];
  let late = 0;
  for (const [index, mutant] of chosen.entries()) {
    const outcome = await tried(mutant);
    if (outcome === 'late') late += 1;
    if (outcome === 'passed') survivors.push(mutant);
    console.log(
      `${index + 1} ${outcome === 'passed' ? 'SURVIVED' : outcome === 'late' ? 'no end' : 'noticed'} ${summary(mutant)}`,
    );
  }
  const noticed = chosen.length - survivors.length;
  console.log(
    `\n${noticed} of ${chosen.length} noticed (${((100 * noticed) / chosen.length).toFixed(0)} %), ${late} of them without end; not noticed:`,
  );
  for (const mutant of survivors) console.log(`  ${summary(mutant)}`);
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

async function tried(mutant: Mutant): Promise<'passed' | 'failed' | 'late'> {
  const file = join(scratch, mutant.path);
  const text = readFileSync(file, 'utf8');
  writeFileSync(file, applied(text, mutant));
  try {
    return await tested();
  } finally {
    writeFileSync(file, text);
  }
}

async function tested(): Promise<'passed' | 'failed' | 'late'> {
  const tests = testsOf[folder] ?? ['tests'];
  const config = 'tests/mutation/vitest.config.mjs';
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const child = spawn(process.execPath, [vitest, 'run', ...tests, '--config', config], {
    cwd: scratch,
    stdio: 'ignore',
    detached: true,
  });
  running = child.pid;
  const ended = new Promise<'passed' | 'failed'>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve(code === 0 ? 'passed' : 'failed'));
  });
  const timer = new AbortController();
  const late = wait(patience, 'late' as const, { signal: timer.signal }).catch(() => 'late' as const);
  const outcome = await Promise.race([ended, late]);
  timer.abort();
  if (outcome === 'late') stop(child.pid);
  return outcome;
}

/** Ends a run of the tests with its workers. */
function stop(pid: number | undefined): void {
  if (pid !== undefined) process.kill(-pid, 'SIGKILL');
}

/** The sources and tests in a folder of their own; the tree itself is never changed. */
function copyCheckout(): void {
  for (const path of filesUnder('').filter((name) => !name.startsWith('.'))) {
    mkdirSync(dirname(join(scratch, path)), { recursive: true });
    cpSync(join(root, path), join(scratch, path));
  }
  symlinkSync(join(root, 'node_modules'), join(scratch, 'node_modules'));
}

function createProgram(): ts.Program {
  const config = join(root, 'language', 'tsconfig.json');
  const { fileNames, options } = ts.parseJsonConfigFileContent(
    ts.readConfigFile(config, ts.sys.readFile).config,
    ts.sys,
    dirname(config),
  );
  // Asked by their paths from the root.
  const host = ts.createCompilerHost(options);
  host.getCurrentDirectory = () => root;
  return ts.createProgram(fileNames, options, host);
}

/** As the copy has it: the tree may change meanwhile. */
function summary({ path, start, end, text, kind }: Mutant): string {
  const whole = readFileSync(join(scratch, path), 'utf8');
  const lines = whole.slice(0, start).split('\n');
  const [was, is] = [whole.slice(start, end), text].map((part) => part.replaceAll(/\s+/g, ' '));
  return `${path}:${lines.length}:${lines.at(-1)!.length + 1} ${kind}: ${was} → ${is}`;
}
