/** The nearest of several words to one that is misspelt, for "did you mean". */
import { append, itemAt } from './collections.js';

/**
 * The candidate nearest to `word`, or `undefined` where none is near. Near means at most a third of the word's length
 * in single edits (a letter added, left out or changed, two neighbours exchanged), at least one and at most three; a difference in case counts
 * least. Of two equally near ones the one with the same first letter wins, then the first in the list.
 *
 * For a question about a short list; many questions about a long one are for `createSpelling`.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const effort = { left: Infinity, comparisons: 0 };
  return closest(queryFor(word), [...candidates].map(entryOf), effort)?.word;
}

/** The only candidate that is a single edit away, or differs in case alone: undefined where there is none, or more than one. */
export function oneEditAway(word: string, candidates: Iterable<string>): string | undefined {
  return onlyNear(queryFor(word), [...candidates].map(entryOf));
}

/** Words among which the nearest to a misspelt one is looked up, again and again. */
export interface Spelling {
  /** Takes one more word. */
  add(word: string): void;
  /** What `nearest` finds among the words so far. Once the effort is spent, only words one edit away are found: no suggestion rather than a slow one. */
  nearest(word: string): string | undefined;
  /** What `oneEditAway` finds among the words so far; nothing for a very long word. */
  oneEditAway(word: string): string | undefined;
  /** How many pairs of words were compared letter by letter. */
  readonly comparisons: number;
}

/** The work that all questions to one `Spelling` may take, counted in words passed over and letters compared: some tenths of a second at most. */
export const spellingEffort = 10_000_000;

/** Longer words are not in the table, where a word has as many variants as letters. */
const longestInTable = 40;

/**
 * Makes an empty list of words. Two words one edit apart have a variant in common, where the variants of a word are itself and what is left when
 * one letter is taken out. So a table of variants finds them at once, however many words there are, and nothing further away can be nearer.
 * Only where it has none are all words of about the same length compared.
 */
export function createSpelling(most = spellingEffort): Spelling {
  const entries: Entry[] = [];
  const byLength = new Map<number, Entry[]>();
  const byVariant = new Map<string, Entry[]>();
  const effort = { left: most, comparisons: 0 };
  let arranged = 0;

  const alike = (letters: readonly string[]): ReadonlySet<Entry> =>
    new Set([...variantsOf(letters)].flatMap((variant) => byVariant.get(variant) ?? []));
  const arrange = (): void => {
    for (const entry of entries.slice(arranged)) {
      arranged += 1;
      append(byLength, entry.lower.length, entry);
      if (entry.lower.length > longestInTable) continue;
      for (const variant of variantsOf(entry.letters)) append(byVariant, variant, entry);
    }
  };

  return {
    get comparisons() {
      return effort.comparisons;
    },
    add: (word) => void entries.push(entryOf(word, entries.length)),
    nearest(word) {
      arrange();
      const asked = queryFor(word);
      if (asked.lower.length < longestInTable) {
        const near = closest({ ...asked, limit: 1 }, alike(asked.letters), { left: Infinity, comparisons: 0 });
        if (near !== undefined) return near.word;
        if (asked.limit === 1) return undefined;
      }
      const { length } = asked.lower;
      const lengths = Array.from({ length: 2 * asked.limit + 1 }, (_, i) => length - asked.limit + i);
      const near = closest(
        asked,
        lengths.flatMap((size) => byLength.get(size) ?? []),
        effort,
      );
      return effort.left > 0 ? near?.word : undefined;
    },
    oneEditAway(word) {
      arrange();
      const asked = queryFor(word);
      return asked.lower.length < longestInTable ? onlyNear(asked, alike(asked.letters)) : undefined;
    },
  };
}

interface Entry {
  readonly word: string;
  readonly lower: string;
  readonly letters: readonly string[];
  /** A bit for each letter that is in it, several letters to a bit. */
  readonly mask: number;
  readonly order: number;
}

interface Query extends Entry {
  /** The most edits that count as near. */
  readonly limit: number;
}

function entryOf(word: string, order: number): Entry {
  const lower = word.toLowerCase();
  const letters = [...lower];
  let mask = 0;
  for (const letter of letters) mask |= 1 << ((letter.codePointAt(0) ?? 0) & 31);
  return { word, lower, letters, mask, order };
}

