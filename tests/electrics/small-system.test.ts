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
