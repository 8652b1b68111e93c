/** What the comparison's panel and the extension say to each other: types only. */
import type { ComparedCircuits } from '../../server/protocol.js';

export type ToCompare =
  | { readonly kind: 'comparison'; readonly before: string; readonly after: string; readonly compared: ComparedCircuits }
  | { readonly kind: 'banner'; readonly text: string }
  /** What the editor keeps for a reload. */
  | { readonly kind: 'state'; readonly state: CompareState };

export type FromCompare =
  | { readonly kind: 'ready' }
  /** The place of a change in the text, by its number from 0 among parts and wires. */
  | { readonly kind: 'go'; readonly change: number }
  | { readonly kind: 'failed'; readonly message: string };

/** What the circuit is held against, as the editor keeps it over a reload. */
export type Against = { readonly kind: 'commit' } | { readonly kind: 'file'; readonly uri: string };

export interface CompareState {
  readonly uri: string;
  readonly against: Against;
}
