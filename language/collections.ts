/** Lists and maps read without claiming what may not be there: groups, neighbours, and reads that say what is missing. */

/** What a map keeps for a key that was put into it. A key that was not is a bug, and throws. */
export function valueFor<K, V>(map: { get(key: K): V | undefined }, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`Nothing is kept for ${String(key)}`);
  return value;
}

/** The item at a position that was counted in this very list. Any other position is a bug, and throws. */
export function itemAt<T>(items: readonly T[], index: number): T {
  const item = items[index];
  if (item === undefined) throw new Error(`A list of ${items.length} has no item ${index}`);
  return item;
}

/** The first item of a list that is never empty. */
export function firstOf<T>(items: readonly T[]): T {
  return itemAt(items, 0);
}

/** The last item of a list that is never empty. */
export function lastOf<T>(items: readonly T[]): T {
  return itemAt(items, items.length - 1);
}

/** Each item with the one behind it: `[a, b]`, `[b, c]`, … */
export function pairwise<T>(items: readonly T[]): (readonly [T, T])[] {
  const pairs: (readonly [T, T])[] = [];
  let before: T | undefined;
  for (const item of items) {
    if (before !== undefined) pairs.push([before, item]);
    before = item;
  }
  return pairs;
}

/** Items by a key, keys and items in the order in which they came. */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) append(groups, keyOf(item), item);
  return groups;
}

/** Takes out what was put in first, while there are more than so many. */
export function forgetOldest(kept: Map<unknown, unknown>, most: number): void {
  for (const key of kept.keys()) {
    if (kept.size <= most) return;
    kept.delete(key);
  }
}

/** Adds a value to the list that a map keeps for a key. */
export function append<K, V>(lists: Map<K, V[]>, key: K, value: V): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [value]);
  else list.push(value);
}

/** What a map keeps for a key; where that is nothing yet, it is made and kept. */
export function getOrCreate<K, V>(map: Map<K, V>, key: K, create: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const created = create();
  map.set(key, created);
  return created;
}
