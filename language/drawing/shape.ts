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
  | 'mark'
  | 'page'
  | 'page-edge';

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

/** Paper around the text in a pill, left and right, above and below. */
const padding = { x: 4.5, y: 1 } as const;

/** The pill around a label of a wire. */
export function pillBox({ x, y, width, height }: Box): Box {
  return { x: x - padding.x, y: y - padding.y, width: width + 2 * padding.x, height: height + 2 * padding.y };
}

/** What a label covers: a wire's label has a pill around it. */
export function labelBox(label: Label): Box {
  return label.role === 'letters' ? pillBox(label) : label;
}
