/** What `npm run texts` finds: user-facing sentences with their places, and nothing that only a program reads. */
import { describe, expect, test } from 'vitest';
import { documentTexts, grammarSentences, markdownSentences } from './document-texts.js';
import { sourceTexts, textsOf } from './source-texts.js';

const found = (code: string): string[] => textsOf('x.ts', code).map(({ line, text }) => `${line}: ${text}`);

describe('in a source', () => {
  test('a text and a template are found, each inserted value by its name', () => {
    expect(found("a('nothing is soldered here');\nb(`${name} is ${millimetres(length)} long, not ${1 + 1}`);\n")).toEqual([
      '1: nothing is soldered here',
      '2: {name} is {millimetres} long, not {…}',
    ]);
  });

  test('a text inside an inserted value is one of its own', () => {
    expect(found("a(`${isOpen ? 'an open lead' : ''} at ${name}`);")).toEqual(['1: {…} at {name}', '1: an open lead']);
  });

  test('names, keys, imports, types, comparisons and markup are none', () => {
    const code = `import x from 'some module here';
type T = 'one or two';
const a = { 'a key here': 1 }['a key here'];
if (b === 'not this one') c('data-key', 'swatch-red fix-plain', 'a.b { colour: red; }', '<p class="a b"></p>');`;
    expect(found(code)).toEqual([]);
  });
});

describe('in a document', () => {
  test('each sentence is found once, on the line on which it begins', () => {
    const markdown =
      '# A heading here\n\nOne sentence that\nruns on. Another one.\n\n```lug\nno sentence here\n```\n\n| a cell here | `code` |\n';
    expect(markdownSentences(markdown).map(({ line, text }) => `${line}: ${text}`)).toEqual([
      '1: A heading here',
      '3: One sentence that runs on.',
      '4: Another one.',
      '10: a cell here',
    ]);
  });
});

describe('in the grammar', () => {
  test('what a comment says about a statement is found, but no snippet', () => {
    const text =
      'A: B;\n\n/**\n * a winding\n * @needs a coil is between two lugs\n * @more nothing follows\n * @snippet coil from here\n * @once\n */\nC:\n';
    expect(grammarSentences(text).map(({ line, text: sentence }) => `${line}: ${sentence}`)).toEqual([
      '4: a winding',
      '5: a coil is between two lugs',
      '6: nothing follows',
    ]);
  });
});

describe('in the project', () => {
  const all = [...sourceTexts(), ...documentTexts()];

  test('texts of every kind are found', () => {
    for (const place of [
      'language/cautions.ts',
      'language/checks/rules/loose-lead.ts',
      'language/checks/rules/loose-lead.md',
      'language/grammar/messages.ts',
      'language/grammar/lugwork.langium',
      'language/parts/pickups.lug',
      'language/reference.md',
      'server/command/commands/check.ts',
      'server/lsp/features/code-lens.ts',
      'extension/client.ts',
      'extension/walkthrough/bench.md',
      'package.nls.json',
      'README.md',
    ])
      expect(
        all.some(({ file }) => file === place),
        place,
      ).toBe(true);
  });

  test('each has a place and words', () => {
    expect(all.length).toBeGreaterThan(3000);
    expect(all.filter(({ line, text }) => line < 1 || text.trim() === '')).toEqual([]);
  });
});
