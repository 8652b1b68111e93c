/** Programs of the operating system that a host needs: looked for, installed where that is possible, named where it is not. */
import { accessSync, constants } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { withLock } from './lock.js';
import { run } from './process.js';
import { root } from './place.js';

/** Debian's package of each program, or its packages, and the names under which other systems have it. */
const programs = {
  'g++': { debian: 'g++', names: ['g++'] },
  make: { debian: 'make', names: ['make'] },
  python3: { debian: 'python3', names: ['python3'] },
  rg: { debian: 'ripgrep', names: ['rg'] },
  debootstrap: { debian: 'debootstrap', names: ['debootstrap'] },
  ps: { debian: 'procps', names: ['ps'] },
  nvim: { debian: 'neovim', names: ['nvim'] },
  emacs: { debian: 'emacs-nox elpa-eglot', names: ['emacs'] },
  zsh: { debian: 'zsh', names: ['zsh'] },
  fish: { debian: 'fish', names: ['fish'] },
  chromium: { debian: 'chromium', names: ['chromium', 'chromium-browser', 'google-chrome'] },
} as const;

export type Need = keyof typeof programs;

/** What of the machine decides whether a program can be installed; the tests put their own in its place. */
export interface Machine {
  /** The folders with programs, as in `PATH`. */
  readonly path: string;
  readonly isRoot: boolean;
}

/** The path of a program, or nothing. */
export function findProgram(name: string, path = process.env.PATH ?? ''): string | undefined {
  for (const folder of path.split(delimiter)) {
    const file = join(folder, name);
    try {
      accessSync(file, constants.X_OK);
      return file;
    } catch {
      // Not in this folder; the next one may have it.
    }
  }
  return undefined;
}

/** The path of a needed program under any of its names, or nothing. */
export function findNeed(need: Need, path?: string): string | undefined {
  return programs[need].names.map((name) => findProgram(name, path)).find((file) => file !== undefined);
}

/** Makes sure that all programs are there, or fails with a sentence that says what is not run and what to install. */
export async function ensurePrograms(needs: readonly Need[], purpose: string, machine = thisMachine()): Promise<void> {
  const missing = await installPrograms(needs, purpose, machine);
  if (missing.length > 0) throw new Error(`NOT RUN: ${purpose}. ${missingSentence(missing, machine)}`);
}

/** Installs the programs that are missing, one process at a time, and gives those that are missing still. */
export async function installPrograms(needs: readonly Need[], purpose: string, machine = thisMachine()): Promise<Need[]> {
  const missing = (): Need[] => needs.filter((need) => findNeed(need, machine.path) === undefined);
  if (missing().length === 0 || !machine.isRoot || !isDebian(machine)) return missing();
  const waiting = 'Another run is installing Debian packages; waiting until it is done …';
  await withLock(join(tmpdir(), 'lugwork-packages.lock'), { waiting }, async () => {
    // The process that had the lock before may have installed them.
    const packages = missing().flatMap((need) => programs[need].debian.split(' '));
    if (packages.length > 0) await installPackages(packages, purpose);
  });
  return missing();
}

/** One sentence: what is missing, and how it comes onto this machine. */
export function missingSentence(missing: readonly Need[], machine = thisMachine()): string {
  const packages = missing.map((need) => programs[need].debian).join(' ');
  const named = missing.map((need) => (need === programs[need].debian ? need : `${programs[need].debian} (${need})`));
  const cure = isDebian(machine)
    ? `install with: ${machine.isRoot ? '' : 'sudo '}apt-get install ${packages}`
    : "install with this system's package manager, so that the PATH has them";
  return `Missing: ${named.join(', ')}; ${cure}.`;
}

async function installPackages(packages: readonly string[], purpose: string): Promise<void> {
  console.log(`Installing ${packages.join(' ')} with apt-get for ${purpose}; this takes a minute or two …`);
  const begin = performance.now();
  try {
    // An index that can't be renewed is no reason yet: the one that is there may do.
    await aptGet('update', '-q').catch((error: Error) => console.log(`  ${errorLines(error)}`));
    await aptGet('install', '-y', '-q', '--no-install-recommends', ...packages);
    console.log(`Installed ${packages.join(' ')} in ${((performance.now() - begin) / 1000).toFixed(0)} s.`);
  } catch (error) {
    console.log(`apt-get could not install ${packages.join(' ')}: ${errorLines(error as Error)}`);
  }
}

/** Runs apt-get; waits where another package manager has its lock. */
async function aptGet(...words: string[]): Promise<void> {
  // The option is for the lock of `install`; `update` has another one that apt-get does not wait for.
  const patience = 600;
  for (let second = 0; ; second += 2) {
    try {
      await run('apt-get', ['-o', `DPkg::Lock::Timeout=${patience}`, ...words], {
        cwd: root,
        env: { DEBIAN_FRONTEND: 'noninteractive', LC_ALL: 'C' },
        timeoutMs: 1_800_000,
      });
      return;
    } catch (error) {
      if (second >= patience || !/Could not get lock|Unable to lock/.test((error as Error).message)) throw error;
      if (second === 0) console.log('  Another program is using the package manager; waiting until it is done …');
      await new Promise((resolve) => setTimeout(resolve, 2000));
    }
  }
}

/** What apt-get says went wrong, without what it says of its progress. */
function errorLines(error: Error): string {
  const lines = error.message.split('\n').filter((line) => line.startsWith('E: '));
  return lines.length > 0 ? lines.join(' ') : error.message;
}

function isDebian(machine: Machine): boolean {
  return findProgram('apt-get', machine.path) !== undefined;
}

function thisMachine(): Machine {
  return { path: process.env.PATH ?? '', isRoot: process.getuid?.() === 0 };
}
