/** What a bench sheet is made of, before it is Markdown, HTML or CSV: plain data. */

export type Block =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Rows with a box to tick; `key` stays while what is done stays. */
  | { readonly kind: 'ticks'; readonly rows: readonly TickRow[] }
  /** `rule` columns are left empty to be written in. */
  | {
      readonly kind: 'table';
      readonly heads: readonly string[];
      readonly rows: readonly (readonly string[])[];
      readonly blanks?: readonly string[];
    }
  | { readonly kind: 'picture'; readonly svg: string };

export interface TickRow {
  readonly key: string;
  /** Step number; empty for a test. */
  readonly number: string;
  readonly text: string;
  /** Why it stands here, in two or three words. */
  readonly why: string;
  readonly isTest: boolean;
  /** Says what the rows below it are for: nothing to tick. */
  readonly isHead?: boolean;
  /** Ticked already. */
  readonly isDone?: boolean;
  /** Marks of wires and names of lugs in the text, to be set in bold. */
  readonly names?: readonly string[];
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
  /** Lines under the title, to be filled in: instrument number, date, by whom. */
  readonly fields: readonly string[];
  readonly cautions: readonly string[];
  readonly sections: readonly Section[];
}
