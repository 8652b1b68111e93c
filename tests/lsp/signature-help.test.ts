/** What a part takes, while it is written, through the protocol. */
import type { SignatureHelp } from 'vscode-languageserver-protocol';
import { describe, expect, test } from 'vitest';
import { startEditor } from './harness.js';

/** The label, and the stretch of it that is marked. */
async function helped(source: string): Promise<{ label: string; active: string | undefined } | null> {
  const editor = await startEditor();
  const document = await editor.open('a.lug', source);
  const help = await editor.ask<SignatureHelp | null>('textDocument/signatureHelp', document.at());
  expect(editor.log).toEqual([]);
  if (help === null) return null;
  const [{ label, parameters }] = help.signatures as [SignatureHelp['signatures'][number]];
  const stretch = parameters?.[help.activeParameter!]?.label as [number, number] | undefined;
  return { label, active: stretch && label.slice(...stretch) };
}

describe('while a part is written', () => {
  test.each([
    ['part x : pot <|>', 'resistance 250 kΩ'],
    ['part x : pot 500k <|>', 'taper linear|audio|reverse-audio'],
    ['part x : pot 500k aud<|>', 'taper linear|audio|reverse-audio'],
    ['part x : pot 50<|>0k', 'resistance 250 kΩ'],
    ['part x : single-coil 6k 2<|>.4H', 'inductance 2.6 H'],
    ['part x : single-coil 6k { wound <|>', 'wound forward|reverse'],
    ['part x : single-coil 6k { wound reverse, magnet s<|>', 'magnet north|south'],
    ['part x : single-coil 6k {\n  output <|>\n}', 'output 100 %'],
    ['part x : pot 500k mauve<|>', undefined],
  ])('%j marks %s', async (source, active) => {
    const help = await helped(source);
    expect(help!.label.startsWith(source.includes('pot') ? 'pot ' : 'single-coil ')).toBe(true);
    expect(help!.active).toBe(active);
  });

  test('of a type of your own, as it declares', async () => {
    const text = 'type dark : pickup {\n  lugs hot ground\n  takes resistance 8k, kind soft|hard\n}\npart x : dark <|>';
    expect((await helped(text))!.label).toMatch(/^dark .*resistance 8 kΩ kind soft\|hard/);
  });

  test.each(['part <|>', 'part x : <|>', 'part x : nothing <|>', 'part c : capacitor 22nF from a.1 <|>', 'wire a.1 <|>', '<|>'])(
    '%j has no help',
    async (source) => {
      expect(await helped(source)).toBeNull();
    },
  );
});
