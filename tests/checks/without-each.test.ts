/** Sets with each batch of links left out, against the definition: all other links joined again for each batch. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createForest, join, type Link, rootOf, withoutEach } from '../../language/numerics/index.js';

const most = 8;
const links = fc.array(fc.tuple(fc.nat(most - 1), fc.nat(most - 1)), { maxLength: 4 });

test('any links, each batch left out', () => {
  fc.assert(
    fc.property(links, fc.array(links, { maxLength: 9 }), (always, batches) => {
      const visited: number[] = [];
      withoutEach(most, always, batches, (left, root) => {
        visited.push(left);
        const forest = createForest(most);
        for (const [a, b] of [...always, ...batches.filter((_, i) => i !== left).flat()]) join(forest, a, b);
        for (let a = 0; a < most; a++)
          for (let b = 0; b < most; b++) expect(root(a) === root(b)).toBe(rootOf(forest, a) === rootOf(forest, b));
      });
      expect(visited).toEqual([...batches.keys()]);
    }),
    { numRuns: 1000, seed: 5 },
  );
});

test('each link is joined as often as the batches can be halved, not once for each batch', () => {
  let joined = 0;
  const batches = Array.from({ length: 256 }, (_, i) => ({
    *[Symbol.iterator](): Iterator<Link> {
      joined++;
      yield [i, i + 1];
    },
  }));
  withoutEach(257, [], batches, () => undefined);
  expect(joined).toBe(256 * 8);
});
