/** The order by costs with marks, against sorting all of them. */
import { expect, test } from 'vitest';
import { createMarked } from '../../language/intent/repair/marked.js';
import { createRandom } from '../harness/random.js';

function all<T>(steps: Generator<undefined, T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

const random = createRandom('marked', 1);
/** Tenths, so that many are equal. */
const tenths = (most: number): number => Math.floor(random() * 10 * most) / 10;

test.each([0, 1, 40, 200])('of %i items', (count) => {
  const items = Array.from({ length: count }, (_, id) => ({ id, cost: tenths(4), mark: tenths(3) - 1 }));
  const cheapest = [...items].sort((a, b) => a.cost - b.cost);
  const expected = cheapest.map((item) => ({ ...item, cost: item.cost + item.mark })).sort((a, b) => a.cost - b.cost);
  const marked = createMarked(cheapest, ({ mark }) => mark, -1);
  expect(Array.from({ length: count + 1 }, (_, index) => all(marked.at(index)))).toEqual([...expected, undefined]);
});

test('the first of them without marks for those that can be no cheaper', () => {
  let looked = 0;
  const items = Array.from({ length: 100 }, (_, id) => ({ cost: id }));
  const marks = (): number => {
    looked++;
    return 0.5;
  };
  const marked = createMarked(items, marks, -1);
  expect(all(marked.at(0))).toEqual({ cost: 0.5 });
  expect(looked).toBeLessThan(4);
});
