/** Every request and notification goes through here: an exception is a bug, is reported once, and ends nothing but its own answer. */
import { LSPErrorCodes, ResponseError, type CancellationToken, type Connection } from 'vscode-languageserver';
import { DrawingStopped } from '../../../language/drawing/index.js';
import { pause } from './pause.js';

export interface Guard {
  /** A handler of requests that answers `instead` (or what it makes of the parameters) where it fails. A `ResponseError` that it throws is its answer. */
  request<P, R>(
    name: string,
    instead: R | ((params: P) => R),
    handler: (params: P, token: CancellationToken) => R | Promise<R>,
  ): (params: P, token: CancellationToken) => Promise<R | ResponseError<void>>;
  /** A handler of notifications. */
  notification<P>(name: string, handler: (params: P) => void): (params: P) => void;
  /** Work that answers nobody; resolves to false where it failed. */
  attempt(name: string, work: () => Promise<void>): Promise<boolean>;
}

/** Tells exceptions on the connection's log. */
export function createGuard(connection: Connection): Guard {
  const logged = new Set<string>();
  const log = (name: string, error: unknown): void => {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    if (logged.has(`${name} ${text}`)) return;
    logged.add(`${name} ${text}`);
    connection.console.error(`${name}: ${text}`);
  };
  return {
    request:
      <P, R>(name: string, instead: R | ((params: P) => R), handler: (params: P, token: CancellationToken) => R | Promise<R>) =>
      async (params: P, token: CancellationToken) => {
        // What was asked while something long ran may have been taken back meanwhile.
        await pause('interactive');
        if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
        try {
          return await handler(params, token);
        } catch (error) {
          if (error instanceof ResponseError) return error as ResponseError<void>;
          if (error instanceof DrawingStopped) return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
          log(name, error);
          return typeof instead === 'function' ? (instead as (asked: P) => R)(params) : instead;
        }
      },
    notification: (name, handler) => (params) => {
      try {
        handler(params);
      } catch (error) {
        log(name, error);
      }
    },
    attempt: async (name, work) => {
      try {
        await work();
        return true;
      } catch (error) {
        log(name, error);
        return false;
      }
    },
  };
}
