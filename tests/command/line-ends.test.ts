/** A text whose lines end in several ways: the command and the server count the same lines and lay it out the same. */
import type { Diagnostic, TextEdit } from 'vscode-languageserver-protocol';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';
import { startEditor } from '../lsp/harness.js';
import { broken, clean } from './circuits.js';

/** CR LF first, then LF, CR and CR LF in turn. */
const mixed = (text: string): string => {
  const ends = ['\r\n', '\n', '\r'];
  let count = 0;
  return text.replace(/\n/g, () => ends[count++ % 3]!);
};

test('findings have the same ranges in both, those of the same text with one kind of line end', async () => {
  const folder = folderWith({ 'mixed.lug': mixed(broken), 'plain.lug': broken });
  const rangesIn = (name: string): unknown[] => {
    const { out } = inProcess(['check', '--format', 'json', name], folder);
    const { files } = JSON.parse(out) as { files: { findings: { rule: string; range: unknown }[] }[] };
    return files[0]!.findings.map(({ rule, range }) => ({ rule, range })).sort(byRule);
  };
  const expected = rangesIn('plain.lug');
  expect(expected.length).toBeGreaterThan(1);
  expect(rangesIn('mixed.lug')).toEqual(expected);
  const editor = await startEditor();
  const { uri } = await editor.open('mixed.lug', mixed(broken));
  const found: Diagnostic[] = [...(await editor.diagnostics(uri))];
  expect(found.map(({ code, range }) => ({ rule: code, range })).sort(byRule)).toEqual(expected);
});

test('format writes the first line’s end throughout, in the command as in the server', async () => {
  const untidy = 'part a:pot   250k\npart bb : pot\n\n\n// note\nwire a.1   to bb.1\n';
  const tidy = 'part a  : pot 250k\npart bb : pot\n\n// note\nwire a.1 to bb.1\n';
  for (const [text, expected] of [
    [mixed(untidy), tidy.replaceAll('\n', '\r\n')],
    [mixed(tidy), tidy.replaceAll('\n', '\r\n')],
    [untidy.replaceAll('\n', '\r'), tidy],
  ] as const) {
    const folder = folderWith({ 'a.lug': text });
    expect(inProcess(['format', 'a.lug'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'a.lug'), 'utf8')).toBe(expected);
    const editor = await startEditor();
    const { uri, id } = await editor.open('a.lug', text);
    const edits = await editor.ask<TextEdit[]>('textDocument/formatting', {
      ...id,
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(editor.applied({ changes: { [uri]: edits } })[uri]).toBe(expected);
  }
});

test.each(['\r', '\r\n', '\n'])('--set and substitute find their line behind lines that end in %j', (end) => {
  const folder = folderWith({ 'a.lug': clean.replaceAll('\n', end) });
  const response = inProcess(['response', 'a.lug', '--set', 'selector "bridge"', '--format', 'json', '--points', '2'], folder);
  expect([response.code, response.err]).toEqual([0, '']);
  const substitute = inProcess(['substitute', 'a.lug', 'volume 500k', '--format', 'json'], folder);
  expect([substitute.code, substitute.err]).toEqual([0, '']);
  expect(inProcess(['substitute', 'a.lug', 'nothing 500k'], folder).err).toContain('“nothing 500k”');
});

function byRule(a: { readonly rule: unknown }, b: { readonly rule: unknown }): number {
  return String(a.rule) < String(b.rule) ? -1 : 1;
}
