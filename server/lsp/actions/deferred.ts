/** The actions whose edit is worked out when it is chosen, by the name that stands in their data. */
import type { CodeAction } from 'vscode-languageserver';
import type { Snapshot } from '../workspace.js';
import type { Deferred, DeferredAction } from './action.js';
import { namePositions } from './name-positions.js';
import { writeExpectations } from './write-expectations.js';
import { writePattern } from './write-pattern.js';

export const deferredActions = {
  'name-positions': namePositions,
  'write-expectations': writeExpectations,
  'write-pattern': writePattern,
} as const satisfies Readonly<Record<string, DeferredAction>>;

export type DeferredName = keyof typeof deferredActions;

/** What an action carries until it is chosen: which edit it is, and of which text. */
export interface DeferredData {
  readonly make: DeferredName;
  readonly about: string;
  readonly uri: string;
  readonly version: number;
}

/** The action without its edit. */
export function unresolved({ uri, document }: Snapshot, make: DeferredName, { title, kind, about }: Deferred): CodeAction {
  const data: DeferredData = { make, about, uri, version: document.version };
  return { title, kind, data };
}
