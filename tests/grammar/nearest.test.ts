/** Words looked up in a long list: the same answers as the plain definition, worked out here by its recurrence, and how much work they take. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSpelling, editDistance, nearest, oneEditAway, spellingEffort } from '../../language/nearest.js';

/** The fewest edits between the words' first letters, from the definition alone: Damerau 1964, each pair of neighbours exchanged at most once. */
function plainDistance(a: readonly string[], b: readonly string[]): number {
  const known = new Map<string, number>();
  const between = (i: number, j: number): number => {
    if (i === 0 || j === 0) return i + j;
    const key = `${i} ${j}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const ways = [between(i - 1, j) + 1, between(i, j - 1) + 1, between(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1)];
    if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) ways.push(between(i - 2, j - 2) + 1);
    known.set(key, Math.min(...ways));
    return known.get(key)!;
  };
  return between(a.length, b.length);
}

/** What the docstring of `nearest` says, word for word. */
function plainNearest(word: string, candidates: readonly string[]): string | undefined {
  const asked = word.toLowerCase();
  const limit = Math.min(3, Math.max(1, Math.floor(Math.max(word.length, 2) / 3)));
  const scored = candidates
    .filter((candidate) => candidate !== word)
    .map((candidate) => {
      const other = candidate.toLowerCase();
      const distance = plainDistance([...asked], [...other]);
      const shorter = Math.min(asked.length, other.length);
      const isReordered = [...asked].sort().join('') === [...other].sort().join('');
      const isKept = distance === 0 || (distance < shorter && (shorter > 2 || asked.length !== other.length || isReordered));
      const isNear = distance <= limit && Math.abs(asked.length - other.length) <= limit && isKept;
      return { candidate, score: isNear ? distance + (other[0] === asked[0] ? 0 : 0.5) : Infinity };
    });
  const least = Math.min(...scored.map(({ score }) => score));
  return least === Infinity ? undefined : scored.find(({ score }) => score === least)!.candidate;
}

/** Few different letters, so that many words are near one another; letters beyond the first plane of Unicode, and of both cases. */
const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c', 'A', '1', '-', 'é', '𝒂'), maxLength: 12 });

describe('the nearest word', () => {
  test('is the only one an edit away where the plain distance of no other word is one at most', () => {
    fc.assert(
      fc.property(word, fc.array(word, { maxLength: 20 }), (asked, words) => {
        const distance = (other: string) => plainDistance([...asked.toLowerCase()], [...other.toLowerCase()]);
        const near = new Set(words.filter((other) => other !== asked && distance(other) <= 1));
        const expected = near.size === 1 ? [...near][0] : undefined;
        expect(oneEditAway(asked, words)).toBe(expected);
        const spelling = createSpelling();
        for (const one of words) spelling.add(one);
        expect(spelling.oneEditAway(asked)).toBe(expected);
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  test('is that of the plain definition', () => {
    fc.assert(
      fc.property(word, fc.array(word, { maxLength: 20 }), (asked, words) => {
        const expected = plainNearest(asked, words);
        expect(nearest(asked, words)).toBe(expected);
        const spelling = createSpelling();
        for (const one of words) spelling.add(one);
        expect(spelling.nearest(asked)).toBe(expected);
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  test('of a long word, and one added between two questions', () => {
    const long = 'x'.repeat(60);
    const spelling = createSpelling();
    spelling.add(`${long}yy`);
    expect(spelling.nearest(long)).toBe(`${long}yy`);
    spelling.add(`${long}y`);
    expect(spelling.nearest(long)).toBe(`${long}y`);
  });

  test('is at a distance that is worked out only as far as asked', () => {
    fc.assert(
      fc.property(word, word, fc.integer({ min: 1, max: 4 }), (a, b, most) => {
        const expected = plainDistance([...a], [...b]);
        expect(editDistance(a, b)).toBe(expected);
        const bounded = editDistance(a, b, most);
        expect(Math.min(bounded, most + 1)).toBe(Math.min(expected, most + 1));
      }),
      { seed: 7, numRuns: 2000 },
    );
  });
});

describe('the work', () => {
  const names = Array.from({ length: 2000 }, (_, n) => `tone${10_000 + n}`);
  const listed = (effort?: number) => {
    const spelling = createSpelling(effort);
    for (const name of names) spelling.add(name);
    return spelling;
  };

  test('for words one edit away compares none, however many words there are', () => {
    const spelling = listed();
    for (const name of names) expect(spelling.nearest(`${name.slice(0, 2)}m${name.slice(3)}`)).toBe(name);
    expect(spelling.comparisons).toBe(0);
  });

  test('ends with the effort: no suggestion then, but of words one edit away', () => {
    const spelling = listed(300_000);
    expect(spelling.nearest('ttoone10007')).toBe('tone10007');
    for (let n = 0; n < 100; n++) spelling.nearest(`ttoone1${n}7`);
    const spent = spelling.comparisons;
    expect(spelling.nearest('ttoone10007')).toBeUndefined();
    expect(spelling.nearest('tone1000')).toBe('tone10000');
    for (let n = 0; n < 1000; n++) spelling.nearest(`ttoone1${n}7`);
    expect(spelling.comparisons).toBe(spent);
    // A comparison of a word of seven letters or more counts as many letters at least.
    expect(spent * 7).toBeLessThan(300_000);
    expect(spellingEffort).toBeGreaterThan(300_000);
  });
});
