/** What kind of extension host this is, what it can load, and which processes it has. */
import type * as childProcess from 'node:child_process';

declare const require: (name: string) => unknown;

/** True where the extension host is a Node process, false in a web worker. */
export const isNodeHost = typeof process === 'object' && typeof process.versions?.node === 'string';

/** A module of Node; only where `isNodeHost`. */
export function load<T>(name: string): T {
  return require(name) as T;
}

/** A variable that the harness hands over; nothing in a web worker. */
export function variable(name: string): string | undefined {
  return isNodeHost ? process.env[name] : undefined;
}

/** Process ids of the language server below this extension host. */
export function serverProcesses(): number[] {
  const { execFileSync } = load<typeof childProcess>('node:child_process');
  const lines = execFileSync('ps', ['-A', '-o', 'pid=,ppid=,args='], { encoding: 'utf8' }).split('\n');
  return lines
    .map((one) => /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(one))
    .filter((one) => one !== null && Number(one[2]) === process.pid && one[3]!.includes('server.cjs'))
    .map((one) => Number(one![1]));
}
