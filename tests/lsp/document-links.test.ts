/** Links of `use` lines through the protocol. */
import type { DocumentLink } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { startEditor } from './harness.js';

test('lead to the file, whether it is there or not', async () => {
  const editor = await startEditor();
  const document = await editor.open('lane/a.lug', 'use "<|../parts/house parts.lug|>"\nuse "<|b.lug|>"\nuse "/no.lug"\nuse\n');
  const links = await editor.ask<DocumentLink[]>('textDocument/documentLink', document.id);
  expect(links).toMatchObject([
    { range: document.ranges[0], target: 'memory:/parts/house%20parts.lug' },
    { range: document.ranges[1], target: 'memory:/lane/b.lug' },
  ]);
});
