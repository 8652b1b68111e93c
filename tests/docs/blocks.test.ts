/** Blocks in documents: filled between their marks, the text around them untouched, mismatches refused. */
import { expect, test } from 'vitest';
import { fillBlocks } from '../../server/docs/blocks.js';

const page = 'before\n\n<!-- made: a -->\nold\n<!-- end -->\n\nafter\n';

test('fills a block and leaves the rest', () => {
  expect(fillBlocks(page, new Map([['a', 'new $& text\n']]))).toBe(
    'before\n\n<!-- made: a -->\n\nnew $& text\n\n<!-- end -->\n\nafter\n',
  );
});

test('filling twice changes nothing', () => {
  const blocks = new Map([['a', 'new']]);
  expect(fillBlocks(fillBlocks(page, blocks), blocks)).toBe(fillBlocks(page, blocks));
});

test('refuses a block without a place, and a place without a block', () => {
  expect(() =>
    fillBlocks(
      page,
      new Map([
        ['a', ''],
        ['b', ''],
      ]),
    ),
  ).toThrow('no place for b');
  expect(() => fillBlocks(page, new Map())).toThrow('“a”');
});
