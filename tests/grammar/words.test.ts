/** The words of the language agree with its grammar, colours with IEC 60757, and "did you mean" offers only what is near. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  bodyWords,
  colours,
  innerWords,
  isHeadWord,
  joiningWords,
  nextOf,
  parseColour,
  statementWords,
  tokenize,
  wordsOfClaims,
  type HeadWord,
} from '../../language/grammar/index.js';
import { editDistance, nearest } from '../../language/nearest.js';

describe('words', () => {
  const grammar = readFileSync(new URL('../../language/grammar/lugwork.langium', import.meta.url), 'utf8');
  const uncommented = grammar.replace(/\/\*[^]*?\*\/|\/\/.*/g, '');
  /** What stands right of a rule's name, up to its semicolon that no quotes enclose. */
  const rule = (name: string) => new RegExp(`^${name}:((?:'[^']*'|[^;'])*);`, 'm').exec(uncommented)![1]!;

  it.each([
    ['FileStatement', statementWords],
    ['BodyStatement', bodyWords],
  ])('open exactly the statements of %s in the grammar', (group, words) => {
    const heads = rule(group)
      .match(/\w+/g)!
      .flatMap((name) => /^\s*(?:\w+=)?(\([^)]*\)|'\w+')/.exec(rule(name))![1]!.match(/\w+/g)!);
    expect(heads).toEqual(words);
  });

  it('that join lines are words of the grammar, and so are those of claims', () => {
    const all = new Set(uncommented.match(/(?<=')[a-z]+(?=')/g));
    expect([...joiningWords, ...wordsOfClaims, ...innerWords].filter((word) => !all.has(word))).toEqual([]);
    expect([...all].filter((word) => !isHeadWord(word) && !innerWords.includes(word))).toEqual([]);
  });

  // Worked by hand from the language's contract.
  it.each<[HeadWord, string, string[], string[], boolean]>([
    ['part', 'part', [], ['names'], false],
    ['part', 'part a : pot 250k', ['across', 'from', '{'], ['values'], true],
    ['cavity', 'cavity main depth', [], ['depth'], false],
    ['plate', 'plate top', ['in'], [], false],
    ['wire', 'wire a.1 to b.2', ['.', 'no', 'screen', 'to'], ['options'], true],
    ['expect', 'expect sw', ['.'], ['position'], false],
    ['expect', 'expect : sounds series(a, b)', [','], ['share'], true],
    ['measured', 'measured', [':', 'at', 'between'], ['settings'], false],
    ['rest', 'rest 1', [], [], true],
    ['rest', 'rest 1 2', [], [], false],
  ])('of %s say what follows `%s`', (word, text, words, slots, isWhole) => {
    const next = nextOf(word, tokenize(text));
    expect([...next.words].sort()).toEqual(words);
    expect([...new Set(next.slots.map(({ slot }) => slot))].sort()).toEqual(slots);
    expect(next.isWhole).toBe(isWhole);
  });
});

describe('colours', () => {
  it('bear the letters of IEC 60757, in its order', () => {
    expect(colours.map(({ code }) => code).join(' ')).toBe('BK BN RD OG YE GN BU VT GY WH PK GD TQ SR');
  });

  it('are read by name, by letters, striped, and written together', () => {
    const read = (word: string) => parseColour(word)?.name;
    expect(colours.map(({ name }) => read(name))).toEqual(colours.map(({ name }) => name));
    expect(colours.map(({ code }) => read(code))).toEqual(colours.map(({ name }) => name));
    expect(read('white-red')).toBe('white-red');
    expect(read('WH-RD')).toBe('white-red');
    expect(read('RDBU')).toBe('red-blue');
    expect(read('GNYE')).toBe('green-yellow');
    expect(read('gray')).toBe('grey');
    for (const word of ['mauve', 'white-', 'bk', 'white-red-blue', 'RDXX', '']) expect(read(word), word).toBeUndefined();
  });
});

describe('did you mean', () => {
  const cases: [string, string[], string | undefined][] = [
    ['tob', ['to', 'and'], 'to'],
    ['wrie', ['wire', 'use'], 'wire'],
    ['volum', ['tone', 'volume'], 'volume'],
    ['Bridge', ['bridge', 'ridge'], 'bridge'],
    ['seletcor', ['selector'], 'selector'],
    ['brige', ['ridge', 'bridge'], 'bridge'],
    ['neck', ['bridge', 'tone'], undefined],
    ['A0', ['at'], undefined],
    ['ot', ['to'], 'to'],
    ['x', ['y'], undefined],
    ['', ['a'], undefined],
  ];
  it.each(cases)('%s among %j: %s', (word, candidates, expected) => expect(nearest(word, candidates)).toBe(expected));

  // Worked by hand: letters exchanged, left out, added, changed.
  const distances: [string, string, number][] = [
    ['', 'abc', 3],
    ['wire', 'wire', 0],
    ['wrie', 'wire', 1],
    ['kitten', 'sitting', 3],
    ['ca', 'abc', 3],
  ];
  it.each(distances)('%s and %s are %d edits apart', (a, b, distance) => expect(editDistance(a, b)).toBe(distance));
});
