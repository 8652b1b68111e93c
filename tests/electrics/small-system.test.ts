/** Small systems against closed forms. */
import { expect, test } from 'vitest';
import { createSmallSystem } from '../../language/numerics/index.js';

test('a divider: the current through one of two resistances that a unit current splits between', () => {
  const system = createSmallSystem(4);
  system.clear(1);
  system.add(0, -1, 1 / 3, 0);
  system.add(0, -1, 1 / 6, 0);
  expect(system.solve(0)).toBe(true);
  // I·R2/(R1 + R2)
  expect(system.current(-1, 0, 1 / 3, 0)).toBeCloseTo(2 / 3, 12);
});

test('a ladder of ten resistances, solved again after another', () => {
  const system = createSmallSystem(10);
  for (const ohm of [5, 2]) {
    system.clear(10);
    for (let unknown = 0; unknown < 10; unknown++) system.add(unknown - 1, unknown, 1 / ohm, 0);
    expect(system.solve(9)).toBe(true);
    // All of the unit current flows through each of them.
    for (let unknown = 0; unknown < 10; unknown++) expect(system.current(unknown - 1, unknown, 1 / ohm, 0)).toBeCloseTo(1, 12);
  }
});

test('a coil and a capacitor in series, beside a resistance', () => {
  const system = createSmallSystem(2);
  const [coil, capacitor, resistance] = [-0.5, 0.125, 0.25];
  system.clear(2);
  system.add(0, -1, resistance, 0);
  system.add(0, 1, 0, coil);
  system.add(1, -1, 0, capacitor);
  expect(system.solve(0)).toBe(true);
  // Reactances of 2 and −8 ohms in series, −6j, beside 4 ohms: the share is 4 / |4 − 6j|.
  expect(system.current(0, 1, 0, coil)).toBeCloseTo(4 / Math.hypot(4, 6), 12);
});

test('where a pivot vanishes, it says so', () => {
  const system = createSmallSystem(2);
  system.clear(2);
  // The first unknown is at resonance: nothing is left on its diagonal.
  system.add(0, -1, 0, 1);
  system.add(0, 1, 0, -1);
  system.add(1, -1, 1, 0);
  expect(system.solve(1)).toBe(false);
});

test('a stage gives its amplification times what is at its input, less what its output resistance and a load divide', () => {
  const system = createSmallSystem(2);
  const [source, input, amplification, output, load] = [1 / 3, 1 / 6, 4, 1 / 2, 1 / 8];
  system.clear(2);
  system.add(0, -1, source, 0);
  system.add(0, -1, input, 0);
  system.add(1, -1, output, 0);
  system.add(1, -1, load, 0);
  system.addStage(0, 1, -1, amplification * output);
  expect(system.solve(1)).toBe(true);
  // One volt behind 3 ohms, 6 ohms at the input, 2 ohms at the output with 8 ohms on it: 6/9 times 4 times 8/10.
  expect(system.current(-1, 0, source, 0)).toBeCloseTo((6 / 9) * 4 * (8 / 10), 12);
});
