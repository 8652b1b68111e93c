/** The nearest of several words to one that is misspelt, for "did you mean". */

/**
 * The candidate nearest to `word`, or `undefined` where none is near. Near means at most a third of the word's length
 * in single edits (a letter added, left out or changed, two neighbours exchanged), at least one and at most three; a difference in case counts
 * least. Of two equally near ones the one with the same first letter wins, then the first in the list.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const asked = word.toLowerCase();
  const limit = Math.min(3, Math.max(1, Math.floor(Math.max(word.length, 2) / 3)));
  let best: string | undefined;
  let bestScore = Infinity;
  for (const candidate of candidates) {
    if (candidate === word) continue;
    const other = candidate.toLowerCase();
    if (Math.abs(other.length - asked.length) > limit) continue;
    const distance = editDistance(asked, other);
    if (distance > limit || (distance > 0 && !keepsEnough(asked, other, distance))) continue;
    const score = distance + (other[0] === asked[0] ? 0 : 0.5);
    if (score < bestScore) {
      best = candidate;
      bestScore = score;
    }
  }
  return best;
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
 */
export function editDistance(a: string, b: string): number {
  const from = [...a];
  const to = [...b];
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const changed = last[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, changed);
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1]) cost = Math.min(cost, beforeLast[j - 2]! + 1);
      row.push(cost);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length]!;
}
