/** What a selection grows over: the word, the name with its dot, the clause, the statement, the body, the paragraph, the file. */
import { lastOf } from '../../../language/collections.js';
import type { Position, SelectionRange } from 'vscode-languageserver';
import { linesOf, type LocalRange } from '../../../language/grammar/index.js';
import { inFile, isBefore, statementAt, touches } from '../places.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const selectionRanges: Feature = {
  capabilities: { selectionRangeProvider: true },
  register(service) {
    service.connection.onSelectionRanges(
      onDocument(service, 'selection', null, (at, { positions }) => positions.map((position) => grow(at, position))),
    );
  },
};

function grow(at: Snapshot, position: Position): SelectionRange {
  const lines = linesOf(at.text);
  const end = { line: lines.length - 1, character: lastOf(lines).length };
  const statement = statementAt(at.tree, position);
  const ranges: LocalRange[] = [
    { start: position, end: position },
    ...(statement === undefined ? [] : rangesIn(statement, statement.line)),
    paragraph(lines, position.line),
    { start: { line: 0, character: 0 }, end },
  ];
  const [whole = { start: position, end: position }, ...inner] = ranges
    .filter((range) => touches(range, position))
    .sort(outerFirst);
  // From the whole file inwards, leaving out whatever does not lie inside the one before.
  let grown: SelectionRange = { range: whole };
  for (const range of inner) {
    const outer = grown.range;
    if (!(isBefore(outer.start, range.start) && isBefore(range.end, outer.end)) || isSame(outer, range)) continue;
    grown = { range, parent: grown };
  }
  return grown;
}

/** Of two ranges of which one holds the other, that one first. */
function outerFirst(a: LocalRange, b: LocalRange): number {
  const by = (one: Position, other: Position) => one.line - other.line || one.character - other.character;
  return by(a.start, b.start) || by(b.end, a.end);
}

function isSame(a: LocalRange, b: LocalRange): boolean {
  return outerFirst(a, b) === 0;
}

/** Every range that a statement and what it is made of carry; those of a body's statements count from their own lines. */
function rangesIn(node: unknown, line: number): LocalRange[] {
  if (Array.isArray(node)) return node.flatMap((item) => rangesIn(item, line));
  if (typeof node !== 'object' || node === null) return [];
  const record = node as Record<string, unknown>;
  const own = typeof record['line'] === 'number' && 'range' in record ? record['line'] : line;
  return Object.entries(record).flatMap(([key, value]) =>
    key === 'range' ? [inFile(own, value as LocalRange)] : rangesIn(value, own),
  );
}

/** The lines around without an empty one between them. */
function paragraph(lines: readonly string[], line: number): LocalRange {
  const isEmpty = (at: number): boolean => (lines[at] ?? '').trim() === '';
  let [first, last] = [line, line];
  while (first > 0 && !isEmpty(first - 1)) first--;
  while (last < lines.length - 1 && !isEmpty(last + 1)) last++;
  return { start: { line: first, character: 0 }, end: { line: last, character: (lines[last] ?? '').length } };
}
