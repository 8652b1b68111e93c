/** Coils that hang by one end, against the definition: loose ends taken away one by one, and a walk from each end of each coil. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hangingCoils } from '../../language/checks/facts/wiring/dangling.js';
import { analysed, type AnalysedCircuit, type Circuit, type Element } from '../../language/circuit/model.js';
import type { Nets } from '../../language/electrics/index.js';
import { createWork } from '../../language/work.js';

const most = 9;
const net = fc.integer({ min: 0, max: most - 1 });
const element = fc.record({ kind: fc.constantFrom('coil', 'coil', 'resistor'), a: net, b: net });

interface Edge {
  readonly a: number;
  readonly b: number;
}

const circuitOf = (elements: readonly object[]): AnalysedCircuit =>
  analysed({
    elements: elements.map((one, id) => ({ ...one, id })) as unknown as readonly Element[],
    jacks: [],
  } as unknown as Circuit);
/** Here every lug is a separate net. */
const netsOf = (count: number, tip: number, ground: number): Nets => ({
  count,
  of: Int32Array.from({ length: count }, (_, lug) => lug),
  tip,
  ground,
});

/** Nets that these edges lead to. */
function walk(from: number, edges: readonly Edge[]): ReadonlySet<number> {
  const reached = new Set([from]);
  for (let before = 0; before !== reached.size;) {
    before = reached.size;
    for (const { a, b } of edges) if (reached.has(a) || reached.has(b)) reached.add(a).add(b);
  }
  return reached;
}

test('any network', () => {
  const network = fc.record({ elements: fc.array(element, { maxLength: 14 }), tip: net, ground: net });
  fc.assert(
    fc.property(network, ({ elements, tip, ground }) => {
      const edges: readonly Edge[] = elements.filter(({ a, b }) => a !== b);
      let kept = edges;
      for (let before = -1; before !== kept.length;) {
        before = kept.length;
        const ends = kept.flatMap(({ a, b }) => [a, b]);
        const isLoose = (at: number): boolean => at !== tip && at !== ground && ends.filter((other) => other === at).length === 1;
        kept = kept.filter(({ a, b }) => !isLoose(a) && !isLoose(b));
      }
      const live = walk(
        tip,
        kept.filter(({ a, b }) => a !== ground && b !== ground),
      );
      const stays = new Set([tip, ground, ...kept.flatMap(({ a, b }) => [a, b])]);
      const loose = edges.filter((edge) => !kept.includes(edge));
      const holds = (end: number, coil: Edge): boolean =>
        [
          ...walk(
            end,
            loose.filter((edge) => edge !== coil),
          ),
        ].some((at) => at !== ground && stays.has(at) && live.has(at));
      const expected = elements.flatMap((one, id) => {
        if (one.kind !== 'coil' || !loose.includes(one)) return [];
        if (holds(one.a, one)) return [{ id, held: one.a, free: one.b }];
        return holds(one.b, one) ? [{ id, held: one.b, free: one.a }] : [];
      });
      const found = hangingCoils(circuitOf(elements), netsOf(most, tip, ground));
      expect(found.map(({ coil, held, free }) => ({ id: coil.id, held, free })).sort((a, b) => a.id - b.id)).toEqual(expected);
    }),
    { numRuns: 2000, seed: 3 },
  );
});

test('twice as many hanging coils are twice the work', () => {
  const spent = (coils: number): number => {
    const work = createWork(Infinity);
    const elements = Array.from({ length: coils }, (_, i) => ({ kind: 'coil', a: 0, b: i + 2 }));
    expect(hangingCoils(analysed(circuitOf(elements), { work }), netsOf(coils + 2, 0, 1))).toHaveLength(coils);
    return work.spent;
  };
  expect(spent(400)).toBeLessThan(2.5 * spent(200));
});
