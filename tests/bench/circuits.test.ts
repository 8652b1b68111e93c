/** The benchmark's circuits: as many parts as asked for, the same for the same seed, and correct as far as an instrument could be that large. */
import { describe, expect, test } from 'vitest';
import { findings } from '../../language/findings.js';
import { createProject } from '../../language/project.js';
import { generateCircuit, sizes } from './circuits.js';

const uri = 'bench:/circuit.lug';

test.each(sizes)('%i parts', (size) => {
  const circuit = createProject({ read: () => generateCircuit(size) }).circuit(uri)!;
  expect(circuit.problems).toEqual([]);
  expect(circuit.parts).toHaveLength(size);
});

describe('the seed', () => {
  test('gives the same text again', () => expect(generateCircuit(100, 5)).toBe(generateCircuit(100, 5)));
  test('gives other values', () => expect(generateCircuit(100, 5)).not.toBe(generateCircuit(100, 6)));
});

test.each([10, 30, 100, 1000])('a circuit of %i parts is clean', (size) => {
  const circuit = createProject({ read: () => generateCircuit(size) }).circuit(uri)!;
  expect(findings(circuit).filter(({ severity }) => severity === 'error' || severity === 'warning')).toEqual([]);
});
