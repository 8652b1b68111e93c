/** A statement that is too long to be read is cut no further than that: counted in tokens. No outside source: the counts follow from the texts. */
import { describe, expect, test } from 'vitest';
import { parseText, scanStatements } from '../../language/grammar/index.js';
import { longestStatement, parseStatement } from '../../language/grammar/reading/read.js';
import { soundTokens } from '../../language/grammar/signs.js';
import { tokensOf } from '../../language/grammar/statements.js';

const head = { word: 'part', form: 'written' } as const;

describe('a statement of more words than are read', () => {
  test.each(['"" ', '. ', '{} ', ', ', '1 ', 'a '])('of %j: its tokens are the first ones', (word) => {
    const scan = scanStatements(`part ${word.repeat(200_000)}`);
    const cut = tokensOf(scan, scan.chunks[0]!, longestStatement);
    expect(cut).toHaveLength(longestStatement + 1);
    const { tokens, result, problem } = parseStatement(soundTokens(cut, true), head);
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

test('the tokens of a statement leave out comments, and are counted from its beginning', () => {
  const scan = scanStatements('part a : star\n  part /* a\n note */ b : /* none */ pot');
  const cut = tokensOf(scan, scan.chunks[1]!, 3);
  // By hand: `part` stands in column 2 of its first line; `b` behind the end of the comment, on the line below.
  expect(cut.map(({ image, start, line, character }) => [image, start, line, character])).toEqual([
    ['part', 0, 0, 2],
    ['b', 19, 1, 9],
    [':', 21, 1, 11],
    ['pot', 34, 1, 24],
  ]);
});
