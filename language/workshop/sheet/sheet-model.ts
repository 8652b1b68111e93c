/** What a bench sheet is made of, before it is Markdown, HTML or CSV: plain data. */

import type { ReadingPlace } from './taken.js';

/** `isNarrow`: so short that two columns of it go beside each other on paper. */
export type Block =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Rows with a box to tick; `key` stays while what is done stays. */
  | { readonly kind: 'ticks'; readonly rows: readonly TickRow[]; readonly isNarrow?: boolean }
  /** `blanks` are columns left empty to be written in; `pictures` are drawings that go before the cells of their row, in HTML only. */
  | {
      readonly kind: 'table';
      readonly heads: readonly string[];
      readonly rows: readonly (readonly string[])[];
      readonly blanks?: readonly string[];
      readonly pictures?: readonly string[];
      readonly isNarrow?: boolean;
      /** Where the reading of each row is taken, if it can be kept: it goes into the blanks, or into the last column where there are none. */
      readonly readings?: readonly (ReadingPlace | null)[];
    }
  | { readonly kind: 'picture'; readonly svg: string };

export interface TickRow {
  readonly key: string;
  /** Of a row that does several things: the key of each. Where all are done, the row is. */
  readonly keys?: readonly string[];
  /** Step number; empty for a test. */
  readonly number: string;
  readonly text: string;
  /** The lugs to which the wire or part in `text` is brought. */
  readonly ends?: readonly TickEnd[];
  /** What is to be minded besides. */
  readonly minding?: string;
  readonly isTest: boolean;
  /** What the meter reads is written beside it. */
  readonly isRead?: boolean;
  /** Says what the rows below it are for: nothing to tick. */
  readonly isHead?: boolean;
  /** Ticked already. */
  readonly isDone?: boolean;
  /** Marks of wires and names of lugs in the text, to be set in bold. */
  readonly names?: readonly string[];
}

/** True where the row, or each thing that it does, is among the keys that are done. */
export function isRowDone({ key, keys = [key] }: TickRow, done: ReadonlySet<string>): boolean {
  return done.has(key) || keys.every((one) => done.has(one));
}

/** A lug in a row of the solder order. */
export interface TickEnd {
  readonly lug: string;
  /** Soldered in this row; else only hooked, and soldered later. */
  readonly isSoldered: boolean;
  /** What is soldered with it, that it is the screen's, that it cools first. */
  readonly note: string;
}

/** `●` solder now, `○` only hook. */
export function endText({ lug, isSoldered, note }: TickEnd): string {
  return `${lug} ${isSoldered ? '●' : '○'}${note === '' ? '' : ` ${note}`}`;
}

/** The places of all readings that the sheet asks for, in its order. */
export function readingPlaces({ sections }: Sheet): readonly ReadingPlace[] {
  const readings = sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === 'table' ? (block.readings ?? []) : [])),
  );
  return readings.filter((place) => place !== null);
}

export interface Section {
  readonly title: string;
  readonly blocks: readonly Block[];
  /** Part of the section before it. */
  readonly isSub?: boolean;
  /** Begins on a fresh page. */
  readonly isFresh?: boolean;
  /** For reference: set small. */
  readonly isSmall?: boolean;
}

export interface Sheet {
  readonly title: string;
  /** Marks of the instruments of a batch that have a box and room for a reading in each row; absent where the sheet is one instrument's. */
  readonly instruments?: readonly string[];
  /** Lines under the title, to be filled in: instrument number, date, by whom. */
  readonly fields: readonly string[];
  readonly cautions: readonly string[];
  readonly sections: readonly Section[];
  /** Set large, to be read rather than worked through. */
  readonly isLarge?: boolean;
}
