/** A table of wires that is pasted from a spreadsheet: which texts are one, and the statements they become. */
import { expect, test } from 'vitest';
import { wiresOfTable } from '../../language/table/index.js';

test('with a header row, its columns in any order', () => {
  expect(wiresOfTable('Colour\tFrom\tTo\nwhite\tNeck PU.hot\tvolume.3\n\tNeck PU.ground\tvolume.case\n')).toEqual({
    text: 'wire neck-pu.hot    to volume.3 white\nwire neck-pu.ground to volume.case\n',
    wires: 2,
    unread: 0,
  });
});

test('without one, as from, to, colour, gauge, length, note', () => {
  expect(wiresOfTable('neck.hot\tvolume.3\twhite\t22\t120\tto the pot\r\nsaddle\tvolume.case\r\n')?.text).toBe(
    'wire neck.hot to volume.3 white 22awg 120mm // to the pot\nwire saddle   to volume.case\n',
  );
});

test('what can’t be read stays as a comment', () => {
  expect(wiresOfTable('from\tto\tcolour\nneck.hot\tvolume.3\tmauve\nneck.ground\t\t\n')).toEqual({
    text: '// neck.hot volume.3 mauve\nwire neck.hot to volume.3\n// neck.ground\n',
    wires: 1,
    unread: 2,
  });
});

test.each([
  ['', 'nothing'],
  ['neck.hot to volume.3', 'words'],
  ['wire neck.hot to volume.3 white\nwire neck.ground to volume.case\n', 'statements'],
  ['part\tvalue\nneck\t6.2k\n', 'another table'],
  ['from\tto\nMonday\tFriday\n', 'a table of something else'],
  ['neck.hot,volume.3\n', 'a list'],
])('%j is no table of wires: %s', (text) => {
  expect(wiresOfTable(text)).toBeUndefined();
});
