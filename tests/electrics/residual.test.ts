/** Whether a solution meets its equations: the quick bound and the exact look, against their definition written out plainly. */
import { describe, expect, it } from 'vitest';
import { boundError, isSolved, type Plan, type Rows, tolerance } from '../../language/numerics/index.js';

interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Four unknowns of which each row has one, two or three neighbours; numbers without order, the same each time. */
const size = 4;
const joined = [
  [0, 1],
  [1, 2],
  [1, 3],
  [2, 3],
] as const;
const count = 3;
const values = size + joined.length;
const plan = {
  size,
  diagonal: Int32Array.of(0, 1, 2, 3),
  valuesOfRow: [0, 1, 2, 3].map((row) => joined.flatMap(([a, b], i) => (a === row || b === row ? [size + i] : []))),
  columnsOfRow: [0, 1, 2, 3].map((row) => joined.flatMap(([a, b]) => (a === row ? [b] : b === row ? [a] : []))),
} as unknown as Plan;

function rows(length: number, from: number): Rows {
  const number = (i: number): number => Math.sin(1 + i * 2.7) * 10 ** (i % 3);
  return {
    re: Float64Array.from({ length }, (_, i) => number(from + i)),
    im: Float64Array.from({ length }, (_, i) => number(from + 100 + i)),
  };
}

const at = ({ re, im }: Rows, value: number, f: number): Complex => ({ re: re[value * count + f]!, im: im[value * count + f]! });
const size1 = ({ re, im }: Complex): number => Math.abs(re) + Math.abs(im);

/** Of each row the residual of A·x − b, the size of its diagonal term with b, and the size of all its terms (Oettli and Prager, 1964), in the sum norm. */
function plainly(a: Rows, x: Rows, plus: number, minus: number, f: number): { off: number; own: number; all: number }[] {
  return [0, 1, 2, 3].map((row) => {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    const terms = [[row, row] as const, ...joined].flatMap(([p, q], i) => {
      if (i === 0) return [{ m: at(a, row, f), y: at(x, row, f) }];
      const other = p === row ? q : q === row ? p : undefined;
      return other === undefined ? [] : [{ m: at(a, size + i - 1, f), y: at(x, other, f) }];
    });
    const re = terms.reduce((sum, { m, y }) => sum + m.re * y.re - m.im * y.im, -b);
    const im = terms.reduce((sum, { m, y }) => sum + m.re * y.im + m.im * y.re, 0);
    const sizes = terms.map(({ m, y }) => size1(m) * size1(y));
    return { off: size1({ re, im }), own: Math.abs(b) + sizes[0]!, all: sizes.reduce((sum, one) => sum + one, Math.abs(b)) };
  });
}

describe('the quick bound', () => {
  // The rows that b stands in have each number of neighbours once.
  it.each([
    [0, 1],
    [1, 3],
    [2, 0],
    [3, -1],
  ])('is the largest residual of a row beside its diagonal term: one volt between %i and %i', (plus, minus) => {
    const [a, x] = [rows(values * count, 0), rows(size * count, 50)];
    const error = new Float64Array(count);
    boundError(plan, a, x, plus, minus, error, count);
    for (let f = 0; f < count; f++) {
      const expected = Math.max(...plainly(a, x, plus, minus, f).map(({ off, own }) => off / own));
      expect(error[f]! / expected).toBeCloseTo(1, 12);
    }
  });

  it('a row of nothing is right, and what is no number is the worst of all', () => {
    const nothing: Rows = { re: new Float64Array(values * count), im: new Float64Array(values * count) };
    const error = new Float64Array(count);
    boundError(plan, nothing, rows(size * count, 50), -1, -1, error, count);
    expect([...error]).toEqual([0, 0, 0]);
    const x = rows(size * count, 50);
    x.re[0] = NaN;
    boundError(plan, rows(values * count, 0), x, 0, -1, error, count);
    expect(error[0]).toBe(Infinity);
  });
});

describe('the exact look', () => {
  // By Cramer's rule: (2 + j)·x − y = 1 and −x + 2y = −1 have the determinant 3 + 2j, x = (3 − 2j)/13 and y = (−5 − j)/13.
  const pair = { size: 2, diagonal: Int32Array.of(0, 1), valuesOfRow: [[2], [2]], columnsOfRow: [[1], [0]] } as unknown as Plan;
  const a: Rows = { re: Float64Array.of(2, 2, -1), im: Float64Array.of(1, 0, 0) };
  const solution = (): Rows => ({ re: Float64Array.of(3 / 13, -5 / 13), im: Float64Array.of(-2 / 13, -1 / 13) });

  it('passes a solution, and not the same one for other right-hand sides', () => {
    expect(isSolved(pair, a, solution(), 0, 1, 1, 0)).toBe(true);
    for (const [plus, minus] of [
      [1, 0],
      [0, -1],
      [-1, 1],
      [-1, -1],
    ] as const)
      expect(isSolved(pair, a, solution(), plus, minus, 1, 0), `${plus} ${minus}`).toBe(false);
  });

  // The terms of the first row are 1, 3·5/13 and 6/13: 34/13 in all. x is multiplied by 2 + j, whose sum norm is at most 3.
  it.each([
    ['re', 0.3, true],
    ['im', 0.3, true],
    ['re', 2, false],
    ['im', 2, false],
  ] as const)('%s of x off by %f of what is allowed: %s', (side, share, passes) => {
    const x = solution();
    x[side][0]! += (share * tolerance * (34 / 13)) / 3;
    expect(isSolved(pair, a, x, 0, 1, 1, 0)).toBe(passes);
  });
});
