/** The small pieces under the command, each by itself: figures, tables, escapes, columns, plots. */
import { describe, expect, test } from 'vitest';
import { decibels, hertz, ohms, sixFigures } from '../../server/command/output/figures.js';
import { decadeMarks, levelAt, plotRange } from '../../server/command/output/plot.js';
import { csvTable, markdownTable, textTable } from '../../server/command/output/table.js';
import { columnsOf, printable, wrapped } from '../../server/command/output/terminal.js';
import { escapeXml } from '../../language/escape.js';

test.each([
  [0, '0 Ω'],
  [4.7, '4.7 Ω'],
  [999.4, '999 Ω'],
  [999.6, '1 kΩ'],
  [6049.7, '6.05 kΩ'],
  [64_320, '64.3 kΩ'],
  [250_000, '250 kΩ'],
  [1.02e6, '1.02 MΩ'],
])('%f ohm is written %s', (value, text) => expect(ohms(value)).toBe(text));

test('hertz and decibels', () => {
  expect(hertz(3942)).toBe('3.94 kHz');
  expect([decibels(6.24, true), decibels(-0.61, true), decibels(-0.01, true), decibels(0, true)]).toEqual([
    '+6.2 dB',
    '-0.6 dB',
    '0.0 dB',
    '0.0 dB',
  ]);
});

test('data keep six figures', () => expect(sixFigures(6049.738_29)).toBe(6049.74));

describe('tables', () => {
  const cells = {
    heads: ['a', 'b'],
    rows: [
      ['=1+1', 'x|y'],
      ['-3.5', 'say "so", twice'],
      ['@x', '-y'],
      ['長い', 'z'],
    ],
  };

  test('csv: formulas are made safe, numbers stay, quotes are doubled', () => {
    expect(csvTable(cells)).toBe('a,b\n\'=1+1,x|y\n-3.5,"say ""so"", twice"\n\'@x,\'-y\n長い,z\n');
  });

  test('markdown: marks are escaped', () => {
    expect(markdownTable({ heads: ['a'], rows: [['x|y_z\nw']] })).toBe('| a |\n| --- |\n| x\\|y\\_z w |\n');
  });

  test('text: wide characters take two columns', () => {
    expect(
      textTable({
        heads: ['h', 'k'],
        rows: [
          ['長い', 'z'],
          ['abc', 'z'],
        ],
      }),
    ).toBe('h     k\n長い  z\nabc   z\n');
  });
});

test('columns and what is not printed', () => {
  expect([columnsOf('abc'), columnsOf('長'), columnsOf('e\u0301')]).toEqual([3, 2, 1]);
  expect(printable('a\u001b[1mb\tc')).toBe('a·[1mb\tc');
});

test('XML', () => expect(escapeXml('<a b="c">&\u0000</a>')).toBe('&lt;a b=&quot;c&quot;&gt;&amp;·&lt;/a&gt;'));

describe('plots', () => {
  const points = [
    { hz: 10, db: -6, deg: 0 },
    { hz: 1000, db: 0, deg: 0 },
  ];

  test('between two points the level is straight over the logarithm', () => {
    expect(levelAt(points, 100)).toBeCloseTo(-3, 12);
    expect([levelAt(points, 10), levelAt(points, 1000)]).toEqual([-6, 0]);
  });

  test('the range holds all levels, or as many decibels as asked for', () => {
    expect(plotRange(points, 60)).toEqual({ top: 6, bottom: -12 });
    expect(plotRange([{ hz: 1, db: -300, deg: 0 }, ...points], 36)).toEqual({ top: 6, bottom: -30 });
  });

  test('marks at 1, 2 and 5 of each decade', () => {
    expect(decadeMarks(20, 2000).map(({ label }) => label)).toEqual(['20', '50', '100', '200', '500', '1k', '2k']);
  });
});

test('long sentences are broken at spaces', () => {
  expect(wrapped('one two three  four', 9)).toEqual(['one two', 'three', 'four']);
  expect(wrapped('unbreakable', 4)).toEqual(['unbreakable']);
  expect(wrapped('', 4)).toEqual([]);
});
