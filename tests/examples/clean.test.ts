/** Every example is clean: on a correct circuit there is not one error or warning. */
import { describe, expect, it } from 'vitest';
import { exampleNames, examplesUri, findingLine, createBench } from './harness.js';

const bench = createBench();

describe.each(exampleNames(''))('%s', (name) => {
  const findings = bench.findings(examplesUri + name);

  it('brings no error and no warning', () => {
    expect(findings.filter(({ severity }) => severity === 'error' || severity === 'warning').map(findingLine)).toEqual([]);
  });

  it('is told little besides', () => {
    expect(findings.filter(({ severity }) => severity === 'info').map(findingLine).length).toBeLessThanOrEqual(3);
  });

  it('says what it is, and asks for something in every position', () => {
    const circuit = bench.circuit(examplesUri + name);
    if (circuit.titleRange === undefined) return;
    expect(circuit.title).toMatch(/^Alder Lane no\. \d+$/);
    expect(circuit.expectations.length).toBeGreaterThan(0);
  });
});
