/** The benchmark of scale runs, its edits find their places, and the exponent under a column is that of its law. */
import { expect, test } from 'vitest';
import { exponentOf, growthRows, least } from './growth.js';
import { circuitScale, workspaceScale } from './scale.js';

/** Milliseconds of the wall, and the processor's in brackets. */
const cost = /^[\d.]+ \([\d.]+\)$/;

test('circuits', () => {
  const { heads, rows } = circuitScale([10, 20], 1);
  expect(heads).toHaveLength(9);
  expect(rows.map(([first]) => first)).toEqual(['10', '20', 'exponent', 'from 10 to 20']);
  for (const row of rows.slice(0, 2)) for (const cell of row.slice(1, -1)) expect(cell).toMatch(cost);
});

test('a workspace', () => {
  const { heads, rows } = workspaceScale([2], 1);
  expect(heads).toHaveLength(6);
  expect(rows).toHaveLength(1);
  for (const cell of rows[0]!.slice(1, -1)) expect(cell).toMatch(cost);
});

test.each([0, 0.5, 1, 2])('figures that grow by the power %d', (power) => {
  const sizes = [10, 30, 100];
  const figures = sizes.map((size) => 7 * size ** power);
  expect(exponentOf(sizes, figures)).toBeCloseTo(power, 9);
  expect(growthRows(sizes, [figures])).toEqual([
    ['exponent', power.toFixed(2)],
    ['from 30 to 100', power.toFixed(2)],
  ]);
});

test('the least counts, each for itself', () => {
  const costs = [
    { wall: 3, cpu: 5 },
    { wall: 4, cpu: 2 },
  ];
  expect(least(costs)).toEqual({ wall: 3, cpu: 2 });
});
