/** What two lists of lines have in common, in order: the ground of a merge and of a difference. */

/** More pairs than this are not looked at: what differs is then one stretch. */
const mostPairs = 16_000_000;

/** Pairs of places, in `a` and in `b`, that hold the same: a longest common subsequence. */
export function commonLines(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const { before, after } = commonEnds(a, b);
  const [rows, columns] = [a.length - before - after, b.length - before - after];
  const pairs: [number, number][] = Array.from({ length: before }, (_, at) => [at, at]);
  if (rows * columns <= mostPairs) {
    const width = columns + 1;
    const longest = new Uint32Array((rows + 1) * width);
    const isSame = (i: number, j: number): boolean => a[before + i] === b[before + j];
    const lengthAt = (i: number, j: number): number => longest[i * width + j] ?? 0;
    for (let i = rows - 1; i >= 0; i--)
      for (let j = columns - 1; j >= 0; j--)
        longest[i * width + j] = isSame(i, j) ? lengthAt(i + 1, j + 1) + 1 : Math.max(lengthAt(i + 1, j), lengthAt(i, j + 1));
    for (let [i, j] = [0, 0]; i < rows && j < columns;) {
      if (isSame(i, j)) pairs.push([before + i++, before + j++]);
      else if (lengthAt(i + 1, j) >= lengthAt(i, j + 1)) i++;
      else j++;
    }
  }
  for (let at = after; at > 0; at--) pairs.push([a.length - at, b.length - at]);
  return pairs;
}

/** How many are the same at the beginning and at the end. */
export function commonEnds(a: readonly string[], b: readonly string[]): { readonly before: number; readonly after: number } {
  const least = Math.min(a.length, b.length);
  let [before, after] = [0, 0];
  while (before < least && a[before] === b[before]) before++;
  while (after < least - before && a[a.length - 1 - after] === b[b.length - 1 - after]) after++;
  return { before, after };
}
