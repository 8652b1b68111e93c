/** Texts for property tests: from pure noise over word salad to whole circuits with a few letters changed. */
import fc from 'fast-check';
import { bodyWords, joiningWords, statementWords } from '../../language/grammar/index.js';
import { circuits } from './circuits.js';

const words = [
  ...statementWords,
  ...bodyWords,
  ...joiningWords,
  ...[
    'sounds',
    'silent',
    'reads',
    'hum',
    'series',
    'parallel',
    'reversed',
    'screen',
    'wiper',
    'between',
    'open',
    'a',
    'b-c',
    'Тон',
    'A0',
    'R47',
  ],
  ...[
    '6.2k',
    '.022u',
    '3',
    '1a',
    '30%',
    '"x"',
    '"\\""',
    '?',
    '{',
    '}',
    '(',
    ')',
    ',',
    ':',
    '.',
    '|',
    '/',
    '-',
    '"',
    '“x”',
    '§',
    '\u{1F3B8}',
  ],
  ...['//', '/*', '*/', '/**', '\n', '\n', '\n  ', '\r\n', '\t', ' ', '\uFEFF', '\u2028'],
];

/** Words of the language and signs in any order. */
export const salad = fc
  .array(fc.constantFrom(...words), { maxLength: 60 })
  .chain((list) =>
    fc
      .array(fc.constantFrom('', ' ', ' ', ' '), { minLength: list.length, maxLength: list.length })
      .map((gaps) => list.map((w, i) => w + gaps[i]).join('')),
  );

/** One of the circuits with some of its text cut out, doubled or replaced. */
export const spoilt = fc
  .tuple(
    fc.constantFrom(...Object.values(circuits)),
    fc.array(fc.tuple(fc.nat(), fc.nat(12), fc.oneof(fc.constant(''), fc.constantFrom(...words))), {
      minLength: 1,
      maxLength: 4,
    }),
  )
  .map(([text, changes]) =>
    changes.reduce<string>(
      (now, [at, length, put]) => now.slice(0, at % now.length) + put + now.slice((at % now.length) + length) || ' ',
      text,
    ),
  );

/** Any text at all. */
export const noise = fc.oneof(fc.string({ unit: 'binary', maxLength: 80 }), fc.string({ maxLength: 80 }));

/** Well-formed statements laid out anyhow: any gaps, line breaks in braces, comments between. */
export const sound = fc
  .array(fc.constantFrom(...Object.values(circuits).flatMap(blocks)), { minLength: 1, maxLength: 12 })
  .chain((list) =>
    fc.tuple(
      fc.constant(list),
      fc.array(fc.constantFrom('\n', '\n\n\n', '\n// a note\n', '\n/* two\n * lines */\n', '   \n'), {
        minLength: list.length,
        maxLength: list.length,
      }),
      fc.constantFrom('', ' ', '   ', '\t'),
    ),
  )
  .map(([list, gaps, margin]) => list.map((block, i) => margin.repeat(i % 2) + block + gaps[i]).join(''));

/** The statements of a circuit, each with the lines that belong to it. */
function blocks(text: string): string[] {
  return text.split(/\n(?=[a-z/])(?!(?:lugs|part [cr] :))/).filter((block) => !block.startsWith('/') && block.trim() !== '');
}
