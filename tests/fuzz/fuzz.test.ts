/** A small share of `npm run fuzz` with seeds of its own: no exception, no step longer than a second, a layout that is stable and changes nothing. */
import { expect, test } from 'vitest';
import { fuzzProtocol } from './protocol.js';
import { randomCircuitText } from './random-circuit-text.js';
import { randomText } from './random-text.js';
import { tryCircuit } from './try-circuit.js';
import { tryDrawing } from './try-drawing.js';
import { tryText } from './try-text.js';
import { createWatch } from './watch.js';

const first = 5_000_000;

test('random texts', () => {
  const watch = createWatch();
  for (let seed = first; seed < first + 300; seed++) tryText(randomText(seed), seed, watch);
  expect(watch.failures).toEqual([]);
}, 60_000);

test('random circuits of up to 20 parts', async () => {
  const watch = createWatch();
  for (let seed = first; seed < first + 12; seed++) {
    const text = randomCircuitText(seed, 2, 20);
    tryCircuit(text, seed, watch);
    await tryDrawing(text, seed, watch);
  }
  expect(watch.failures).toEqual([]);
}, 60_000);

test.each([true, false])(
  'random messages, well formed: %s',
  async (wellFormed) => {
    const watch = createWatch();
    await fuzzProtocol(200, first, watch, wellFormed);
    expect(watch.failures).toEqual([]);
  },
  60_000,
);
