/** Runs the built command as a process, as a user does, over folders of files made for one test. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { root } from './checkout.js';

/** The committed launcher; it builds first where the build is missing or old. */
const launcher = join(root, 'server', 'bin.mjs');

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** `lugwork WORDS` in a folder, until it ends. Colours are off, as in a pipe. */
export function lugwork(words: readonly string[], cwd: string = root, env: NodeJS.ProcessEnv = {}): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [launcher, ...words], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
  });
  return { code: status, out: stdout, err: stderr };
}

/** A new folder with these files (path to content), gone when the test has finished. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}
