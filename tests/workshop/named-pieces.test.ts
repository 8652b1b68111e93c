/** Names in a step's text, set apart where they stand as words of their own. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { namedPieces } from '../../language/workshop/sheet/named-pieces.js';

const marked = (text: string, ...names: string[]): string =>
  namedPieces(text, names)
    .map((piece) => (piece.isName ? `[${piece.text}]` : piece.text))
    .join('');

test('names of lugs and wires, not parts of other words', () => {
  expect(marked('W1 white: hook into volume.3 and tone.3.', 'W1', 'volume.3')).toBe(
    '[W1] white: hook into [volume.3] and tone.3.',
  );
  expect(marked('W1 and W11', 'W1')).toBe('[W1] and W11');
  expect(marked('L3 (black lead of bridge.ground): hook into ground.', 'L3', 'ground')).toBe(
    '[L3] (black lead of bridge.ground): hook into [ground].',
  );
});

test('nothing of the text is lost, whatever the names', () => {
  fc.assert(
    fc.property(fc.string(), fc.array(fc.string({ maxLength: 3 })), (text, names) => {
      expect(
        namedPieces(text, names)
          .map((piece) => piece.text)
          .join(''),
      ).toBe(text);
    }),
  );
});
