/** Stand-ins for what a fresh machine has: a package manager with a lock, and processes that use it. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { root } from '../harness/checkout.js';

export interface FreshMachine {
  /** The only folder on the PATH of its processes. */
  readonly programs: string;
  /** The package manager's own lock: a folder that is there while it runs. */
  readonly packageLock: string;
  /** Where its processes install editor hosts. */
  readonly hosts: string;
  /** What the package manager was asked, one line a call; `refused` where it met its own lock. */
  asked(): string[];
  /** Starts a script of `tests/scripts/children/`. */
  start(script: string, ...words: string[]): Started;
}

export interface Started {
  readonly child: ChildProcess;
  /** What it printed so far. */
  text(): string;
  /** Its exit code, or the signal that ended it. */
  readonly ended: Promise<number | NodeJS.Signals | null>;
}

/** A package manager that, like apt-get, fails where a second one is started beside it. An installed program is an empty script. */
const aptGet = `#!/bin/sh
PATH=/usr/bin:/bin
here="\${0%/*}"
if ! mkdir "$here/../apt-lock" 2>/dev/null; then
  echo refused >> "$here/../asked"
  echo "E: Could not get lock /var/lib/dpkg/lock-frontend" >&2
  exit 100
fi
echo "$*" >> "$here/../asked"
sleep 1
case "$*" in *" install "*)
  for word in "$@"; do
    case "$word" in ripgrep) word=rg ;; procps) word=ps ;; -*|install) continue ;; esac
    printf '#!/bin/sh\\n' > "$here/$word"
    chmod +x "$here/$word"
  done ;;
esac
rmdir "$here/../apt-lock"
`;

/** A machine that has Node and, where it is a Debian, the package manager. It is gone after the test. */
export function freshMachine(isDebian = true): FreshMachine {
  const folder = mkdtempSync(join(tmpdir(), 'lw-fresh-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }));
  const programs = join(folder, 'programs');
  mkdirSync(programs);
  if (isDebian) writeFileSync(join(programs, 'apt-get'), aptGet, { mode: 0o755 });
  return {
    programs,
    packageLock: join(folder, 'apt-lock'),
    hosts: join(folder, 'hosts'),
    asked: () => {
      const log = join(folder, 'asked');
      return existsSync(log) ? readFileSync(log, 'utf8').trim().split('\n') : [];
    },
    start: (script, ...words) => {
      const runTs = join(root, 'server', 'scripts', 'run-ts.mjs');
      const child = spawn(process.execPath, [runTs, `tests/scripts/children/${script}.ts`, ...words], {
        cwd: root,
        env: { ...process.env, PATH: programs, TMPDIR: folder, LUGWORK_EDITOR_HOSTS: join(folder, 'hosts') },
      });
      let text = '';
      child.stdout.on('data', (part: Buffer) => (text += part.toString()));
      child.stderr.on('data', (part: Buffer) => (text += part.toString()));
      const ended = new Promise<number | NodeJS.Signals | null>((resolve, reject) => {
        child.once('error', reject);
        child.once('close', (code, signal) => resolve(code ?? signal));
      });
      return { child, text: () => text, ended };
    },
  };
}

/** Resolves when the process has printed the words. */
export async function printed({ child, text, ended }: Started, words: string): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    const look = (): void => {
      if (text().includes(words)) resolve();
    };
    child.stdout?.on('data', look);
    ended.then((code) => reject(new Error(`ended with ${code} before it printed "${words}":\n${text()}`))).catch(reject);
    look();
  });
}
