/** Where the lamp of fixes is held back, and how the text of a fault search is broken into lines. */
import { describe, expect, test } from 'vitest';
import { isLampInTheWay } from '../../extension/lamp.js';
import { wrapped } from '../../extension/wrapped.js';

describe('the lamp', () => {
  const text = [
    'wire a.1 to b.1',
    'wire a.2 to b.2',
    'wire a.3 to b.3',
    '',
    'expect : silent',
    'expect v 0 : silent',
    'expect v 5 : silent',
  ];
  const document = {
    uri: { toString: () => 'memory:/a.lug' },
    lineCount: text.length,
    lineAt: (line: number) => ({ text: text[line]! }),
  };
  const at = (line: number, ...marked: number[]): boolean =>
    isLampInTheWay(document, line, new Map([['memory:/a.lug', new Set(marked)]]));

  test('is held back where a test or a mark is in the gutter and the lines beside it are full', () => {
    expect(at(5)).toBe(true);
    expect(at(1, 1)).toBe(true);
  });

  test('is left where the gutter is free, or a line beside it is empty or the file ends', () => {
    expect(at(1)).toBe(false);
    expect(at(1, 2)).toBe(false);
    expect(at(4)).toBe(false);
    expect(at(6)).toBe(false);
    expect(at(2, 2)).toBe(false);
  });

  test('another document’s marks do not count', () => {
    expect(isLampInTheWay(document, 1, new Map([['memory:/b.lug', new Set([1])]]))).toBe(false);
  });
});

describe('lines of a fault search', () => {
  const long = 'Before metering: unplug from the amplifier and take the batteries out. Keep your fingers off the probe tips.';

  test('are broken at spaces, and nothing is lost', () => {
    const lines = wrapped(`${long}\n\nshort`).split('\n');
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(48);
    expect(lines.slice(0, -2).join(' ')).toBe(long);
    expect(lines.slice(-2)).toEqual(['', 'short']);
  });

  test('go on below the words of a list, and a reading to be copied stays one line', () => {
    const [first, second] = wrapped(` 1. ${long}`).split('\n');
    expect(first).toMatch(/^ 1\. Before/);
    expect(second).toMatch(/^ {4}\S/);
    const reading = `  measured between volume.2 and output.sleeve selector "bridge", volume 5, tone 5 : reads …`;
    expect(wrapped(reading)).toBe(reading);
  });

  test('a word longer than the room is left whole', () => {
    const word = 'x'.repeat(80);
    expect(wrapped(word)).toBe(word);
    expect(wrapped(`${word} and more`)).toBe(`${word}\nand more`);
  });
});
