/** What folds: bodies of types, statements of several lines, comments, and runs of statements of one kind. */
import { itemAt } from '../../../language/collections.js';
import { FoldingRangeKind, type FoldingRange } from 'vscode-languageserver';
import { isComment } from '../../../language/grammar/index.js';
import type { Snapshot } from '../workspace.js';
import { onDocument, type Feature } from '../feature.js';

export const folding: Feature = {
  capabilities: { foldingRangeProvider: true },
  register(service) {
    service.connection.onFoldingRanges(
      onDocument(service, 'folding', null, (at) => [...statements(at), ...runs(at), ...comments(at)]),
    );
  },
};

/** A run of fewer statements is not worth folding. */
const leastRun = 3;

function statements({ tree }: Snapshot): FoldingRange[] {
  return tree.statements.flatMap(({ kind, line, range }) => {
    const endLine = line + range.end.line;
    // The closing brace of a body stays in sight.
    const last = kind === 'type' ? endLine - 1 : endLine;
    return last > line ? [{ startLine: line, endLine: last }] : [];
  });
}

/** Statements of one kind on lines that follow each other. */
function runs({ tree }: Snapshot): FoldingRange[] {
  const found: FoldingRange[] = [];
  let first = 0;
  tree.statements.forEach((statement, i) => {
    const next = tree.statements[i + 1];
    const endLine = statement.line + statement.range.end.line;
    if (next?.kind === statement.kind && next.line === endLine + 1) return;
    if (i + 1 - first >= leastRun)
      found.push({ startLine: itemAt(tree.statements, first).line, endLine, kind: FoldingRangeKind.Region });
    first = i + 1;
  });
  return found;
}

/** Comments of several lines, and line comments below each other. */
function comments({ tree }: Snapshot): FoldingRange[] {
  const found: FoldingRange[] = [];
  const add = (startLine: number, endLine: number) =>
    endLine > startLine && found.push({ startLine, endLine, kind: FoldingRangeKind.Comment });
  let run: { readonly from: number; readonly to: number } | undefined;
  let lineOfCode = -1;
  for (const token of tree.scan?.tokens ?? []) {
    const alone = isComment(token) && token.line !== lineOfCode;
    if (!isComment(token)) lineOfCode = token.endLine;
    if (alone && token.line === token.endLine && (run === undefined || token.line === run.to + 1)) {
      run = { from: run?.from ?? token.line, to: token.line };
      continue;
    }
    if (run !== undefined) add(run.from, run.to);
    run = alone && token.line === token.endLine ? { from: token.line, to: token.line } : undefined;
    if (isComment(token)) add(token.line, token.endLine);
  }
  if (run !== undefined) add(run.from, run.to);
  return found;
}
