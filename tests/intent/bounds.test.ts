/** Searches end, whatever the circuit: counted in steps, never by a clock. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { locateSteps, repairSteps } from '../../language/intent/index.js';
import { generateCircuit } from '../bench/circuits.js';
import { salad } from '../grammar/arbitrary.js';
import { createWork } from '../../language/work.js';
import { circuitOf, example } from './harness.js';

/** How often a search gave way before it ended; `most` where it did not end. */
function pauses(steps: Generator<undefined, unknown>, most: number): number {
  for (let count = 0; count < most; count++) if (steps.next().done === true) return count;
  return most;
}

it('a search keeps to its steps in a circuit of a hundred parts', { timeout: 30_000 }, () => {
  const spoilt = generateCircuit(100).replace(/^wire master\.2 to output\.tip.*$/m, 'wire master.2 to output.sleeve');
  const circuit = circuitOf(spoilt);
  // A pause comes after 64 circuits, and before each rule of one that is asked or checked whole.
  expect(pauses(repairSteps(circuit, { work: createWork(2_000_000) }), 1000)).toBeLessThan(60);
});

it('a search that is left can be left: nothing goes on by itself', () => {
  const steps = repairSteps(circuitOf(example('faulty/output-shorted')));
  steps.next();
  expect(steps.return([])).toEqual({ done: true, value: [] });
});

it('circuits of one net, of no jack, of nothing but jumpers bring no endless search', () => {
  const lugs = Array.from({ length: 24 }, (_, n) => `t.${n + 1}`);
  const hostile = [
    `part t : tag-strip\npart output : jack\nwire ${[...lugs, 'output.tip', 'output.sleeve'].join(' to ')}\n`,
    `part p : single-coil\npart v : pot 250k\nwire p.hot to v.3\nwire p.ground to v.1\n`,
    `part s, q, r : lever-5x4\npart p : single-coil\npart output : jack\n${Array.from({ length: 40 }, (_, n) => `wire s.${'ABCD'[n % 4]!}${n % 6} to q.${'DCBA'[n % 4]!}${(n * 5) % 6}`).join('\n')}\nwire p.hot to r.A0\nexpect s 1 : sounds p\n`,
    `part output : jack\nexpect : silent\nmeasured : reads open\n`,
  ];
  for (const text of hostile) {
    const circuit = circuitOf(text);
    expect(pauses(repairSteps(circuit), 5000), text).toBeLessThan(5000);
    expect(pauses(locateSteps(circuit), 5000), text).toBeLessThan(5000);
  }
});

it('no text makes a search throw', () => {
  const lines = example('push-pull-coil-split').split('\n');
  fc.assert(
    fc.property(fc.uniqueArray(fc.nat({ max: lines.length - 1 }), { minLength: 1, maxLength: 12 }), salad, (gone, noise) => {
      const text = `${lines.filter((_, index) => !gone.includes(index)).join('\n')}\n${noise}\nmeasured selector up : reads 6k\n`;
      const circuit = circuitOf(text);
      pauses(repairSteps(circuit, { work: createWork(20_000_000) }), 400);
      pauses(locateSteps(circuit), 40);
    }),
    { numRuns: 40, seed: 6 },
  );
}, 60_000);

/** The obvious move in a circuit of many parts is found without looking at the whole of it. */
it.each([
  ['wire pickup2.hot to volume2.2', 'wire pickup2.hot to volume2.1', 'move the wire of pickup2.hot from volume2.1 to volume2.2'],
  ['wire volume2.2 to tone2.2', 'wire volume2.2 to tone2.3', 'move the yellow wire of volume2.2 from tone2.3 to tone2.2'],
  ['wire pickup4.ground to volume4.case\n', '', 'wire pickup4.ground to volume4.case'],
  ['wire volume4.case to tone4.case black 22awg\n', '', 'wire tone4.case to volume4.case'],
])(
  '%s as “%s” in a hundred parts',
  (right, wrong, change) => {
    const text = generateCircuit(100);
    expect(text).toContain(right);
    const steps = repairSteps(circuitOf(text.replace(right, wrong)));
    for (let count = 0; ; count++) {
      expect(count).toBeLessThan(400);
      const step = steps.next();
      if (step.done !== true) continue;
      expect(step.value[0]?.title.split(':')[0]).toBe(change);
      return;
    }
  },
  60_000,
);
