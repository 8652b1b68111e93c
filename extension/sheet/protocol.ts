/** What the bench sheet's panel and the extension say to each other: types only. The extension owns ticks and commands, the panel is reading and input. */
import type { RecordReadings } from '../../server/protocol.js';
import type { Scene } from '../../language/drawing/index.js';
import type { ReadingPlace, Sheet } from '../../language/workshop/index.js';

/** What survives a reload. */
export interface SheetState {
  readonly uri: string;
  /** Instrument of the batch, from 1. */
  readonly number: number;
}

/** What the extension sends. */
export type ToSheet =
  | {
      readonly kind: 'sheet';
      readonly state: SheetState;
      readonly sheet: Sheet;
      readonly batch: number;
      /** True for the file of one instrument. */
      readonly isRecord: boolean;
      /** Keys of the rows that are ticked on this instrument. */
      readonly done: readonly string[];
      /** Of those, or besides them, the keys that its record says are done. */
      readonly recorded: readonly string[];
    }
  /** What this instrument's record says was read and is done; empty where it has no record. */
  | ({ readonly kind: 'readings' } & RecordReadings)
  /** The drawing, once it is made. */
  | { readonly kind: 'picture'; readonly scene: Scene }
  /** Go to the first step that is not done. */
  | { readonly kind: 'next' }
  /** One sentence above the sheet, nothing where all is well. */
  | { readonly kind: 'banner'; readonly text: string };

/** What the panel sends. */
export type FromSheet =
  | { readonly kind: 'ready' }
  | { readonly kind: 'tick'; readonly key: string; readonly isDone: boolean }
  /** A reading was typed, or taken away. */
  | { readonly kind: 'reading'; readonly place: ReadingPlace; readonly text: string }
  /** Another instrument of the batch. */
  | { readonly kind: 'number'; readonly number: number }
  /** The drawing in its own panel, where its switches can be turned. */
  | { readonly kind: 'drawing' }
  | { readonly kind: 'print' }
  | { readonly kind: 'save' }
  /** Begin a record beside the circuit with what is ticked, or open the one that is there. */
  | { readonly kind: 'record' }
  /** Something in the panel failed; for the log. */
  | { readonly kind: 'failed'; readonly message: string };
