/** Child processes: run one to its end, or keep one going as a group that can be stopped whole. */
import { spawn, type ChildProcess } from 'node:child_process';

export interface RunOptions {
  readonly cwd: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly timeoutMs?: number;
}

/** Runs a program to its end and gives what it printed; rejects with that text where it fails or takes too long. */
export function run(program: string, args: readonly string[], options: RunOptions): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = startGroup(program, args, options);
    const output = collectOutput(child);
    const timer = setTimeout(() => {
      stopGroup(child);
      reject(new Error(`${program} ${args.join(' ')} took longer than ${(options.timeoutMs ?? 600_000) / 1000} s\n${output()}`));
    }, options.timeoutMs ?? 600_000);
    child.once('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    child.once('close', (code) => {
      clearTimeout(timer);
      if (code === 0) resolve(output());
      else reject(new Error(`${program} ${args.join(' ')} ended with ${code}\n${output()}`));
    });
  });
}

/** Starts a program as leader of its own process group. */
export function startGroup(program: string, args: readonly string[], options: RunOptions): ChildProcess {
  return spawn(program, args, {
    cwd: options.cwd,
    env: { ...process.env, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
    detached: true,
  });
}

/** Ends a program and all that it started. A group that is gone already is no error. */
export function stopGroup(child: ChildProcess): void {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, 'SIGKILL');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
  }
}

/** Keeps the last of what a program prints, for the message where something goes wrong. */
export function collectOutput(child: ChildProcess): () => string {
  let text = '';
  const add = (chunk: Buffer): void => {
    text = (text + chunk.toString()).slice(-20_000);
  };
  child.stdout?.on('data', add);
  child.stderr?.on('data', add);
  return () => text;
}

/** Waits until a program has printed the line; `log` is what it printed so far. One that ends or is silent for a minute is an error. */
export function waitForLine(child: ChildProcess, log: () => string, line: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => finish(new Error(`the editor's server did not start in 60 s\n${log()}`)), 60_000);
    const finish = (error?: Error): void => {
      clearTimeout(timer);
      child.stdout?.off('data', look);
      if (error === undefined) return resolve();
      stopGroup(child);
      reject(error);
    };
    const look = (): void => {
      if (log().includes(line)) finish();
    };
    child.stdout?.on('data', look);
    child.once('close', (code) => finish(new Error(`the editor's server ended with ${code}\n${log()}`)));
    look();
  });
}
