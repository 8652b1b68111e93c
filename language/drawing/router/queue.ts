/** The queue of a search: what is cheapest comes first. */

export interface Queue {
  clear(): void;
  push(state: number, sum: number): void;
  /** The state with the least sum, the latest among equals, which is the one that has come farthest; −1 where there is none. */
  pop(): number;
  /** The sum of what was popped last. */
  least(): number;
}

/** Sums are whole and not far apart, so each has its list; those beyond the last share it. */
const lists = 2 ** 16;

export function createQueue(): Queue {
  const heads = new Int32Array(lists).fill(-1);
  let states = new Int32Array(4096);
  let links = new Int32Array(4096);
  let count = 0;
  let lowest = 0;
  let highest = -1;
  return {
    clear() {
      heads.fill(-1, 0, highest + 1);
      count = 0;
      lowest = 0;
      highest = -1;
    },
    push(state, sum) {
      if (count === states.length) {
        states = larger(states);
        links = larger(links);
      }
      const list = sum < 0 ? 0 : sum >= lists ? lists - 1 : sum;
      states[count] = state;
      links[count] = heads[list] ?? -1;
      heads[list] = count++;
      if (list < lowest) lowest = list;
      if (list > highest) highest = list;
    },
    pop() {
      while (lowest <= highest && (heads[lowest] ?? -1) < 0) lowest += 1;
      if (lowest > highest) return -1;
      const entry = heads[lowest] ?? -1;
      heads[lowest] = links[entry] ?? -1;
      return states[entry] ?? -1;
    },
    least: () => lowest,
  };
}

function larger(values: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const result = new Int32Array(2 * values.length);
  result.set(values);
  return result;
}
