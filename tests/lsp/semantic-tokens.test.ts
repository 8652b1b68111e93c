/** Colours by meaning through the protocol. */
import type { SemanticTokens, SemanticTokensDelta, SemanticTokensOptions } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor } from './harness.js';

/** `word type modifiers` of each token. */
function read(editor: Editor, text: string, { data }: SemanticTokens): string[] {
  const { tokenTypes, tokenModifiers } = (editor.initialized.capabilities.semanticTokensProvider as SemanticTokensOptions).legend;
  const lines = text.split('\n');
  const found: string[] = [];
  let [line, character] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [down, right, length, type, modifiers] = data.slice(i, i + 5) as [number, number, number, number, number];
    [line, character] = [line + down, down > 0 ? right : character + right];
    const words = tokenModifiers.filter((_, bit) => (modifiers & (1 << bit)) !== 0);
    found.push([lines[line]!.slice(character, character + length), tokenTypes[type]!, ...words].join(' '));
  }
  return found;
}

async function tokens(source: string): Promise<string[]> {
  const editor = await startEditor();
  const document = await editor.open('a.lug', source);
  return read(editor, source, await editor.ask<SemanticTokens>('textDocument/semanticTokens/full', document.id));
}

describe('each word is what it means', () => {
  test('in a part, a wire, an expectation', async () => {
    const all = await tokens(twoPickups());
    const line = (from: string) => all.slice(all.indexOf(from), all.indexOf(from) + 40);
    expect(line('bridge variable declaration').slice(0, 9)).toEqual([
      'bridge variable declaration',
      'single-coil type defaultLibrary',
      '6.9k number',
      '2.9H number',
      '120pF number',
      'wound parameter',
      'reverse enumMember',
      'magnet parameter',
      'south enumMember',
    ]);
    const wire = all.lastIndexOf('wire keyword');
    expect(all.slice(wire, wire + 11)).toEqual([
      'wire keyword',
      'volume variable',
      'case property',
      'to keyword',
      'tone variable',
      'case property',
      'to keyword',
      'output variable',
      'sleeve property',
      'black enumMember',
      'expect keyword',
    ]);
    expect(all.slice(-4)).toEqual(['expect keyword', 'volume variable', '0 number', 'silent keyword']);
    expect(all).toContain('"both" enumMember declaration');
  });

  test('in a type and on a plate', async () => {
    const text =
      'type own : switch {\n  lugs A at\n  positions up\n  at up joins A at\n}\ncavity c\nplate p in c metal { own at 10 10 }\npart own : own\n';
    expect(await tokens(text)).toEqual([
      'type keyword',
      'own type declaration',
      'switch type',
      'lugs keyword',
      'A property declaration',
      'at property declaration',
      'positions keyword',
      'up enumMember declaration',
      'at keyword',
      'up enumMember',
      'joins keyword',
      'A property',
      'at property',
      'cavity keyword',
      'c namespace declaration',
      'plate keyword',
      'p namespace declaration',
      'in keyword',
      'c namespace',
      'metal keyword',
      'own variable',
      'at keyword',
      '10 number',
      '10 number',
      'part keyword',
      'own variable declaration',
      'own type',
    ]);
  });

  test('in half a text', async () => {
    expect(await tokens('part x : \nwire x.\n???\n')).toContain('x variable declaration');
    expect(await tokens('')).toEqual([]);
  });
});

describe('less than everything', () => {
  test('a range holds its lines alone', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', 'part a : pot\npart b : pot\npart c : pot\n');
    const range = { start: { line: 1, character: 0 }, end: { line: 1, character: 12 } };
    const found = await editor.ask<SemanticTokens>('textDocument/semanticTokens/range', { ...document.id, range });
    expect(read(editor, document.text, found)).toEqual(['part keyword', 'b variable declaration', 'pot type defaultLibrary']);
  });

  test('a difference leads from the old to the new', async () => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups());
    const full = await editor.ask<SemanticTokens>('textDocument/semanticTokens/full', document.id);
    const text = twoPickups({ 'output.tip white': 'output.tip white 22awg' });
    await editor.change(document.uri, [{ text }]);
    const delta = await editor.ask<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
      ...document.id,
      previousResultId: full.resultId,
    });
    const data = [...full.data];
    for (const { start, deleteCount, data: put } of [...delta.edits].reverse()) data.splice(start, deleteCount, ...(put ?? []));
    expect(read(editor, text, { data })).toEqual(await tokens(text));
    expect(delta.edits.flatMap((edit) => edit.data ?? []).length).toBeLessThan(20);
    // An answer that is not known any more is answered in full.
    const whole = await editor.ask<SemanticTokens>('textDocument/semanticTokens/full/delta', {
      ...document.id,
      previousResultId: 'x',
    });
    expect(read(editor, text, whole)).toEqual(await tokens(text));
  });
});
