/** Lists in messages: short ones in full, the rest of long ones counted. */
import { expect, test } from 'vitest';
import { abridged } from '../../language/words.js';

test.each([
  [[], ''],
  [['a'], 'a'],
  [['a', 'b'], 'a and b'],
  [['a', 'b', 'c', 'd', 'e'], 'a, b, c, d and e'],
  [['a', 'b', 'c', 'd', 'e', 'f'], 'a, b, c, d and 2 more'],
  [['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'], 'a, b, c, d and 4 more'],
])('%j', (words, text) => {
  expect(abridged(words)).toBe(text);
});

test('joined by or, and cut where it is asked for', () => {
  expect(abridged(['a', 'b', 'c'], 'or')).toBe('a, b or c');
  expect(abridged(['a', 'b', 'c', 'd'], 'or', 3)).toBe('a, b or 2 more');
});
