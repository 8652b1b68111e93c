/** Folding through the protocol. */
import type { FoldingRange } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { startEditor } from './harness.js';

/** Lines `from-to kind`, counted from 1 as an editor shows them. */
async function folds(source: string): Promise<string[]> {
  const editor = await startEditor();
  const document = await editor.open('a.lug', source);
  const ranges = await editor.ask<FoldingRange[]>('textDocument/foldingRange', document.id);
  return ranges
    .map(({ startLine, endLine, kind }) => `${startLine + 1}-${endLine + 1}${kind === undefined ? '' : ` ${kind}`}`)
    .sort();
}

test('bodies, statements of several lines, runs, comments', async () => {
  const text = `/*
 * A comment of
 * several lines.
 */
// Two line
// comments.
type slide : switch {
  lugs A0 A1
}
part a : pot {
  rest 7
}
part b : pot // not a run: two parts
wire a.1 to b.1
wire a.2 to b.2

wire a.3 to b.3
solder a.1 to b.2
solder a.1
  to b.3
solder a.2 to b.3 // a comment
// and one more
`;
  expect(await folds(text)).toEqual(['1-4 comment', '10-12', '18-21 region', '19-20', '5-6 comment', '7-8']);
});

test.each(['', '\n', 'part a : pot', '/* open', 'type t : switch {'])('%j folds nowhere', async (text) => {
  expect(await folds(text)).toEqual([]);
});
