/** Symbols of all files through the protocol. */
import type { SymbolInformation } from 'vscode-languageserver-protocol';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, uriOf } from './harness.js';

async function found(query: string): Promise<string[]> {
  const editor = await startEditor({
    files: {
      'house.lug': 'type dark : single-coil { takes resistance 8k }\ncavity rear shield\n',
      'b.lug': 'use "house.lug"\npart volume-b : pot\n',
    },
  });
  await editor.open('a.lug', twoPickups());
  const symbols = await editor.ask<SymbolInformation[]>('workspace/symbol', { query });
  return symbols.map(({ name, location }) => `${name} in ${location.uri.replace(uriOf(''), '')}`).sort();
}

test.each([
  ['vol', ['volume in a.lug', 'volume-b in b.lug']],
  ['VLM', ['volume in a.lug', 'volume-b in b.lug']],
  ['alder', ['Alder Lane no. 61 in a.lug']],
  ['dark', ['dark in house.lug']],
  ['rear', ['rear in house.lug']],
  ['nowhere', []],
])('%s', async (query, expected) => expect(await found(query)).toEqual(expected));

test('each stands once, in its own file', async () => {
  const all = await found('');
  expect(new Set(all).size).toBe(all.length);
  expect(all).toHaveLength(1 + 8 + 2 + 1);
});
