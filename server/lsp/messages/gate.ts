/** Every message passes here before a handler sees it: what comes too early or too late, or with wrong parameters, goes no further. */
import {
  ErrorCodes,
  Message,
  ResponseError,
  type Connection,
  type ConnectionOptions,
  type NotificationMessage,
  type RequestMessage,
} from 'vscode-languageserver';
import { notificationParams, requestParams } from '../params.js';
import { ParamsProblem } from './readers.js';

/** Stand in for messages that go no further: no client may send them. */
const refused = '$/lugwork/refused';
const ignored = '$/lugwork/ignored';

interface Refusal {
  readonly code: number;
  readonly message: string;
}

/**
 * What a connection is created with, so that its messages pass the gate. Before `initialize` a request is answered by
 * `ServerNotInitialized` and a notification is dropped; after `shutdown` a request is an `InvalidRequest`, as the protocol says.
 */
export function gateOptions(): ConnectionOptions {
  let state: 'new' | 'running' | 'ended' = 'new';
  const answer = (message: RequestMessage): RequestMessage => {
    const { method } = message;
    const outOfTurn = refusalIn(state, method);
    if (outOfTurn !== undefined) return replaced(message, outOfTurn);
    const read = requestParams[method];
    if (!Object.hasOwn(requestParams, method) || read === undefined)
      return replaced(message, { code: ErrorCodes.MethodNotFound, message: `The server has no method ${method}.` });
    try {
      const params = read(message.params, '');
      if (method === 'initialize') state = 'running';
      if (method === 'shutdown') state = 'ended';
      return { ...message, params: params as object };
    } catch (error) {
      if (!(error instanceof ParamsProblem)) throw error;
      return replaced(message, { code: ErrorCodes.InvalidParams, message: `${method}: ${error.message}.` });
    }
  };
  const hear = (message: NotificationMessage): NotificationMessage | undefined => {
    const { method } = message;
    if (state !== 'running') return method === 'exit' ? message : undefined;
    const read = notificationParams[method];
    // The protocol lets a server pass over what it does not know.
    if (!Object.hasOwn(notificationParams, method) || read === undefined) return undefined;
    try {
      return { ...message, params: read(message.params, '') as object };
    } catch (error) {
      if (!(error instanceof ParamsProblem)) throw error;
      return { jsonrpc: message.jsonrpc, method: ignored, params: [`${method} was ignored: ${error.message}.`] };
    }
  };
  return {
    messageStrategy: {
      handleMessage(message, next) {
        if (Message.isRequest(message)) next(answer(message));
        else if (Message.isNotification(message)) {
          const heard = hear(message);
          if (heard !== undefined) next(heard);
        } else next(message);
      },
    },
  };
}

/** Answers what the gate let through no further. */
export function registerGate(connection: Connection): void {
  connection.onRequest(refused, (code: number, message: string) => new ResponseError(code, message));
  connection.onNotification(ignored, (message: string) => connection.console.warn(message));
}

function refusalIn(state: 'new' | 'running' | 'ended', method: string): Refusal | undefined {
  if (state === 'new' && method !== 'initialize')
    return { code: ErrorCodes.ServerNotInitialized, message: `${method} came before initialize.` };
  if (state === 'running' && method === 'initialize')
    return { code: ErrorCodes.InvalidRequest, message: 'The server is already initialized.' };
  if (state === 'ended') return { code: ErrorCodes.InvalidRequest, message: `${method} came after shutdown.` };
  return undefined;
}

function replaced({ jsonrpc, id }: RequestMessage, { code, message }: Refusal): RequestMessage {
  return { jsonrpc, id, method: refused, params: [code, message] };
}
