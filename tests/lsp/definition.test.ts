/** Go to definition, through the protocol. */
import type { Location } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { libraryText } from '../../language/parts/index.js';
import { twoPickups } from './circuits.js';
import { startEditor } from './harness.js';

/** The line of a location's text that it begins on. */
function lineAt(text: string, { range }: Location): string {
  return text.split('\n')[range.start.line]!;
}

describe('go to definition', () => {
  test.each([
    ['a part', { 'wire neck.hot ': 'wire ne<|>ck.hot ' }, 'part neck     : single-coil 6.2k 2.4H 110pF'],
    ['a part in a claim', { 'sounds parallel(neck,': 'sounds parallel(neck<|>,' }, 'part neck     : single-coil 6.2k 2.4H 110pF'],
    [
      'a position in a setting',
      { 'selector "both"': 'selector "bo<|>th"' },
      'part selector : lever-3 { positions "bridge" "both" "neck" }',
    ],
  ])('of %s', async (_, marks, expected) => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups(marks));
    const found = await editor.ask<Location>('textDocument/definition', document.at());
    expect(found.uri).toBe(document.uri);
    expect(lineAt(document.text, found)).toBe(expected);
  });

  test.each([
    ['a standard type', { 'selector : lever-3': 'selector : lev<|>er-3' }, 'type lever-3 : switch {'],
    ['a lug of a standard type', { 'wire neck.hot ': 'wire neck.ho<|>t ' }, '  lugs hot ground'],
    ['a parameter', { 'wound reverse': 'wou<|>nd reverse' }, /^ {2}takes .*wound/],
  ])('of %s leads into the standard parts', async (_, marks, expected) => {
    const editor = await startEditor();
    const document = await editor.open('a.lug', twoPickups(marks));
    const found = await editor.ask<Location>('textDocument/definition', document.at());
    expect(found.uri).toMatch(/^lugwork:\/parts\//);
    const text = await editor.ask<string>('lugwork/builtInText', { uri: found.uri });
    expect(text).toBe(libraryText(found.uri));
    expect(lineAt(text, found)).toMatch(expected);
  });

  test('within an opened standard part', async () => {
    const editor = await startEditor();
    const uri = 'lugwork:/parts/controls.lug';
    const document = await editor.open(uri, libraryText(uri)!.replace('type pot-no-load : pot', 'type pot-no-load : p<|>ot'));
    const found = await editor.ask<Location>('textDocument/definition', document.at());
    expect(found.uri).toBe(uri);
    expect(lineAt(document.text, found)).toBe('type pot : control {');
  });

  test('of a part, a type and the file itself in a used file', async () => {
    const house = 'type dark : single-coil { takes resistance 8k }\npart star-point : star\n';
    const editor = await startEditor({ files: { 'parts/house.lug': house } });
    const document = await editor.open(
      'a.lug',
      'use "parts/ho<|>use.lug"\npart neck : da<|>rk\nwire neck.ground to star-po<|>int\n',
    );
    const found = await Promise.all([0, 1, 2].map((mark) => editor.ask<Location>('textDocument/definition', document.at(mark))));
    expect(found.map(({ uri }) => uri)).toEqual(Array(3).fill('memory:/parts/house.lug'));
    expect(found.map((place) => lineAt(house, place))).toEqual([
      house.split('\n')[0],
      house.split('\n')[0],
      house.split('\n')[1],
    ]);
  });

  test('of a rule leads to its page', async () => {
    const editor = await startEditor();
    const document = await editor.open(
      'a.lug',
      twoPickups({ 'expect volume 0 ': 'allow loose-<|>lead on neck "why"\nexpect volume 0 ' }),
    );
    const { uri } = await editor.ask<Location>('textDocument/definition', document.at());
    expect(await editor.ask<string>('lugwork/builtInText', { uri })).toMatch(/^# loose-lead\n/);
  });

  test('of nothing is nothing', async () => {
    const editor = await startEditor();
    const document = await editor.open(
      'a.lug',
      twoPickups({ 'Two single-coils': 'Two <|>single-coils', 'volume 0 ': 'volume <|>0 ' }),
    );
    expect(await editor.ask('textDocument/definition', document.at(0))).toBeNull();
    expect(await editor.ask('textDocument/definition', document.at(1))).toBeNull();
    expect(
      await editor.ask('textDocument/definition', { textDocument: { uri: 'memory:/none.lug' }, position: document.places[0] }),
    ).toBeNull();
  });
});
