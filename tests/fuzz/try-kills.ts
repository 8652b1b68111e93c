/** Writes ended by `kill -9`, half of them bare writers, half the command itself in each of its kinds of write. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { before, killCommand, killWriters, kinds, type Toll } from '../command/kill.js';
import { root } from '../harness/checkout.js';
import type { Watch } from './watch.js';

const setup = pathToFileURL(join(root, 'server', 'scripts', 'setup.mjs')).href;

/** Returns how many kills met a write that was not finished. */
export async function tryKills(count: number, seed: number, watch: Watch): Promise<number> {
  const commands = Math.floor(count / 2);
  let met = await inFolder({}, async (folder) => take(await killWriters(count - commands, seed, folder), seed, watch));
  const names = Object.keys(kinds);
  const { bundle, ensureCommandBuilt } = (await import(setup)) as { bundle: string; ensureCommandBuilt(): Promise<void> };
  await ensureCommandBuilt();
  for (let i = 0; i < commands; i++) {
    met += await inFolder(before, async (folder) => {
      const run = (words: readonly string[]) => {
        const { status, stderr } = spawnSync(process.execPath, [bundle, ...words], { cwd: folder, encoding: 'utf8' });
        return { code: status, err: stderr };
      };
      return take(await killCommand(names[i % names.length]!, seed + i, folder, bundle, run), seed + i, watch);
    });
  }
  return met;
}

function take({ problems, met }: Toll, seed: number, watch: Watch): number {
  for (const problem of problems) watch.fail(problem, seed);
  return met;
}

async function inFolder<T>(files: Readonly<Record<string, string>>, use: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-kill-'));
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
