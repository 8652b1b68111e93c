/** The limits of a reading against simulated instruments: what is inside its tolerances passes, what reads far outside does not. */
import { describe, expect, it } from 'vitest';
import { altered, type AnalysedCircuit, type Element } from '../../language/circuit/model.js';
import { enumerate, readAtJack, type Setting } from '../../language/electrics/index.js';
import { createBench, exampleNames, examplesUri } from '../examples/harness.js';

const bench = createBench();
const circuits = exampleNames('')
  .map((name) => ({ name, circuit: bench.circuit(examplesUri + name) }))
  .filter(({ circuit }) => circuit.output !== undefined);
const population = 10_000;

/** Numerical Recipes' quick generator (Press et al., 2nd ed., 1992, ranqd1): seeded, good enough to spread values. */
function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** One instrument off the bench: every resistance inside its tolerance, its copper at 15 to 25 °C. */
function built(circuit: AnalysedCircuit, random: () => number): AnalysedCircuit {
  const kelvin = 10 * random() - 5;
  const elements = circuit.elements.map((element): Element => {
    if (!('resistance' in element) || element.resistance === undefined) return element;
    const { resistance } = element;
    const copper = element.kind === 'coil' || element.kind === 'inductor' ? 1 + 0.00393 * kelvin : 1;
    const value = resistance.value * (1 + resistance.tolerance * (2 * random() - 1)) * copper;
    return { ...element, resistance: { ...resistance, value } };
  });
  return altered(circuit, { elements });
}

/** What a meter of 1 % shows of it, three digits and one more or less in the last. */
function metered(ohm: number, random: () => number): number {
  const shown = ohm * (1 + 0.01 * (2 * random() - 1));
  const digit = 10 ** (Math.floor(Math.log10(shown)) - 2);
  return (Math.round(shown / digit) + Math.round(2 * random() - 1)) * digit;
}

describe(`${population} instruments inside their tolerances`, () => {
  const each = Math.ceil(population / circuits.length);

  it.each(circuits)('pass every line of the sheet: $name', ({ circuit, name }) => {
    const settings = enumerate(circuit).settings;
    const random = createRandom(7);
    const lines = settings.map((setting): readonly [Setting, ReturnType<typeof readAtJack>] => [
      setting,
      readAtJack(circuit, setting),
    ]);
    for (let i = 0; i < each; i++) {
      const instrument = built(circuit, random);
      // One line of each, so that the lot of them covers all lines of the sheet.
      const [setting, limits] = lines[i % lines.length]!;
      const { ohm } = readAtJack(instrument, setting);
      if (limits.low === null || limits.high === null || ohm === null || ohm < 1) continue;
      const reading = metered(ohm, random);
      expect(reading, `${name} ${setting.positions.join()}`).toBeGreaterThanOrEqual(limits.low - 1e-9);
      expect(reading, `${name} ${setting.positions.join()}`).toBeLessThanOrEqual(limits.high + 1e-9);
    }
  });
});

it('a limit is no wider than what the parts allow: twice as far off is outside', () => {
  for (const { circuit } of circuits)
    for (const setting of enumerate(circuit).settings) {
      const { ohm, low, high } = readAtJack(circuit, setting);
      if (ohm === null || low === null || high === null || ohm < 1) continue;
      expect(ohm + 2 * (high - ohm)).toBeGreaterThan(high);
      // Pots 20 %, pickups 5 %, 2 % of copper, the meter's 1 % and a digit: never more than a third.
      expect(high / ohm).toBeLessThan(1.34);
      expect(low / ohm).toBeGreaterThan(0.66);
    }
});
