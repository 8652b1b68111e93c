/** Whatever is asked, the server goes on: wrong questions, questions taken back, questions about nothing. */
import { CancellationTokenSource, LSPErrorCodes } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, uriOf, type Editor } from './harness.js';

/** Every request about a document, with what is answered where there is none. */
const requests: readonly (readonly [method: string, params: object, instead: unknown])[] = [
  ['textDocument/hover', { position: { line: 0, character: 0 } }, null],
  ['textDocument/completion', { position: { line: 0, character: 0 } }, null],
  ['textDocument/signatureHelp', { position: { line: 0, character: 0 } }, null],
  ['textDocument/definition', { position: { line: 0, character: 0 } }, null],
  ['textDocument/references', { position: { line: 0, character: 0 }, context: { includeDeclaration: true } }, null],
  ['textDocument/prepareRename', { position: { line: 0, character: 0 } }, null],
  ['textDocument/rename', { position: { line: 0, character: 0 }, newName: 'x' }, null],
  ['textDocument/documentHighlight', { position: { line: 0, character: 0 } }, null],
  ['textDocument/documentSymbol', {}, null],
  ['textDocument/documentLink', {}, null],
  ['textDocument/foldingRange', {}, null],
  ['textDocument/selectionRange', { positions: [] }, null],
  ['textDocument/codeLens', {}, null],
  ['textDocument/formatting', { options: {} }, null],
  ['textDocument/semanticTokens/full', {}, { data: [] }],
  ['textDocument/inlayHint', { range: { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } } }, null],
  [
    'textDocument/codeAction',
    { range: { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } }, context: { diagnostics: [] } },
    null,
  ],
  ['lugwork/expectations', {}, []],
  ['lugwork/checkExpectations', {}, []],
  ['lugwork/positions', {}, { rows: [], leftOut: [] }],
];

async function isAlive(editor: Editor): Promise<boolean> {
  const { uri } = await editor.open('alive.lug', twoPickups());
  return (await editor.diagnostics(uri)).length === 0;
}

test.each(requests)('%s about a document that is not there', async (method, params, instead) => {
  const editor = await startEditor();
  const uri = uriOf('none.lug');
  expect(await editor.ask(method, { textDocument: { uri }, uri, ...params })).toEqual(instead);
  expect(editor.log).toEqual([]);
});

test.each(requests)('%s at the top and far beyond the end of any text', async (method, params) => {
  const editor = await startEditor();
  const far = JSON.parse(
    JSON.stringify(params).replaceAll('"line":0', '"line":99999').replaceAll('"character":0', '"character":999'),
  ) as object;
  for (const text of ['', twoPickups(), 'part', '"', '/*']) {
    const { uri, id } = await editor.open('a.lug', text);
    await editor.ask(method, { ...id, uri, ...params });
    await editor.ask(method, { ...id, uri, ...far });
  }
  expect(editor.log).toEqual([]);
});

describe('a failure', () => {
  test('is logged once, and ends nothing but its own answer', async () => {
    const host = { findFiles: () => Promise.reject(new Error('the folder is gone')) };
    const editor = await startEditor({ host, initialize: { initializationOptions: { hearsChecked: true } } });
    const document = await editor.open('a.lug', twoPickups({ 'part neck ': 'part ne<|>ck ' }));
    for (let i = 0; i < 3; i++) expect(await editor.ask('workspace/symbol', { query: '' })).toBeNull();
    expect(editor.log).toHaveLength(1);
    expect(editor.log[0]).toMatch(/^symbols: .*the folder is gone/);
    expect(await editor.ask('textDocument/hover', document.at())).not.toBeNull();
  });

  test('of a notification ends nothing', async () => {
    const editor = await startEditor();
    await editor.tell('textDocument/didOpen', {});
    await editor.tell('textDocument/didChange', { textDocument: { uri: 'x' } });
    await editor.tell('workspace/didChangeWatchedFiles', {});
    expect(await isAlive(editor)).toBe(true);
  });

  test('of the client to answer for a file counts as a missing file', async () => {
    const editor = await startEditor();
    editor.connection.onRequest('lugwork/readFile', () => Promise.reject(new Error('no such file')));
    const { uri } = await editor.open('a.lug', 'use "b.lug"\n');
    expect((await editor.diagnostics(uri)).map(({ code }) => code)).toContain('use');
    expect(await isAlive(editor)).toBe(true);
  });
});

test('a client that cannot list its files is answered from what is open', async () => {
  const editor = await startEditor();
  editor.connection.onRequest('lugwork/findFiles', () => Promise.reject(new Error('no folder')));
  await editor.open('a.lug', twoPickups());
  expect(await editor.ask<unknown[]>('workspace/symbol', { query: 'neck' })).toHaveLength(1);
  expect(editor.log).toEqual([]);
});

describe('a question taken back', () => {
  test('is answered as cancelled', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups({ 'part neck ': 'part ne<|>ck ' }));
    const source = new CancellationTokenSource();
    const answer = editor.connection.sendRequest('textDocument/hover', document.at(), source.token);
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(await isAlive(editor)).toBe(true);
  });

  test('among many is not missed by the others', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups({ 'part neck ': 'part ne<|>ck ' }));
    const answers = Array.from({ length: 20 }, (_, i) => {
      const source = new CancellationTokenSource();
      const answer = editor.connection.sendRequest('textDocument/hover', document.at(), source.token);
      if (i % 2 === 0) source.cancel();
      return answer.then(
        () => 'answered',
        () => 'cancelled',
      );
    });
    expect(await Promise.all(answers)).toEqual(Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? 'cancelled' : 'answered')));
  });
});
