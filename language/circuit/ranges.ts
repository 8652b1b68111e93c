/** From places counted within a statement to places in a file. */
import type { SourceRange } from '../source.js';
import type { LocalRange, Word } from '../grammar/index.js';

/** Where a statement stands: its file and its first line. */
export interface Origin {
  readonly uri: string;
  readonly line: number;
}

/** The place in the file of a range counted within the statement that stands on `ground`. */
export function rangeOn(origin: Origin, local: LocalRange): SourceRange {
  return {
    uri: origin.uri,
    start: { line: origin.line + local.start.line, character: local.start.character },
    end: { line: origin.line + local.end.line, character: local.end.character },
  };
}

/** From the beginning of one word to the end of another, in the same statement. */
export function spanOn(origin: Origin, from: { readonly range: LocalRange }, to: { readonly range: LocalRange }): SourceRange {
  return rangeOn(origin, { start: from.range.start, end: to.range.end });
}

/** True where two ranges begin at the same character. */
export function isSamePlace(a: SourceRange, b: SourceRange): boolean {
  return a.uri === b.uri && a.start.line === b.start.line && a.start.character === b.start.character;
}

/** Orders ranges by file and place, for lists that are read from top to bottom. */
export function compareRanges(a: SourceRange, b: SourceRange): number {
  if (a.uri !== b.uri) return a.uri < b.uri ? -1 : 1;
  return (
    a.start.line - b.start.line ||
    a.start.character - b.start.character ||
    a.end.line - b.end.line ||
    a.end.character - b.end.character
  );
}

/** The first character of a file: where a whole file is meant. */
export function startOf(uri: string): SourceRange {
  return { uri, start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
}

/** True for a word that was left out and already reported by the parser. */
export function isMissing(word: Word): boolean {
  return word.kind !== 'string' && word.text === '';
}
