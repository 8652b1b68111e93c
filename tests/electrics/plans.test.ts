/** Inner steps that the answers do not show when they go wrong, since a slower way then stands in: elimination plans, folded bridges, shares of a current. */
import { describe, expect, it } from 'vitest';
import { type ElementId, elementId } from '../../language/circuit/model.js';
import { partitionSwitches } from '../../language/electrics/settings/switch-groups.js';
import { unloadedTransfers } from '../../language/electrics/sound/unloaded-coils.js';
import type { Expression } from '../../language/electrics/sound/expression.js';
import { type Edge, reduce } from '../../language/electrics/sound/reduce.js';
import { createEntries, createFronts, createPlan, resistanceBetween } from '../../language/numerics/index.js';
import { circuit } from './builder.js';
import fc from 'fast-check';

describe('a plan of fronts', () => {
  it('eliminates each unknown once, the last one last, and hands on to later steps alone', () => {
    const graphs = fc.integer({ min: 2, max: 14 }).chain((size) =>
      fc.record({
        size: fc.constant(size),
        last: fc.nat(size - 1),
        pairs: fc.array(fc.tuple(fc.integer({ min: -1, max: size - 1 }), fc.nat(size - 1)), { maxLength: 30 }),
      }),
    );
    fc.assert(
      fc.property(graphs, ({ size, last, pairs }) => {
        const { order, of } = createFronts(size, pairs, last);
        const unknowns = Array.from({ length: size }, (_, i) => i);
        expect(order.map(({ step }) => step)).toEqual(unknowns);
        expect(order.map(({ unknown }) => unknown).sort((a, b) => a - b)).toEqual(unknowns);
        expect(of.map(({ unknown }) => unknown)).toEqual(unknowns);
        expect(of[last]!.step).toBe(size - 1);
        for (const { step, rest, parent, children, places } of order) {
          for (const later of rest) expect(later.step).toBeGreaterThan(step);
          expect(parent?.step).toBe(rest.length === 0 ? undefined : Math.min(...rest.map((later) => later.step)));
          for (const child of children) expect(child.parent?.step).toBe(step);
          // Every later front is found again in the front of the parent, at the place that is said.
          expect(places.map((place) => [parent, ...(parent?.rest ?? [])][place])).toEqual(rest);
        }
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

describe('a plan of the sparse elimination', () => {
  it('takes the unknown with the fewest neighbours, the first of several; late ones behind all others, the last one last', () => {
    const graphs = fc.integer({ min: 1, max: 20 }).chain((size) =>
      fc.record({
        size: fc.constant(size),
        last: fc.nat(size - 1),
        late: fc.array(fc.nat(size - 1), { maxLength: 4 }),
        pairs: fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 50 }),
      }),
    );
    fc.assert(
      fc.property(graphs, ({ size, last, late, pairs }) => {
        const entries = createEntries();
        const beside = Array.from({ length: size }, () => new Set<number>());
        for (const [a, b] of pairs) {
          if (a === b) continue;
          entries.add(a, b, -1);
          entries.add(b, a, -1);
          beside[a]!.add(b);
          beside[b]!.add(a);
        }
        const equations = { size, isSymmetric: true, entries, admittances: [], late: new Set(late), evaluate: () => undefined };
        const left = new Set(beside.keys());
        for (const { pivot, neighbours } of createPlan(equations, last).steps) {
          const weigh = (one: number): number => (one === last ? Infinity : beside[one]!.size + (late.includes(one) ? size : 0));
          const least = Math.min(...[...left].map(weigh));
          expect(pivot).toBe([...left].find((one) => weigh(one) === least));
          const met = [...beside[pivot]!].sort((a, b) => a - b);
          expect(neighbours.map(({ unknown }) => unknown).sort((a, b) => a - b)).toEqual(met);
          left.delete(pivot);
          for (const one of met) {
            beside[one]!.delete(pivot);
            for (const other of met) if (other !== one) beside[one]!.add(other);
          }
        }
        expect(left.size).toBe(0);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

describe('a bridge that is not series and parallel', () => {
  const coil = (from: number, to: number, id: number): Edge => ({
    from,
    to,
    expression: { kind: 'coil', coil: elementId(id), sign: 1 },
    re: 0,
    im: 0,
  });
  const written = (of: Expression): string =>
    of.kind === 'coil'
      ? String(of.coil)
      : of.kind === 'stage'
        ? 'stage'
        : `${of.kind}(${of.members.map(written).sort().join(' ')})`;

  // An ohm beside coils of 7.5 k is a joint: node 2 becomes the source, so coils 2 and 3 lie side by side before coil 4, and coil 1 beside all.
  it.each([
    ['from the source', 0, 2],
    ['to the source', 2, 0],
  ])('takes an ohm %s for a joint', (_, from, to) => {
    const ohm: Edge = { from, to, expression: undefined, re: 1, im: 0 };
    const edges = [ohm, coil(2, 1, 1), coil(2, 3, 2), coil(0, 3, 3), coil(3, 1, 4)];
    const found = reduce(4, edges, 0, 1, [7500, 7500, 7500, 7500]);
    expect(found.kind === 'arrangement' ? written(found.expression) : found.kind).toBe('parallel(1 series(4 parallel(2 3)))');
  });

  // The picture turned round: node 2 becomes the target, where coils 2 and 3 end side by side behind coil 4.
  it.each([
    ['from the target', 1, 2],
    ['to the target', 2, 1],
  ])('takes an ohm %s for a joint', (_, from, to) => {
    const ohm: Edge = { from, to, expression: undefined, re: 1, im: 0 };
    const edges = [ohm, coil(0, 2, 1), coil(3, 2, 2), coil(3, 1, 3), coil(0, 3, 4)];
    const found = reduce(4, edges, 0, 1, [7500, 7500, 7500, 7500]);
    expect(found.kind === 'arrangement' ? written(found.expression) : found.kind).toBe('parallel(1 series(4 parallel(2 3)))');
  });
});

it('shares of the meter’s current: 1 Ω beside 3 Ω carry three quarters and one, and what follows them all of it', () => {
  const conductors = { from: [0, 0, 1], to: [1, 1, 2], siemens: [1, 1 / 3, 1 / 0.25] };
  const { ohm, shares } = resistanceBetween(3, conductors, 0, 2);
  expect(ohm).toBeCloseTo(1, 12);
  [0.75, 0.25, 1].forEach((share, i) => expect(shares[i]).toBeCloseTo(share, 12));
});

it('bare coils in parallel each bring the share of their admittance: 1 Ω beside 3 Ω three quarters and one', () => {
  const made = circuit().single('a', { ohm: 1, henry: 0 }).single('b', { ohm: 3, henry: 0 }).build();
  const [a, b] = made.elements.map(({ id }) => id) as [ElementId, ElementId];
  const members: Expression[] = [a, b].map((coil) => ({ kind: 'coil', coil, sign: 1 }));
  const transfers = unloadedTransfers(made, { kind: 'parallel', members, sign: 1 }, 100);
  expect(transfers.get(a)).toBeCloseTo(0.75, 12);
  expect(transfers.get(b)).toBeCloseTo(0.25, 12);
});

describe('switches taken apart', () => {
  const groupsOf = (b: ReturnType<typeof circuit>, limit: number): string[] => {
    const made = b.build();
    return partitionSwitches(made, made.switches, limit)
      .map((group) => group.map(({ name }) => name).join(' '))
      .sort();
  };
  const two = { 1: ['A0 A1'], 2: ['A0 A2'] };

  it('what meets on ground alone stands apart', () => {
    const b = circuit().single('p1').single('p2').switch('s1', two).switch('s2', two);
    for (const i of [1, 2]) b.wire(`p${i}.hot`, `s${i}.A1`).wire(`p${i}.ground`, `s${i}.A0`, 'output.sleeve');
    expect(groupsOf(b, 16)).toEqual(['s1', 's2']);
  });

  it('what meets on a net, through a part or at a wiper stays together', () => {
    const b = circuit().single('p').pot('v').switch('s1', two).switch('s2', two).switch('s3', two).switch('s4', two);
    b.wire('p.hot', 's1.A1').wire('p.ground', 's2.A1').wire('v.2', 's2.A2').wire('v.3', 's3.A1').wire('v.1', 'output.sleeve');
    expect(groupsOf(b, 16)).toEqual(['s1 s2 s3', 's4']);
  });

  it('cut where the limit is less than the group: eight settings for three switches, each of the others by itself', () => {
    const b = circuit();
    for (let i = 1; i <= 5; i++) b.switch(`s${i}`, two).wire(`s${i}.A0`, i === 1 ? 'output.tip' : `s${i - 1}.A0`);
    // Five of two positions take one setting more each, so that 8 of 13 are left for combinations.
    expect(groupsOf(b, 13)).toEqual(['s1 s2 s3', 's4', 's5']);
    expect(groupsOf(b, 12)).toEqual(['s1 s2', 's3', 's4', 's5']);
  });
});