function queryFor(word: string): Query {
  return { ...entryOf(word, 0), limit: Math.min(3, Math.max(1, Math.floor(Math.max(word.length, 2) / 3))) };
}

/** The nearest of these words, the first of equally near ones; none where the effort comes to its end before. */
function closest(asked: Query, entries: Iterable<Entry>, effort: { left: number; comparisons: number }): Entry | undefined {
  const { word, lower, letters, mask, limit } = asked;
  let best: Entry | undefined;
  let bestScore = Infinity;
  for (const entry of entries) {
    if (--effort.left <= 0) return undefined;
    if (entry.word === word || Math.abs(entry.lower.length - lower.length) > limit) continue;
    // An edit adds a letter at most and takes one away.
    if (bitsIn(mask ^ entry.mask) > 2 * limit) continue;
    effort.comparisons++;
    effort.left -= (2 * limit + 1) * letters.length;
    const distance = editDistance(letters, entry.letters, limit);
    if (distance > limit || (distance > 0 && !keepsEnough(lower, entry.lower, distance))) continue;
    const score = distance + (entry.lower[0] === lower[0] ? 0 : 0.5);
    if (best !== undefined && (score > bestScore || (score === bestScore && entry.order > best.order))) continue;
    best = entry;
    bestScore = score;
  }
  return best;
}

function onlyNear({ word, letters }: Query, entries: Iterable<Entry>): string | undefined {
  const near = new Set<string>();
  for (const entry of entries) {
    if (entry.word === word || Math.abs(entry.letters.length - letters.length) > 1) continue;
    if (editDistance(letters, entry.letters, 1) <= 1) near.add(entry.word);
  }
  const [only, ...others] = near;
  return others.length === 0 ? only : undefined;
}

/** Of a word of one or two letters too little is left once a letter is changed: only a letter more or less, or the other order, counts there. */
function keepsEnough(asked: string, other: string, distance: number): boolean {
  const shorter = Math.min(asked.length, other.length);
  if (distance >= shorter) return false;
  return shorter > 2 || asked.length !== other.length || [...asked].sort().join('') === [...other].sort().join('');
}

/**
 * Optimal string alignment distance: the fewest single edits between two words, an exchange of two neighbours counted as one.
 * R. A. Wagner and M. J. Fischer, "The String-to-String Correction Problem", 1974; the exchange after F. J. Damerau, 1964.
 * Where it is more than `most`, some number above `most`: only the band of the table that `most` edits can reach is worked out
 * (E. Ukkonen, "Algorithms for approximate string matching", 1985).
 */
export function editDistance(from: Iterable<string>, to: Iterable<string>, most = Infinity): number {
  const [a, b] = [[...from], [...to]];
  const reach = Math.min(most, Math.max(a.length, b.length));
  if (Math.abs(a.length - b.length) > reach) return reach + 1;
  // A row holds the columns from `i - reach` to `i + reach`, so that the column above is one further on.
  const width = 2 * reach + 1;
  const emptyRow = (): number[] => new Array<number>(width).fill(Infinity);
  let beforeLast = emptyRow();
  let last = emptyRow().map((_, k) => (k >= reach ? k - reach : Infinity));
  for (let i = 1; i <= a.length; i++) {
    const row = emptyRow();
    let least = Infinity;
    for (let k = Math.max(0, reach - i); k < width && i - reach + k <= b.length; k++) {
      const j = i - reach + k;
      const changed = (last[k] ?? Infinity) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let cost = j === 0 ? i : Math.min((last[k + 1] ?? Infinity) + 1, (row[k - 1] ?? Infinity) + 1, changed);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (beforeLast[k] ?? Infinity) + 1);
      row[k] = cost;
      least = Math.min(least, cost);
    }
    if (least > most) return most + 1;
    [beforeLast, last] = [last, row];
  }
  return itemAt(last, b.length - a.length + reach);
}

/** A word and what is left of it when one letter is taken out. */
function* variantsOf(letters: readonly string[]): Generator<string> {
  const whole = letters.join('');
  yield whole;
  const seen = new Set<string>();
  for (let i = 0; i < letters.length; i++) {
    const variant = letters.slice(0, i).join('') + letters.slice(i + 1).join('');
    if (!seen.has(variant)) yield variant;
    seen.add(variant);
  }
}

function bitsIn(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++;
  return count;
}
