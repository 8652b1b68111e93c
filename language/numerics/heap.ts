/** Numbers from which the least is taken first: a binary heap. */
// The invariant behind the assertions below: a place is one of the heap where it is less than the length.

export interface Heap {
  put(key: number): void;
  /** The least of those that are there, which is taken out; undefined where none is left. */
  take(): number | undefined;
}

export function createHeap(): Heap {
  const heap: number[] = [];
  return {
    put(key) {
      let place = heap.length;
      heap.push(key);
      while (place > 0) {
        const above = (place - 1) >> 1;
        if (heap[above]! <= key) break;
        heap[place] = heap[above]!;
        place = above;
      }
      heap[place] = key;
    },
    take() {
      const least = heap[0];
      const key = heap.pop();
      const { length } = heap;
      if (key === undefined || length === 0) return least;
      let place = 0;
      for (let below = 1; below < length; below = 2 * place + 1) {
        if (below + 1 < length && heap[below + 1]! < heap[below]!) below++;
        if (heap[below]! >= key) break;
        heap[place] = heap[below]!;
        place = below;
      }
      heap[place] = key;
      return least;
    },
  };
}
