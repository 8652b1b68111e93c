/** Whether a solution meets its equations: the backward error against values worked by hand. */
import { describe, expect, it } from 'vitest';
import { createBackwardError, type BackwardErrors, type Rows, tolerance } from '../../language/numerics/index.js';

type Complex = readonly [number, number];

/** Rows of complex numbers, each by frequency. */
function rowsOf(values: readonly (readonly Complex[])[]): Rows {
  const width = values[0]!.length;
  const part = (i: 0 | 1): Float64Array => Float64Array.from(values.flat(), (value) => value[i]);
  return { re: part(0), im: part(1), width };
}

/** Two equations, of which the matrix is symmetric: value 0 and 1 on the diagonal, 2 beside it. */
const pair = [
  {
    unknown: 0,
    terms: [
      { value: 0, unknown: 0 },
      { value: 2, unknown: 1 },
    ],
  },
  {
    unknown: 1,
    terms: [
      { value: 1, unknown: 1 },
      { value: 2, unknown: 0 },
    ],
  },
];

/** (2 + j)·x − y and −x + 2y, with x and y by frequency. */
function measure(xs: readonly Complex[], ys: readonly Complex[], probe: { plus: number; minus: number }): BackwardErrors {
  const always = (value: Complex): readonly Complex[] => xs.map(() => value);
  const rows = rowsOf([always([2, 1]), always([2, 0]), always([-1, 0]), xs, ys]);
  return createBackwardError({ equations: pair }).measure(rows, { matrix: 0, x: 3 }, probe);
}

// By Cramer's rule: (2 + j)·x − y = 1 and −x + 2y = −1 have the determinant 3 + 2j, x = (3 − 2j)/13 and y = (−5 − j)/13.
const x: Complex = [3 / 13, -2 / 13];
const y: Complex = [-5 / 13, -1 / 13];

describe('the backward error', () => {
  it('of a solution is nothing but rounding', () => {
    const { error } = measure([x], [y], { plus: 0, minus: 1 });
    expect(error[0]).toBeLessThan(1e-15);
    expect(error[0]).toBeLessThan(tolerance);
  });

  // Sizes are |re| + |im|. The terms of the first equation are 3·5/13, 6/13 and b, of the second 2·6/13, 5/13 and b.
  it.each([
    // b is −1 and 1: each equation is off by 2, of 34/13 and of 30/13.
    [1, 0, 13 / 15, 1],
    // b is 1 and 0: the second is off by 1 of 17/13.
    [0, -1, 13 / 17, 1],
    // b is 0 and 1: the first is off by 1 of 21/13, the second by 2 of 30/13.
    [1, -1, 13 / 15, 1],
    // b is 0 and −1: the first is off by 1 of 21/13, the second is met.
    [-1, 1, 13 / 21, 0],
    // b is 0 in both: off by 1 of 21/13 and of 17/13.
    [-1, -1, 13 / 17, 1],
  ])('of the same for one volt between %i and %i is %f, in equation %i', (plus, minus, expected, equation) => {
    const { error, worst } = measure([x], [y], { plus, minus });
    expect(error[0]).toBeCloseTo(expected, 14);
    expect(worst[0]).toBe(equation);
  });

  it('counts all terms of an equation, each frequency by itself', () => {
    // x off by 0.1: the first equation is off by 0.1·(2 + j), 0.3 in size, of 34/13 + 0.3. By 0.1j it is off by −0.1 + 0.2j, of 34/13 − 0.3.
    const off: readonly Complex[] = [[x[0] + 0.1, x[1]], x, [x[0], x[1] + 0.1]];
    const { error, worst } = measure(off, [y, y, y], { plus: 0, minus: 1 });
    expect(error[0]).toBeCloseTo(39 / 379, 14);
    expect(error[1]).toBeLessThan(1e-15);
    expect(error[2]).toBeCloseTo(39 / 301, 14);
    expect([worst[0], worst[2]]).toEqual([0, 0]);
  });

  it('of an equation with three terms', () => {
    const equations = [{ unknown: 0, terms: [0, 1, 2].map((value) => ({ value, unknown: value })) }];
    // 1·1 + 2·(−3) + 5·1.25 is 1.25 in place of 0, of 1 + 6 + 6.25.
    const rows = rowsOf([[[1, 0]], [[2, 0]], [[5, 0]], [[1, 0]], [[-3, 0]], [[1.25, 0]]]);
    const { error } = createBackwardError({ equations }).measure(rows, { matrix: 0, x: 3 }, { plus: -1, minus: -1 });
    expect(error[0]).toBeCloseTo(5 / 53, 14);
  });

  // x is multiplied by 2 + j, 3 in size, and the terms are 34/13: what is off by x is 3·13/34 of itself.
  it.each([
    [0, 0.3, true],
    [1, 0.3, true],
    [0, 2, false],
    [1, 2, false],
  ] as const)('part %i of x off by %f of what the tolerance allows passes: %s', (part, share, passes) => {
    const off: [number, number] = [...x];
    off[part] += (share * tolerance * (34 / 13)) / 3;
    const { error } = measure([off], [y], { plus: 0, minus: 1 });
    expect(error[0]! <= tolerance).toBe(passes);
  });

  it('is 0 for an equation without terms, and 1 for one volt that nothing meets', () => {
    const nothing: readonly Complex[] = [[0, 0]];
    const rows = rowsOf([nothing, nothing, nothing, [[4, 1]], [[-2, 3]]]);
    const backwardError = createBackwardError({ equations: pair });
    const without = backwardError.measure(rows, { matrix: 0, x: 3 }, { plus: -1, minus: -1 });
    expect([...without.error, ...without.worst]).toEqual([0, -1]);
    const volt = backwardError.measure(rows, { matrix: 0, x: 3 }, { plus: 1, minus: -1 });
    expect([...volt.error, ...volt.worst]).toEqual([1, 1]);
  });

  it('is Infinity for what is not a number, whatever the later equations are off by', () => {
    const { error, worst } = measure([[NaN, 0], x], [y, y], { plus: 0, minus: 1 });
    expect(error[0]).toBe(Infinity);
    expect(worst[0]).toBe(0);
    expect(error[1]).toBeLessThan(1e-15);
  });
});
