/** Highlights through the protocol. */
import { DocumentHighlightKind, type DocumentHighlight } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

test('a part is marked where it is declared and where it is named', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({ 'part saddle ': 'part <|sad<|>dle|> ', 'wire saddle ': 'wire <|saddle|> ' }),
  );
  const found = await editor.ask<DocumentHighlight[]>('textDocument/documentHighlight', document.at());
  expect(found).toEqual([
    { range: document.ranges[0], kind: DocumentHighlightKind.Write },
    { range: document.ranges[1], kind: DocumentHighlightKind.Read },
  ]);
});

test('in this file alone', async () => {
  const editor = await startEditor({ files: { 'house.lug': 'part ground : star\nwire ground to ground\n' } });
  const document = await editor.open('a.lug', 'use "house.lug"\npart p : pot\nwire p.1 to <|gr<|>ound|>\n');
  const found = await editor.ask<DocumentHighlight[]>('textDocument/documentHighlight', document.at());
  expect(found).toEqual([{ range: document.ranges[0], kind: DocumentHighlightKind.Read }]);
});

test('nothing where nothing is named', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', '<|>// nothing\n');
  expect(await editor.ask('textDocument/documentHighlight', document.at())).toBeNull();
});
