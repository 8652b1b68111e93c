/** New statements as edits of the protocol. */
import type { TextEdit } from 'vscode-languageserver';
import { insertionOf, type Statement } from '../../language/grammar/index.js';
import type { Snapshot } from './workspace.js';

/** Lines put behind the last statement of one of these kinds, see `insertionOf`. */
export function insertStatements(at: Snapshot, lines: readonly string[], behind: readonly Statement['kind'][]): TextEdit {
  const { range, text } = insertionOf(at, lines, behind);
  return { range, newText: text };
}
