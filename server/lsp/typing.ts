/** What is being typed at a place of a document: the statement, what stands of it before the cursor, and the word under the cursor. */
import type { Position, Range } from 'vscode-languageserver';
import { writingAt, type Writing } from '../../language/grammar/index.js';
import type { Snapshot } from './workspace.js';

export interface Typing extends Omit<Writing, 'start' | 'end'> {
  /** The word under the cursor up to the cursor, quotes included; empty between two words. */
  readonly word: string;
  /** The whole word, which a completion takes the place of. */
  readonly range: Range;
}

/** `undefined` in a comment, and in a text that is too long to be read. */
export function typingAt({ document, text, tree }: Snapshot, position: Position): Typing | undefined {
  const offset = document.offsetAt(position);
  const writing = tree.scan === undefined ? undefined : writingAt(tree.scan, offset);
  if (writing === undefined) return undefined;
  const { start, end, ...typing } = writing;
  return {
    ...typing,
    word: text.slice(start, offset),
    range: { start: document.positionAt(start), end: document.positionAt(end) },
  };
}
