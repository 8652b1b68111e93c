/** A lock between processes that waits, so that two runs never install the same thing at once. */
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import lockfile from 'proper-lockfile';

export interface LockOptions {
  /** Printed once where another process has the lock. */
  readonly waiting: string;
  /** The owner renews its lock every few seconds; one that was killed loses it after this time. */
  readonly staleMs?: number;
}

/** Runs `work` while no other process holds the lock at `path`. Waits as long as the other one lives. */
export async function withLock<T>(path: string, options: LockOptions, work: () => Promise<T>): Promise<T> {
  mkdirSync(dirname(path), { recursive: true });
  const words = {
    lockfilePath: path,
    realpath: false,
    stale: options.staleMs ?? 10_000,
    // Two that wait may both take over a dead owner's lock. Debian's own lock and the final renaming of a host's folder keep that harmless.
    onCompromised: (error: Error) => console.log(`The lock ${path} was lost: ${error.message}`),
  };
  const release = await lockfile.lock(path, words).catch((error: unknown) => {
    if ((error as NodeJS.ErrnoException).code !== 'ELOCKED') throw error;
    console.log(options.waiting);
    return lockfile.lock(path, { ...words, retries: { forever: true, minTimeout: 500, maxTimeout: 500, factor: 1 } });
  });
  try {
    return await work();
  } finally {
    await release().catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'ERELEASED') throw error;
    });
  }
}
