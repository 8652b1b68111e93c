/** The TextMate grammar colours what it should: read by the engine that the editor uses, one line of scopes a word. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import { root } from './hosts/place.js';

const { Registry, INITIAL, parseRawGrammar } = textmate;
const grammar = await loadGrammar('source.lugwork');
const markdown = await loadGrammar('markdown.lugwork.codeblock');

/** Text, then the words in it that have a scope of their own, each with the innermost one. */
const cases: readonly (readonly [text: string, ...scopes: string[]])[] = [
  [
    'part neck, bridge : single-coil 6.2k',
    'part keyword.control',
    'neck, bridge variable.other.definition',
    ': punctuation.separator',
    'single-coil entity.name.type',
    '6.2 constant.numeric',
    'k keyword.other.unit',
  ],
  [
    'wire volume.3 to tone-cap.a white-red 22awg',
    'wire keyword.control',
    'volume variable.other.object',
    '. punctuation.accessor',
    '3 variable.other.property',
    'to keyword.operator.word',
    'tone-cap variable.other.object',
    '. punctuation.accessor',
    'a variable.other.property',
    'white-red support.constant.color',
    '22 constant.numeric',
    'awg keyword.other.unit',
  ],
  [
    'part c : capacitor 4n7',
    'part keyword.control',
    'c variable.other.definition',
    ': punctuation.separator',
    'capacitor entity.name.type',
    '4 constant.numeric',
    'n keyword.other.unit',
    '7 constant.numeric',
  ],
  ['expect volume 0 : silent', 'expect keyword.control', '0 constant.numeric', 'silent keyword.other.claim'],
  [
    'expect s "both" : sounds series(neck.north, reversed bridge)',
    'expect keyword.control',
    '"both" string.quoted.double',
    'sounds keyword.other.claim',
    'series support.function.arrangement',
    'neck variable.other.object',
    '. punctuation.accessor',
    'north variable.other.property',
    'reversed keyword.operator.word',
  ],
  // A word of the language is a name wherever it does not open a line.
  [
    'wire buf.in to cavity.wire',
    'wire keyword.control',
    'buf variable.other.object',
    '. punctuation.accessor',
    'in variable.other.property',
    'to keyword.operator.word',
    'cavity variable.other.object',
    '. punctuation.accessor',
    'wire variable.other.property',
  ],
  // A hyphen inside a name is no end of a word.
  ['wire in-between to to-ground', 'wire keyword.control', 'to keyword.operator.word'],
  [
    'part v : pot A250K { turn left }',
    'part keyword.control',
    'v variable.other.definition',
    ': punctuation.separator',
    'pot entity.name.type',
    'A250K constant.numeric',
    '{ punctuation.section.braces.begin',
    'turn variable.parameter',
    '} punctuation.section.braces.end',
  ],
  ['// wire a to b', '// wire a to b comment.line.double-slash'],
];

test.each(cases)('%s', (text, ...scopes) => {
  expect(scopesOf(grammar, [text])).toEqual(scopes);
});

test('the words of a type open statements in its braces alone', () => {
  const lines = ['type kill : switch {', '  at "mute" joins A0 A2', '  metal frame', '}', 'part at : kill'];
  expect(scopesOf(grammar, lines).filter((line) => line.includes('keyword.control'))).toEqual([
    'type keyword.control',
    'at keyword.control',
    'metal keyword.control',
    'part keyword.control',
  ]);
});

test('a quote that is not closed colours its line and no other', () => {
  expect(scopesOf(grammar, ['instrument "Alder', 'wire a to b']).slice(-2)).toEqual([
    'wire keyword.control',
    'to keyword.operator.word',
  ]);
});

test('a fenced block in Markdown is coloured as a circuit', () => {
  const found = scopesOf(markdown, ['```lug', 'wire a to b', '```', 'wire a to b']);
  expect(found.filter((line) => line.includes('keyword.control'))).toEqual(['wire keyword.control']);
});

function scopesOf(by: IGrammar, lines: readonly string[]): string[] {
  const found: string[] = [];
  let state = INITIAL;
  for (const line of lines) {
    const { tokens, ruleStack } = by.tokenizeLine(line, state);
    state = ruleStack;
    let last: { text: string; scope: string } | undefined;
    const flush = (): void => {
      if (last !== undefined && last.text.trim() !== '') found.push(`${last.text.trim()} ${last.scope}`);
      last = undefined;
    };
    for (const { startIndex, endIndex, scopes } of tokens) {
      // The marks of a comment or string belong to it.
      const named = scopes.filter(
        (scope) => scope.endsWith('.lugwork') && scope !== 'source.lugwork' && !scope.startsWith('meta.'),
      );
      const scope = named[0]?.replace(/\.lugwork$/, '');
      if (scope === undefined || scope !== last?.scope) flush();
      if (scope !== undefined) last = { text: (last?.text ?? '') + line.slice(startIndex, endIndex), scope };
    }
    flush();
  }
  return found;
}

async function loadGrammar(scope: string): Promise<IGrammar> {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  const { contributes } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    contributes: { grammars: { scopeName: string; path: string }[] };
  };
  const registry = new Registry({
    onigLib: oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength)).then(() => ({
      createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text: string) => new oniguruma.OnigString(text),
    })),
    loadGrammar: async (name) => {
      const path = contributes.grammars.find(({ scopeName }) => scopeName === name)?.path;
      return path === undefined ? null : parseRawGrammar(readFileSync(join(root, path), 'utf8'), path);
    },
  });
  const loaded = await registry.loadGrammar(scope);
  if (loaded === null) throw new Error(`no grammar ${scope}`);
  return loaded;
}
