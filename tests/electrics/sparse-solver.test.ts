/** Equations solved by a plan: closed forms, pivoting where the plan meets nothing, and solutions that stay what they were. */
import { describe, expect, it } from 'vitest';
import {
  createEntries,
  createPlan,
  createSparseSolver,
  currentThrough,
  type Equations,
  type Probe,
  rowOf,
  type Solution,
  type SparseSolver,
} from '../../language/numerics/index.js';

type Entry = readonly [row: number, column: number, real: number, slope?: number];

function equationsOf(size: number, isSymmetric: boolean, own: readonly Entry[]): Equations {
  const entries = createEntries();
  for (const entry of own) entries.add(...entry);
  return { size, isSymmetric, entries, admittances: [], late: new Set(), evaluate: () => undefined };
}

function solverOf(equations: Equations, probe: Probe): SparseSolver {
  return createSparseSolver(equations, createPlan(equations, probe.plus), probe);
}

/** Unknown by unknown at one of the frequencies. */
function unknowns(solution: Solution, f = 0): readonly (readonly [number, number])[] {
  const { rows, size } = solution;
  return Array.from({ length: size }, (_, unknown) => {
    const at = rowOf(solution, unknown) * rows.width + f;
    return [rows.re[at]!, rows.im[at]!] as const;
  });
}

function expectClose(found: readonly (readonly [number, number])[], expected: readonly (readonly [number, number])[]): void {
  expect(found.length).toBe(expected.length);
  found.forEach(([re, im], i) => {
    expect(re).toBeCloseTo(expected[i]![0], 12);
    expect(im).toBeCloseTo(expected[i]![1], 12);
  });
}

const probe = { plus: 0, minus: -1 };
const once = Float64Array.of(1);

// 1 mS beside 1 µF: at ω the impedance is 1 / (0.001 + 10⁻⁶·jω).
const corner = equationsOf(1, true, [[0, 0, 1e-3, 1e-6]]);

describe('solving by a plan', () => {
  it('a resistance beside a capacitance, at and far above their corner', () => {
    // 1 / (1 + j) is (1 − j)/2 and 1 / (1 + 2j) is (1 − 2j)/5, times 1,000 Ω.
    solverOf(corner, probe).solve(Float64Array.of(1000, 2000), (solution) => {
      expectClose(unknowns(solution, 0), [[500, -500]]);
      expectClose(unknowns(solution, 1), [[200, -400]]);
    });
  });

  it('two solvers have nothing in common, and one that was wide can be narrow', () => {
    const [one, other] = [solverOf(corner, probe), solverOf(equationsOf(1, true, [[0, 0, 7]]), probe)];
    one.solve(Float64Array.of(1000, 2000, 1000), (solution) => {
      other.solve(Float64Array.of(5, 6, 7, 8), () => undefined);
      solverOf(corner, probe).solve(Float64Array.of(1, 1, 1), () => undefined);
      expectClose(unknowns(solution, 1), [[200, -400]]);
      expectClose(unknowns(solution, 2), [[500, -500]]);
    });
    expectClose(one.solve(Float64Array.of(2000), unknowns), [[200, -400]]);
    expectClose(
      one.solve(Float64Array.of(0, 1000, 0, 0, 0), (solution) => unknowns(solution, 1)),
      [[500, -500]],
    );
  });

  // 2x − y = 1 and −x + 2y = 0; with the second row −x + 4y not symmetric to it: 3x + y = 1, −x + 4y = 0.
  it('two unknowns, of a symmetric matrix and of another', () => {
    const symmetric = equationsOf(2, true, [
      [0, 0, 2],
      [0, 1, -1],
      [1, 0, -1],
      [1, 1, 2],
    ]);
    expectClose(solverOf(symmetric, probe).solve(once, unknowns), [
      [2 / 3, 0],
      [1 / 3, 0],
    ]);
    const other = equationsOf(2, false, [
      [0, 0, 3],
      [0, 1, 1],
      [1, 0, -1],
      [1, 1, 4],
    ]);
    expectClose(solverOf(other, probe).solve(once, unknowns), [
      [4 / 13, 0],
      [1 / 13, 0],
    ]);
  });

  it('the current that an admittance carries, for the reference as well', () => {
    const entries = createEntries();
    entries.add(0, 0, 1);
    const admittances = [{ from: -1, to: 0 }];
    const evaluate: Equations['evaluate'] = (omega, { re, im, width }, row) => {
      omega.forEach((w, f) => ([re[row * width + f], im[row * width + f]] = [0, -1 / w]));
    };
    // 1 S beside 1 H: at 1 rad/s y is −j, x = 1 / (1 − j) = (1 + j)/2 and the current −j·x = (1 − j)/2.
    const equations = { ...equationsOf(1, true, []), entries, admittances, evaluate };
    const current = solverOf(equations, probe).solve(once, (solution) => {
      const row = currentThrough(solution, 0, -1, 0);
      return [solution.rows.re[row]!, solution.rows.im[row]!] as const;
    });
    expectClose([current], [[0.5, -0.5]]);
  });
});

describe('where the plan meets nothing', () => {
  it('the order is changed: x at the second equation, y at the first', () => {
    const crossed = equationsOf(2, true, [
      [0, 1, 2],
      [1, 0, 2],
    ]);
    // 2y = 1 and 2x = 0.
    solverOf(crossed, probe).solve(once, (solution) => {
      expect(solution.undecided).toBeUndefined();
      expectClose(unknowns(solution), [
        [0, 0],
        [0.5, 0],
      ]);
    });
  });

  it('only at the frequency at which a resonance leaves nothing', () => {
    // j(ω − 1/ω) vanishes at ω = 1: both diagonals together with ±1 beside them then leave x and y to each other.
    const entries = createEntries();
    for (const [row, column, real, slope] of [
      [0, 0, 0, 1],
      [1, 1, 0, 1],
      [0, 1, 1, 0],
      [1, 0, 1, 0],
    ] as const)
      entries.add(row, column, real, slope);
    const admittances = [
      { from: -1, to: 0 },
      { from: -1, to: 1 },
    ];
    const evaluate: Equations['evaluate'] = (omega, { re, im, width }, first) => {
      for (const row of [first, first + 1]) omega.forEach((w, f) => ([re[row * width + f], im[row * width + f]] = [0, -1 / w]));
    };
    const solver = solverOf({ ...equationsOf(2, true, []), entries, admittances, evaluate }, probe);
    // At ω = 1: y = 1, x = 0. At ω = 2 with d = 1.5j: x = d/(d² − 1) = 1.5j/−3.25 and y = −1/(d² − 1) = 1/3.25.
    solver.solve(Float64Array.of(1, 2), (solution) => {
      expectClose(unknowns(solution, 0), [
        [0, 0],
        [1, 0],
      ]);
      expectClose(unknowns(solution, 1), [
        [0, -1.5 / 3.25],
        [1 / 3.25, 0],
      ]);
    });
  });

  it('an unknown that nothing decides is named, and all are zero', () => {
    const floating = equationsOf(2, true, [
      [0, 0, 1],
      [0, 1, -1],
      [1, 0, -1],
      [1, 1, 1],
    ]);
    solverOf(floating, probe).solve(once, (solution) => {
      expect(solution.undecided).toBe(1);
      expectClose(unknowns(solution), [
        [0, 0],
        [0, 0],
      ]);
    });
  });
});
