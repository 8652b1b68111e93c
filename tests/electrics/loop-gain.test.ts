/** The gain once round the loop of a stage that is fed from its own output, against the divider that it comes back through. */
import { expect, it, test } from 'vitest';
import type { AnalysedCircuit, Gain } from '../../language/circuit/index.js';
import { loopGain, restingSetting } from '../../language/electrics/index.js';
import { soundCircuit } from '../circuit/harness.js';

const looped = (gain: number, output: string, back: string): AnalysedCircuit =>
  soundCircuit(`
type booster : amplifier {
  lugs in out plus minus
  gain from in to out { gain ${gain}, input 1M, output ${output}, plus plus, minus minus }
}
part stage : booster
part cell : battery 9V from stage.plus to stage.minus
part leak : resistor 6k from stage.in to stage.minus
${back}`);

function gainOf(circuit: AnalysedCircuit): number | undefined {
  const stage = circuit.elements.find((element): element is Gain => element.kind === 'gain')!;
  return loopGain(circuit, restingSetting(circuit), stage)?.gain;
}

/** 6 k and the input's 1 M side by side. */
const input = 6e9 / 1_006_000;

// A stage with gain A behind Ro, back through R into an input of Z: A · Z / (Z + R + Ro).
test.each([
  [4, '1k', 1000],
  [2, '1k', 1000],
  [4, '0.001R', 0.001],
])('gain %i behind %s, back through 10k', (gain, output, ohm) => {
  expect(gainOf(looped(gain, output, 'part back : resistor 10k from stage.out to stage.in'))).toBeCloseTo(
    (gain * input) / (input + 10e3 + ohm),
    4,
  );
});

it('is none where nothing comes back, and below one of a buffer on its own input', () => {
  expect(gainOf(looped(4, '1k', 'part load : resistor 10k from stage.out to stage.minus')) ?? 0).toBe(0);
  expect(gainOf(looped(1, '1k', 'part back : resistor 10R from stage.out to stage.in'))!).toBeLessThan(1);
});

it('through a capacitor it is that of the frequencies which pass: A · Z / (Z + R + Ro) well above the corner', () => {
  const found = gainOf(
    looped(
      4,
      '1k',
      'part back : resistor 10k from stage.out to junction\npart junction : junction\npart c : capacitor 1uF from junction to stage.in',
    ),
  );
  expect(found!).toBeGreaterThan(1);
  expect(found!).toBeLessThanOrEqual((4 * input) / (input + 11e3) + 1e-6);
});
