/** What the table of statements holds: of each statement what is said of it, of each rule of the grammar what it takes. */

/** A statement, by its word. */
export interface StatementEntry {
  /** The rule of the grammar that reads it. */
  readonly rule: string;
  /** What it is, in one phrase. */
  readonly summary: string;
  /** What one must have, with an example. */
  readonly needs: string;
  /** What may still follow at its end. */
  readonly more?: string;
  /** What completion puts in, with places to fill in. */
  readonly snippet: string;
  /** The same in the body of a type, where that differs. */
  readonly inside?: string;
  /** Whether a file has at most one. */
  readonly once?: boolean;
}

/**
 * What a rule takes: a word or a sign of the language, what another rule or a kind of token takes, some of these in a row, one of several, or one
 * again and again. `slot` is the name under which the statement's tree has it: once, in a list, or as a flag that says that the word is there.
 */
export type Pattern =
  | string
  | { readonly word: string; readonly slot: string; readonly as?: 'list' | 'flag' }
  | { readonly slot: string; readonly of: string; readonly as?: 'list' }
  | { readonly all: readonly Pattern[] }
  | { readonly any: readonly Pattern[] }
  | { readonly repeat: Pattern; readonly least: 0 | 1; readonly many: boolean };

export type WordPattern = Extract<Pattern, string | { readonly word: string }>;

/** Whether a pattern is a word or a sign of the language. */
export function isWordPattern(pattern: Pattern): pattern is WordPattern {
  return typeof pattern === 'string' || 'word' in pattern;
}

/** The word or sign that a pattern is. */
export function wordOf(pattern: WordPattern): string {
  return typeof pattern === 'string' ? pattern : pattern.word;
}

/** The patterns that another is made of. */
export function insideOf(pattern: Pattern): readonly Pattern[] {
  if (isWordPattern(pattern) || 'of' in pattern) return [];
  return 'all' in pattern ? pattern.all : 'any' in pattern ? pattern.any : [pattern.repeat];
}
