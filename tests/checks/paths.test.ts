/** What leads to the tip with one element left out, held against the plain way: from the tip along all other elements, again for each. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reachedWithout } from '../../language/checks/facts/signal/paths.js';
import { analysed, type Circuit, type Element } from '../../language/circuit/model.js';
import type { Nets } from '../../language/electrics/index.js';

const most = 9;
const net = fc.integer({ min: 0, max: most - 1 });
const element = fc.oneof(
  fc.record({ kind: fc.constant('resistor'), a: net, b: net }),
  fc.record({ kind: fc.constant('track'), a: net, wiper: net, b: net }),
  fc.record({ kind: fc.constant('gain'), a: net, b: net, plus: net, minus: net }),
);

test('any network, any element left out', () => {
  const network = fc.record({
    elements: fc.array(element, { maxLength: 14 }),
    tip: fc.integer({ min: -1, max: most - 1 }),
    ground: net,
  });
  fc.assert(
    fc.property(network, ({ elements, tip, ground }) => {
      const circuit = analysed({
        elements: elements.map((one, id) => ({ ...one, id })) as unknown as readonly Element[],
      } as Circuit);
      // Every lug is a net of its own here.
      const folded: Nets = { count: most, of: Int32Array.from({ length: most }, (_, lug) => lug), tip, ground };
      const ends = elements.map((one) =>
        Object.values(one).filter((lug): lug is number => typeof lug === 'number' && lug !== ground),
      );
      for (const out of [undefined, ...circuit.elements.map(({ id }) => id)]) {
        const reached = new Set(tip < 0 || tip === ground ? [] : [tip]);
        for (let before = -1; before !== reached.size;) {
          before = reached.size;
          ends.forEach((own, id) => {
            if (id !== out && own.some((lug) => reached.has(lug))) for (const lug of own) reached.add(lug);
          });
        }
        const is = reachedWithout(circuit, folded, out);
        for (let at = 0; at < most; at++) expect(is(at)).toBe(reached.has(at));
      }
    }),
    { numRuns: 2000, seed: 17 },
  );
});
