// Lists and maps read by what must be there: what is missing is named, and the groups keep their order. Expected values by hand.
import { describe, expect, test } from 'vitest';
import { append, firstOf, groupBy, itemAt, lastOf, pairwise, valueFor } from '../../language/collections.js';

describe('what must be there', () => {
  test('is given', () => {
    expect([firstOf([4, 5, 6]), itemAt([4, 5, 6], 1), lastOf([4, 5, 6])]).toEqual([4, 5, 6]);
    expect(valueFor(new Map([['a', 0]]), 'a')).toBe(0);
  });

  test('or an error says what is missing', () => {
    expect(() => firstOf([])).toThrow('A list of 0 has no item 0');
    expect(() => lastOf([])).toThrow('A list of 0 has no item -1');
    expect(() => itemAt(['x'], 1)).toThrow('A list of 1 has no item 1');
    expect(() => valueFor(new Map([['a', 0]]), 'b')).toThrow('Nothing is kept for b');
  });
});

test('neighbours come in pairs, one fewer than the items', () => {
  expect(pairwise(['a', 'b', 'c'])).toEqual([
    ['a', 'b'],
    ['b', 'c'],
  ]);
  expect(pairwise([0, 0])).toEqual([[0, 0]]);
  expect(pairwise(['a'])).toEqual([]);
  expect(pairwise([])).toEqual([]);
});

test('groups keep the order of keys and of items', () => {
  expect([...groupBy([5, 2, 3, 4], (item) => item % 2)]).toEqual([
    [1, [5, 3]],
    [0, [2, 4]],
  ]);
  const lists = new Map([['a', [1]]]);
  append(lists, 'a', 2);
  append(lists, 'b', 3);
  expect([...lists]).toEqual([
    ['a', [1, 2]],
    ['b', [3]],
  ]);
});
