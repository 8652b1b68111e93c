/** What kind of extension host this is, and what it can load. */

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
