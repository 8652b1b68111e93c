/** Where new statements go: behind the last one of their kind, so that a text keeps its order. */
import { itemAt } from '../collections.js';
import { lineEndOf, linesOf } from './lines.js';
import type { LocalRange, Statement, Tree } from './tree.js';

/** A text put at an empty range. */
export interface Insertion {
  readonly range: LocalRange;
  readonly text: string;
}

/** Lines put behind the last statement of one of these kinds, the first kind that there is; at the end of the text, after an empty line, where there is none. */
export function insertionOf(
  { text, tree }: { readonly text: string; readonly tree: Tree },
  lines: readonly string[],
  behind: readonly Statement['kind'][],
): Insertion {
  const eol = lineEndOf(text);
  const last = behind
    .map((kind) => tree.statements.filter((statement) => statement.kind === kind).at(-1))
    .find((statement) => statement !== undefined);
  const all = linesOf(text);
  const written = lines.join(eol);
  if (last !== undefined) {
    const line = last.line + last.range.end.line;
    const place = { line, character: itemAt(all, line).length };
    return { range: { start: place, end: place }, text: eol + written };
  }
  let end = all.length - 1;
  while (end > 0 && all[end]?.trim() === '') end--;
  const lastLine = itemAt(all, end);
  const place = { line: end, character: lastLine.length };
  // The empty line that sets the new group apart.
  const before = lastLine.trim() === '' ? '' : eol + eol;
  return { range: { start: place, end: place }, text: before + written + (end === all.length - 1 ? eol : '') };
}
