/** Blocks: what the layout moves as one. A part, a part with the small ones that hang on it, or a plate with all that lies on it. */
import type { PlacedSymbol } from '../placed.js';

/** Something that may have several orientations, each in the block's own frame. */
export interface Slot {
  readonly id: string;
  readonly orientations: readonly (readonly PlacedSymbol[])[];
}

export interface Block {
  /** Id of the part, or of the plate. */
  readonly id: string;
  readonly group?: string;
  readonly width: number;
  readonly height: number;
  readonly slots: readonly Slot[];
  /** The group whose places the slots keep: the block is that group's inside. */
  readonly plate?: string;
}
