/** Programs of the operating system that a host needs: looked for, installed where that is possible, named where it is not. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { run } from './process.js';
import { root } from './place.js';

/** Debian's package for each program. `.ci/run` installs them. */
const debianPackage = { 'g++': 'g++', make: 'make', python3: 'python3', rg: 'ripgrep', chromium: 'chromium' } as const;

export type Need = keyof typeof debianPackage;

/** The path of a program, or nothing. */
export function findProgram(name: string): string | undefined {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    const path = join(folder, name);
    try {
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // Not in this folder; the next one may have it.
    }
  }
  return undefined;
}

/** Makes sure that all programs are there, or fails with a sentence that says what to install and what was not run. */
export async function ensurePrograms(needs: readonly Need[], purpose: string): Promise<void> {
  const missing = needs.filter((need) => findProgram(need) === undefined);
  if (missing.length === 0) return;
  const packages = missing.map((need) => debianPackage[need]);
  if (process.getuid?.() === 0 && findProgram('apt-get') !== undefined) {
    console.log(`Installing ${packages.join(' ')} for ${purpose} …`);
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    await run('apt-get', ['update', '-q'], { cwd: root, env });
    await run('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...packages], { cwd: root, env });
  }
  const still = needs.filter((need) => findProgram(need) === undefined);
  if (still.length > 0)
    throw new Error(`NOT RUN: ${purpose}. Missing: ${still.join(', ')}. On Debian: apt-get install ${packages.join(' ')}`);
}
