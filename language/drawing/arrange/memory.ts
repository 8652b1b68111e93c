/** What one arrangement leaves for the next. */
import type { Diagram } from '../diagram/diagram.js';
import type { Frame } from '../router/field.js';
import type { Route } from '../router/search.js';
import type { Block } from './block.js';
import type { Placement } from './placement.js';

/** What the next arrangement starts from, so that nothing moves that need not. */
export interface Memory {
  readonly signature: string;
  /** What was laid out together when last all was laid out anew: ids of parts and runs. */
  readonly items: ReadonlySet<string>;
  readonly blocks: ReadonlyMap<string, Block>;
  /** Places of what is gone are kept, for when it comes back. */
  readonly placement: Placement;
  /** The routes are by the points of this grid. */
  readonly frame: Frame;
  readonly routes: ReadonlyMap<string, Route>;
  /** Why the plain layout was taken, where it was. */
  readonly fallback?: string;
}

/** What a drawing is made of, to tell how far it has gone from another. */
export function itemsOf(diagram: Diagram): ReadonlySet<string> {
  return new Set([...diagram.parts.map(({ id }) => id), ...diagram.runs.map(({ id }) => id)]);
}
