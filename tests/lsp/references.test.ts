/** References through the protocol, in one file and across files. */
import type { Location, Range } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { marked, startEditor, uriOf, type Editor, type Opened } from './harness.js';

async function referencesAt(editor: Editor, document: Opened, includeDeclaration = true): Promise<Location[]> {
  return editor.ask<Location[]>('textDocument/references', { ...document.at(), context: { includeDeclaration } });
}

function byPlace(a: Range, b: Range): number {
  return a.start.line - b.start.line || a.start.character - b.start.character;
}

test('of a part: its declaration, wires, claims', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({
      'part neck ': 'part <|ne<|>ck|> ',
      'wire neck.hot ': 'wire <|neck|>.hot ',
      'wire neck.ground ': 'wire <|neck|>.ground ',
      'parallel(neck,': 'parallel(<|neck|>,',
      'sounds neck,': 'sounds <|neck|>,',
    }),
  );
  const found = await referencesAt(editor, document);
  expect(found.map(({ range }) => range).sort(byPlace)).toEqual(document.ranges);
  const without = await referencesAt(editor, document, false);
  expect(without.map(({ range }) => range).sort(byPlace)).toEqual(document.ranges.slice(1));
});

test('of a lug of a standard type: wherever some part’s lug of that name is meant', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({ 'wire bridge.hot ': 'wire bridge.<|hot|> ', 'wire neck.hot ': 'wire neck.<|ho<|>t|> ' }),
  );
  const found = await referencesAt(editor, document);
  expect(found.map(({ range }) => range).sort(byPlace)).toEqual(document.ranges);
});

test('of a position: its name and its number', async () => {
  const editor = await startEditor();
  const document = await editor.open(
    'a.lug',
    twoPickups({ '"bridge" "both" "neck" }': '"bridge" <|"bo<|>th"|> "neck" }', 'selector "both"': 'selector <|2|>' }),
  );
  const found = await referencesAt(editor, document);
  expect(found.map(({ range }) => range).sort(byPlace)).toEqual(document.ranges);
});

test('of a type in a used file: in every file of the folder, open or not', async () => {
  const house = marked('type <|dark|> : single-coil { takes resistance 8k }\n');
  const other = marked('use "house.lug"\npart far : <|dark|>\n');
  const editor = await startEditor({
    files: { 'house.lug': house.text, 'b.lug': other.text, 'c.lug': 'part far : single-coil\n' },
  });
  const document = await editor.open('a.lug', 'use "house.lug"\npart near : <|da<|>rk|>\n');
  const found = await referencesAt(editor, document);
  expect(found.sort((a, b) => (a.uri < b.uri ? -1 : 1))).toEqual([
    { uri: document.uri, range: document.ranges[0] },
    { uri: uriOf('b.lug'), range: other.ranges[0] },
    { uri: uriOf('house.lug'), range: house.ranges[0] },
  ]);
});

test('of nothing is nothing', async () => {
  const editor = await startEditor();
  const document = await editor.open('a.lug', twoPickups({ 'output.tip white': 'output.tip wh<|>ite' }));
  expect(await referencesAt(editor, document)).toBeNull();
});
