/** Runs the built command as a process, as a user does, over folders of files made for one test. */
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { root } from './checkout.js';
import { afterThisFile } from './cleanup.js';

const setup = (await import(new URL('../../server/scripts/setup.mjs', import.meta.url).href)) as {
  bundle: string;
  ensureCommandBuilt(): Promise<void>;
};
// Once before the tests of a file: what they run is what the sources say.
await setup.ensureCommandBuilt();

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** As whom it runs, and what it reads; an input that is not given is the test's own. */
export interface Circumstances {
  readonly uid?: number;
  readonly gid?: number;
  readonly input?: string | Uint8Array;
}

/** A user to whom permissions apply: root gives up its rights, any other user stays the same. */
export const plainUser: Circumstances = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};

/** `lugwork WORDS` in a folder, until it ends. Colours are off, as in a pipe. */
export function lugwork(
  words: readonly string[],
  cwd: string = root,
  env: NodeJS.ProcessEnv = {},
  circumstances: Circumstances = {},
): Ended {
  const { input, ...user } = circumstances;
  const read = input === undefined ? {} : { input };
  if (user.uid === undefined) return run(process.execPath, [setup.bundle, ...words], cwd, env, read);
  return run(process.execPath, [asUser(), `${user.uid}`, `${user.gid ?? user.uid}`, ...words], cwd, env, read);
}

/** Copies the built command, without what lays out drawings, into a folder. */
export function copyCommand(folder: string): void {
  for (const name of ['lugwork.mjs', 'command.cjs', 'parser.cjs'])
    copyFileSync(join(dirname(setup.bundle), name), join(folder, name));
}

let script: string | undefined;

/**
 * A script that runs a copy of the command with another user's rights. Node starts before it takes them, so neither the checkout nor Node has to lie
 * where that user may read.
 */
function asUser(): string {
  if (script !== undefined) return script;
  const lines = [
    `const [, , uid, gid, ...words] = process.argv;`,
    `process.setgroups([]);`,
    `process.setgid(Number(gid));`,
    `process.setuid(Number(uid));`,
    `process.argv = [process.argv[0], 'lugwork', ...words];`,
    `await import('./lugwork.mjs');`,
  ];
  const folder = folderWith({ 'as-user.mjs': lines.join('\n') });
  copyCommand(folder);
  chmodSync(folder, 0o755);
  script = join(folder, 'as-user.mjs');
  afterThisFile(() => void (script = undefined));
  return script;
}

/** A script of bash in which `lugwork` is the built command, for what only a shell can arrange: limits, pipes, redirections. */
export function lugworkIn(script: string, cwd: string): Ended {
  const command = `lugwork() { "${process.execPath}" "${setup.bundle}" "$@"; }; ${script}`;
  return run('bash', ['-c', command], cwd, {}, {});
}

function run(
  program: string,
  words: readonly string[],
  cwd: string,
  env: NodeJS.ProcessEnv,
  circumstances: Pick<Circumstances, 'input'>,
): Ended {
  const { status, stdout, stderr } = spawnSync(program, words, {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
    // A command that waits for a pipe for ever fails its test.
    timeout: 120_000,
    ...circumstances,
  });
  return { code: status, out: stdout, err: stderr };
}

/** A new folder with these files (path to content), gone when the file's tests have finished. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-test-'));
  afterThisFile(() => rmSync(folder, { recursive: true, force: true }));
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}
