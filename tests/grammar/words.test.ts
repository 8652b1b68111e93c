/** The words of the language agree with its grammar, colours with IEC 60757, and "did you mean" offers only what is near. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bodyWords, colours, parseColour, statementWords } from '../../language/grammar/index.js';
import { editDistance, nearest } from '../../language/nearest.js';

describe('words', () => {
  it('open exactly the statements of the grammar', () => {
    const grammar = readFileSync(new URL('../../language/grammar/lugwork.langium', import.meta.url), 'utf8');
    const rules = /entry Statement:([^;]+);/.exec(grammar)![1]!.match(/\w+/g)!;
    const heads = rules.flatMap((rule) => {
      const start = new RegExp(`^${rule}: (?:\\w+=)?(\\('[^)]*\\)|'\\w+')`, 'm').exec(grammar)![1]!;
      return start.match(/\w+/g)!;
    });
    expect(heads.sort()).toEqual([...new Set<string>([...statementWords, ...bodyWords])].sort());
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
