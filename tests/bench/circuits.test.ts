/** The benchmark's circuits: as many parts as asked for, the same for the same seed, and correct as far as an instrument could be that large. */
import { describe, expect, test } from 'vitest';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { generateCircuit, sizes } from './circuits.js';
import { fewestInInstrument, generateInstrument } from './instruments.js';

const uri = 'bench:/circuit.lug';

const families = { circuits: generateCircuit, instruments: generateInstrument };

/** Every size of each family. */
const cases = Object.entries(families).flatMap(([family, generate]) =>
  sizes.filter((size) => family === 'circuits' || size >= fewestInInstrument).map((size) => ({ family, size, generate })),
);

test.each(cases)('$family of $size parts', ({ size, generate }) => {
  const circuit = createProject({ read: () => generate(size) }).circuit(uri)!;
  expect(circuit.problems).toEqual([]);
  expect(circuit.parts).toHaveLength(size);
});

describe.each(Object.entries(families))('the seed of %s', (_, generate) => {
  test('gives the same text again', () => expect(generate(100, 5)).toBe(generate(100, 5)));
  test('gives other values', () => expect(generate(100, 5)).not.toBe(generate(100, 6)));
});

test.each(cases.filter(({ size }) => size !== 300))('$family of $size parts are clean', ({ size, generate }) => {
  const circuit = createProject({ read: () => generate(size) }).circuit(uri)!;
  expect(findings(circuit).filter(({ severity }) => severity === 'error' || severity === 'warning')).toEqual([]);
});
