/** Generated circuits against a general circuit solver: response within 0.01 dB and 0.1°, DC within 0.01 %. */
import { afterAll, it } from 'vitest';
import { createComparison } from './comparison.js';
import { createDice, randomInstrument, randomNetwork } from './random-circuit.js';

/** Circuits of each kind that sound; those that are silent, as arbitrary ones often are, are compared and not counted. */
const cases = 170;
const comparison = createComparison();
const kinds = [
  ['instruments', randomInstrument, 1000],
  ['arbitrary networks', randomNetwork, 5000],
] as const;

afterAll(() => {
  console.log(
    `${2 * cases} generated circuits that sound, and the silent ones between them, against the general solver: ${comparison.summary()}`,
  );
});

it.each(kinds)(
  '%s: response',
  async (kind, generate, from) => {
    let sounding = 0;
    for (let seed = from; sounding < cases; seed++) {
      const { circuit, setting } = generate(seed);
      if (await comparison.response(circuit, setting, `${kind} ${seed}`)) sounding++;
    }
  },
  120_000,
);

it.each(kinds)(
  '%s: DC resistance',
  async (kind, generate, from) => {
    for (let seed = from; seed < from + cases; seed++) {
      const { circuit, setting } = generate(seed);
      const dice = createDice(seed + 99);
      const { tip, sleeve } = circuit.output!;
      const [a, b] = dice.chance(0.5) ? [tip, sleeve] : [dice.pick(circuit.lugs).id, dice.pick(circuit.lugs).id];
      await comparison.meter(circuit, setting, a, b, `${kind} ${seed}`);
    }
  },
  120_000,
);
