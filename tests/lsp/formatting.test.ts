/** Formatting through the protocol: of a document, of some lines, while typing. */
import type { TextEdit } from 'vscode-languageserver-protocol';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatText } from '../../language/grammar/index.js';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor, type Opened } from './harness.js';

const options = { tabSize: 2, insertSpaces: true };

async function edited(editor: Editor, { uri }: Opened, method: string, params: object): Promise<string> {
  const edits = await editor.ask<TextEdit[]>(method, { textDocument: { uri }, options, ...params });
  return editor.applied({ changes: { [uri]: edits } })[uri]!;
}

const anyLines = [
  '',
  '  ',
  'part a:pot',
  'part  bb : pot 250k',
  'wire a.1 to bb.1',
  '  to a.2',
  '// note',
  'type t : switch { lugs A }',
  '}',
  '{',
];

const untidy = 'part a:pot   250k\n\n\n\npart bb : pot\nwire  a.1   to bb.1\nwire a.2 to   bb.case   black';

describe('a document', () => {
  test('gets the one layout', async () => {
    const editor = await startEditor();
    expect(await edited(editor, await editor.open('a.lug', untidy), 'textDocument/formatting', {})).toBe(formatText(untidy));
  });

  test('that has it is not touched', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', formatText(twoPickups()));
    expect(await editor.ask('textDocument/formatting', { ...document.id, options })).toEqual([]);
  });

  test('keeps its own line ends', async () => {
    const editor = await startEditor();
    const text = untidy.replace(/\n/g, '\r\n');
    expect(await edited(editor, await editor.open('a.lug', text), 'textDocument/formatting', {})).toBe(formatText(text));
  });

  test('of any lines comes out as the formatter writes it', async () => {
    const line = fc.constantFrom(...anyLines);
    const editor = await startEditor();
    const document = await editor.open('a.lug', '');
    const property = fc.asyncProperty(fc.array(line, { maxLength: 12 }), fc.constantFrom('\n', '\r\n'), async (lines, eol) => {
      const text = lines.join(eol);
      await editor.change(document.uri, [{ text }]);
      expect(await edited(editor, document, 'textDocument/formatting', {})).toBe(formatText(text));
    });
    await fc.assert(property, { numRuns: 200 });
  });
});

describe('some lines', () => {
  test('alone are changed', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', untidy);
    const range = { start: { line: 5, character: 0 }, end: { line: 6, character: 0 } };
    const after = await edited(editor, document, 'textDocument/rangeFormatting', { range });
    const [before, now, whole] = [untidy, after, formatText(untidy)].map((text) => text.split('\n'));
    expect(now![5]).toBe(whole!.find((line) => line.startsWith('wire a.1')));
    expect(now!.filter((_, i) => i !== 5)).toEqual(before!.filter((_, i) => i !== 5));
  });
});

describe('while typing', () => {
  test('a new line tidies the lines above it up to an empty one, and leaves its own alone', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', 'part a:pot\n\nwire  a.1 to  a.2\nwire a.case to a.3\n   <|>\n');
    const after = await edited(editor, document, 'textDocument/onTypeFormatting', { position: document.places[0], ch: '\n' });
    expect(after).toBe('part a:pot\n\nwire a.1    to a.2\nwire a.case to a.3\n   \n');
  });

  test('a closing brace tidies its type', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', 'type t : switch {\nlugs  A0 A1\n }<|>\n');
    const after = await edited(editor, document, 'textDocument/onTypeFormatting', { position: document.places[0], ch: '}' });
    expect(after).toBe('type t : switch {\n  lugs A0 A1\n}\n');
  });
});
