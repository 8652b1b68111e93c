/** What a drawing is made of, whether in a part's own frame or in the scene: outlines and labels. */
import type { Box, Point } from './geometry.js';

/** What an outline stands for; the renderer gives each role its look. */
export type Role =
  | 'metal'
  | 'body'
  | 'wafer'
  | 'bobbin'
  | 'pole'
  | 'tab'
  | 'leaf'
  | 'lead'
  | 'bead'
  | 'hole'
  | 'board'
  | 'pill'
  | 'detail'
  | 'film'
  | 'terminal'
  | 'cavity'
  | 'plate'
  | 'plate-metal'
  | 'assembly'
  | 'channel'
  | 'mark';

export type Shape =
  | { readonly kind: 'circle'; readonly role: Role; readonly x: number; readonly y: number; readonly r: number }
  | ({ readonly kind: 'box'; readonly role: Role; readonly radius: number } & Box)
  | { readonly kind: 'path'; readonly role: Role; readonly points: readonly Point[]; readonly closed: boolean };

/** One line of text, centred in its box; the box is what nothing else may touch. */
export interface Label extends Box {
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
  readonly role: 'name' | 'value' | 'lug' | 'letters' | 'group' | 'note';
  /** Read from below upwards, for letters in an upright wire. */
  readonly upright: boolean;
}
