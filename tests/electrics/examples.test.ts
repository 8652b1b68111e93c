/** Every example, every position, pots at 10, 7, 3 and 0, against a general circuit solver. */
import { afterAll, describe, expect, it } from 'vitest';
import { effectsAnywhere, enumerate } from '../../language/electrics/index.js';
import { createBench, exampleNames, examplesUri } from '../examples/harness.js';
import { createComparison } from './comparison.js';

const bench = createBench();
const comparison = createComparison();
const names = exampleNames('').filter((name) => bench.circuit(examplesUri + name).output !== undefined);

afterAll(() => {
  console.log(`${names.length} examples against the general solver: ${comparison.summary()}`);
});

describe.each(names)('%s', (name) => {
  const circuit = bench.circuit(examplesUri + name);
  const { settings, group } = enumerate(circuit);
  const distinct = settings.filter((_, i) => group.indexOf(group[i]!) === i);

  it('response and DC resistance', { timeout: 120_000 }, async () => {
    for (const { positions } of distinct) {
      for (const rotation of [10, 7, 3, 0]) {
        const setting = { positions, rotations: circuit.shafts.map(() => rotation) };
        await comparison.response(circuit, setting, `${name} ${positions.join()} at ${rotation}`);
        if (circuit.output !== undefined)
          await comparison.meter(circuit, setting, circuit.output.tip, circuit.output.sleeve, name);
      }
    }
  });

  it('every control does what it is there for, none works backwards', () => {
    for (const { role, backwards, says } of effectsAnywhere(circuit)) {
      expect([role, backwards], says).toEqual([expect.stringMatching(/^(volume|tone|bass-cut|blend|spread|band)$/), false]);
    }
  });
});
