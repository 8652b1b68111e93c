/** The server lives through ten thousand random edits, and what it says in the end is what a fresh one says of the same text. */
import type { Diagnostic, TextDocumentContentChangeEvent } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { expect, test } from 'vitest';
import { twoPickups } from './circuits.js';
import { startEditor, type Editor } from './harness.js';

const edits = 10_000;
/** Edits between two comparisons, and between two questions. */
const compared = 1_000;
const asked = 100;

const house = `type dark : single-coil { takes resistance 8k }
type slide : switch {
  lugs A0 A1 A2
  positions "play" "mute"
  at "play" joins A0 A1
  at "mute" joins A0 A2
}
part master : pot 500k
`;

const start = twoPickups({
  'instrument "Alder': 'use "house.lug"\ninstrument "Alder',
  'neck     : single-coil': 'neck     : dark',
});

const pieces = [
  ...[
    'wire ',
    'part x : pot 250k\n',
    'solder ',
    'expect ',
    '\n',
    '\n\n',
    ' ',
    '.',
    ':',
    ',',
    '{',
    '}',
    '(',
    ')',
    '"',
    '/*',
    '*/',
    '//',
    '/**',
    '?',
    '\r\n',
  ],
  ...[
    'neck',
    'bridge.hot',
    'volume.3',
    'selector.A0',
    'tone',
    'to',
    'from',
    'across',
    'and',
    'at',
    'joins',
    'sounds ',
    'silent',
    'hum present',
    'reads 6k',
  ],
  ...[
    'type t : switch {\n  lugs A B\n}\n',
    'use "house.lug"\n',
    'use "a.lug"\n',
    '250k',
    '22nF',
    '1e9',
    '🎸',
    '\u0000',
    'ohm',
    'parallel(',
    'allow crowded-lug "x"\n',
  ],
  ...[
    'cavity c shield\n',
    'plate p in c metal { volume, tone }\n',
    'part m : slide\n',
    'wire master.1 to output.sleeve\n',
    'rig { cable 3m }\n',
    'measured : reads 6k\n',
  ],
];

/** Numbers from 0 to 1 by the mulberry32 recurrence (T. Ettinger, public domain). */
function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const random = createRandom(20251125);
const below = (count: number): number => Math.floor(random() * count);

/** A small change somewhere: something put in, taken out, or copied from elsewhere; now and then the whole text, so that it does not run wild. */
function anyEdit(text: string, whole: string): TextDocumentContentChangeEvent {
  if (random() < 0.01 || text.length > 4 * whole.length) return { text: whole };
  const document = TextDocument.create('', 'lugwork', 0, text);
  const from = below(text.length + 1);
  const kind = random();
  const to = kind < 0.5 ? from : Math.min(text.length, from + below(kind < 0.9 ? 12 : 200));
  const copied = below(text.length + 1);
  const put = kind < 0.6 ? pieces[below(pieces.length)]! : kind < 0.75 ? text.slice(copied, copied + below(60)) : '';
  return { range: { start: document.positionAt(from), end: document.positionAt(to) }, text: put };
}

/** Questions of every kind at some place, some of them taken back at once; none may fail. */
async function ask(editor: Editor, uri: string): Promise<void> {
  const document = TextDocument.create(uri, 'lugwork', 0, editor.text(uri));
  const position = document.positionAt(below(document.getText().length + 1));
  const id = { textDocument: { uri } };
  const range = { start: { line: 0, character: 0 }, end: position };
  const questions: readonly [string, object][] = [
    ['hover', { position }],
    ['completion', { position }],
    ['definition', { position }],
    ['references', { position, context: { includeDeclaration: true } }],
    ['documentHighlight', { position }],
    ['documentSymbol', {}],
    ['foldingRange', {}],
    ['selectionRange', { positions: [position] }],
    ['semanticTokens/full', {}],
    ['semanticTokens/range', { range }],
    ['signatureHelp', { position }],
    ['formatting', { options: { tabSize: 2, insertSpaces: true } }],
    ['onTypeFormatting', { position, ch: '\n', options: { tabSize: 2, insertSpaces: true } }],
    ['inlayHint', { range }],
    ['codeLens', {}],
    ['codeAction', { range, context: { diagnostics: [] } }],
    ['documentLink', {}],
  ];
  await Promise.all(questions.map(([method, params]) => editor.ask(`textDocument/${method}`, { ...id, ...params })));
  await editor.ask('lugwork/checkExpectations', { uri });
}

async function fresh(texts: Readonly<Record<string, string>>, uri: string): Promise<readonly Diagnostic[]> {
  const editor = await startEditor();
  for (const [other, text] of Object.entries(texts)) await editor.open(other, text);
  return editor.diagnostics(uri);
}

test('ten thousand random edits', { timeout: 300_000 }, async () => {
  const editor = await startEditor();
  const [used, main] = [await editor.open('house.lug', house), await editor.open('a.lug', start)];
  const wholes = { [used.uri]: used.text, [main.uri]: main.text };
  for (let i = 1; i <= edits; i++) {
    const { uri } = random() < 0.1 ? used : main;
    await editor.change(uri, [anyEdit(editor.text(uri), wholes[uri]!)]);
    if (i % asked === 0) await ask(editor, uri);
    if (i % compared !== 0) continue;
    const texts = { [used.uri]: editor.text(used.uri), [main.uri]: editor.text(main.uri) };
    for (const one of [used.uri, main.uri]) expect(await editor.diagnostics(one)).toEqual(await fresh(texts, one));
  }
  expect(editor.log).toEqual([]);
});
