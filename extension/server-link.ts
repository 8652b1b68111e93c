/** The link to the language server as the rest of the extension sees it: its state, its requests, its restart. */
import type { Event, LogOutputChannel } from 'vscode';
import type { ServerRequests } from '../server/protocol.js';

export type LinkState = 'starting' | 'ready' | 'checking' | 'restarting' | 'failed' | 'stopped';

export interface ServerLink {
  readonly state: LinkState;
  /** One sentence about the state, where there is something to say. */
  readonly message: string | undefined;
  readonly onDidChangeState: Event<LinkState>;
  /** All findings of the newest text of a document, by its address, have come. */
  readonly onChecked: Event<string>;
  /** Lines of a document whose gutter holds a mark of this extension, by its address. */
  readonly markedLines: Map<string, ReadonlySet<number>>;
  readonly output: LogOutputChannel;
  /** Asks the server; rejects while it is not running. */
  request<M extends keyof ServerRequests>(method: M, params: ServerRequests[M]['params']): Promise<ServerRequests[M]['result']>;
  restart(): Promise<void>;
  dispose(): Promise<void>;
}
