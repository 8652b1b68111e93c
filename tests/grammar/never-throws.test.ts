/** Whatever the text, reading it answers, with every place inside the text and every statement where it stands. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatText, longestText, mostStatements, parseText } from '../../language/grammar/index.js';
import { noise, salad, spoilt } from './arbitrary.js';

const runs = { seed: 20251125, numRuns: 400 };

function check(text: string): void {
  const tree = parseText('memory:/any.lug', text);
  const lines = text.split(/\r\n|\r|\n/);
  for (const { range, message } of tree.problems) {
    expect(message).not.toBe('');
    for (const place of [range.start, range.end]) {
      expect(place.line).toBeLessThan(lines.length);
      expect(place.character).toBeLessThanOrEqual(lines[place.line]!.length);
    }
    expect(range.end.line - range.start.line || range.end.character - range.start.character).toBeGreaterThanOrEqual(0);
  }
  const starts = tree.statements.map(({ line, range }) => line * 1e6 + range.start.character);
  expect(starts).toEqual([...starts].sort((a, b) => a - b));
}

describe('any text', () => {
  it('noise', () => fc.assert(fc.property(noise, check), runs));
  it('words in any order', () => fc.assert(fc.property(salad, check), runs));
  it('circuits with letters changed', () => fc.assert(fc.property(spoilt, check), runs));
});

describe('texts made to hurt', () => {
  const deep = 20_000;
  const texts: [string, string][] = [
    ['brackets', `expect a 1 : sounds ${'series('.repeat(deep)}a${')'.repeat(deep)}`],
    ['open brackets', `expect a 1 : sounds ${'parallel('.repeat(deep)}`],
    ['reversed', `expect a 1 : sounds ${'reversed '.repeat(deep)}a`],
    ['braces', `part a : pot ${'{ '.repeat(deep)}`],
    ['closing braces', '} '.repeat(deep)],
    ['types', `type a : b {\n${'type x : y {\n'.repeat(deep / 10)}`],
    ['open comments', '/* x\n'.repeat(deep)],
    ['comments in one line', '/*'.repeat(deep)],
    ['quotes', '"\n'.repeat(deep)],
    ['a wire of many ends', `wire a${' to b'.repeat(deep / 2)}`],
    ['a wire of too many ends', `wire a${' to b'.repeat(deep)}`],
    ['a long word', `part ${'a'.repeat(deep)} : pot`],
    ['a long hyphenated word', `part ${'a-'.repeat(deep)} : pot`],
    ['a long value', `part a : pot ${'1.'.repeat(deep)}`],
    ['dots', `wire ${'a.'.repeat(deep)}`],
    ['many statements', 'part a : pot\n'.repeat(deep / 4)],
    ['properties', `part a : pot { ${'x 1, '.repeat(deep / 8)} }`],
    ['strays', '§ '.repeat(deep)],
  ];
  it.each(texts)('%s', { timeout: 20_000 }, (_, text) => {
    check(text);
    expect(typeof formatText(text)).toBe('string');
  });

  it('says of a text that is too long that it is', () => {
    const tree = parseText('memory:/long.lug', ' '.repeat(longestText + 1));
    expect(tree.statements).toEqual([]);
    expect(tree.problems.map(({ message }) => message)).toEqual([
      'this text is 1000001 characters long; the limit is 1000000: split it over several files with `use`',
    ]);
  });

  it('reports a text with too many statements, those in types included, and does not change it', () => {
    const types = ['type a : resistor {\n lugs a\n}\n', 'part  a: star\n'];
    const text = types.map((line, i) => line.repeat(mostStatements / (i === 0 ? 4 : 2))).join('');
    expect(parseText('memory:/many.lug', text).problems).toEqual([]);
    const tree = parseText('memory:/many.lug', `${text}part b : star`);
    expect(tree.statements).toEqual([]);
    expect(tree.problems.map(({ message }) => message)).toEqual([
      'this text has 50001 statements; the limit is 50000: split it over several files with `use`',
    ]);
    expect(formatText(`${text}part  b: star`)).toBe(`${text}part  b: star`);
  });

  it('says of a statement with too many words that it has', () => {
    const [problem] = parseText('memory:/long.lug', `wire a${' to a'.repeat(10_000)}`).problems;
    expect(problem!.message).toBe('there are more than 20000 words in this statement');
  });

  it('says of brackets that stand too deep that they do', () => {
    const [problem] = parseText('memory:/deep.lug', `expect a 1 : sounds ${'series('.repeat(60)}a${')'.repeat(60)}`).problems;
    expect(problem!.message).toBe('brackets are nested more than 50 levels deep in this statement');
  });
});
