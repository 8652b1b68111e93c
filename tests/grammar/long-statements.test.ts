/** A statement that is too long to be read is cut no further than that: counted in tokens. No outside source: the counts follow from the texts. */
import { describe, expect, test } from 'vitest';
import { parseText, tokenize, isComment } from '../../language/grammar/index.js';
import { longestStatement, parseStatement } from '../../language/grammar/services.js';

const head = { word: 'part', form: 'written' } as const;

describe('a statement of more words than are read', () => {
  test.each(['"" ', '. ', '{} ', ', ', '1 ', 'a '])('of %j: its tokens are the first ones', (word) => {
    const { tokens, result, problem } = parseStatement(`part ${word.repeat(200_000)}`, 0, head);
    expect(result).toBeUndefined();
    expect(problem).toBeDefined();
    expect(tokens.length).toBeLessThanOrEqual(longestStatement + 1);
  });

  test.each([['"'], ['.'], ['{'], ['}'], ['\\'], ['/*'], ['a'], [','], ['1'], ['('], ['%'], ['-']])(
    '900,000 characters of %s: one problem',
    (sign) => {
      const text = sign.repeat(900_000 / sign.length);
      const { statements, problems } = parseText('test:/long.lug', text);
      expect(statements).toEqual([]);
      expect(problems).toHaveLength(1);
    },
  );

  test('a chain of 5,000 lugs is one statement of as many ends', () => {
    const chain = `wire strip.1${Array.from({ length: 4_999 }, (_, i) => ` to strip.${i + 2}`).join('')}`;
    const { statements, problems } = parseText('test:/long.lug', chain);
    expect(problems).toEqual([]);
    expect(statements[0]).toMatchObject({ kind: 'wire', ends: { length: 5_000 } });
  });
});

test('a text is cut only as far as is asked', () => {
  expect(tokenize('/* one */ two three', 0, (token) => !isComment(token)).map(({ image }) => image)).toEqual([
    '/* one */',
    'two',
  ]);
});
