/** The nearest name to a mistyped one, and lists of names in a sentence. */

/** The candidate that takes the fewest slips of the keyboard, `undefined` where none is near enough to be meant. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  const bound = Math.max(1, Math.ceil(wanted.length / 3));
  let best: string | undefined;
  let least = bound + 1;
  for (const candidate of candidates) {
    const slips = slipsBetween(wanted, candidate.toLowerCase(), least);
    if (slips < least) {
      least = slips;
      best = candidate;
    }
  }
  return best;
}

/** `A0 A1 A2 …`: the names of a list, the first thirty of them. */
export function listed(names: readonly string[]): string {
  return names.length > 30 ? `${names.slice(0, 30).join(' ')} …` : names.join(' ');
}

/** `a, b and c`. */
export function joined(names: readonly string[], last = 'and'): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} ${last} ${names[names.length - 1]}`;
}

/** Damerau's distance (a letter wrong, missing, too many, or two exchanged), given up where it reaches `limit`. */
function slipsBetween(a: string, b: string, limit: number): number {
  if (a === b) return 0;
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    let smallest = row;
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1];
      let slips = Math.min(previous[column]! + 1, current[column - 1]! + 1, previous[column - 1]! + (same ? 0 : 1));
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        slips = Math.min(slips, before[column - 2]! + 1);
      }
      current.push(slips);
      smallest = Math.min(smallest, slips);
    }
    if (smallest >= limit) return limit;
    before = previous;
    previous = current;
  }
  return previous[b.length]!;
}
