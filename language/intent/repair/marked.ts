/** Changes put in order with the marks against what they lead to, which are counted no earlier than the order needs them. */

interface Costly {
  readonly cost: number;
}

/** Items by total cost, sorted only as far as they are needed. */
export interface Marked<T extends Costly> {
  /** The item at a place; nothing behind the last. */
  at(index: number): Generator<undefined, T | undefined>;
}

/** Between two steps, so many are marked at most. */
const atOnce = 16;

/**
 * `marks` adds to the cost of an item, and never less than `least`: as long as another one is dearer with that than what is marked, it need not be
 * marked itself. The items come in the order of their costs; of equal ones in all, the earlier stays first.
 */
export function createMarked<T extends Costly>(items: readonly T[], marks: (item: T) => number, least: number): Marked<T> {
  const ordered: T[] = [];
  /** Marked items that are not in order yet, the dearest first. */
  const waiting: { readonly item: T; readonly index: number }[] = [];
  let next = 0;
  const mark = (index: number, item: T): void => {
    const marked = { index, item: { ...item, cost: item.cost + marks(item) } };
    const isBefore = (other: (typeof waiting)[number]): boolean =>
      other.item.cost < marked.item.cost || (other.item.cost === marked.item.cost && other.index < index);
    const place = waiting.findIndex(isBefore);
    waiting.splice(place < 0 ? waiting.length : place, 0, marked);
  };
  return {
    *at(index) {
      while (ordered.length <= index) {
        const item = items[next];
        const cheapest = waiting.at(-1);
        if (item !== undefined && (cheapest === undefined || item.cost + least <= cheapest.item.cost)) {
          if (next % atOnce === atOnce - 1) yield;
          mark(next++, item);
        } else if (cheapest === undefined) return undefined;
        else {
          ordered.push(cheapest.item);
          waiting.pop();
        }
      }
      return ordered[index];
    },
  };
}
