/** What the quick listener of a search hears in changed circuits, against the solver. */
import { expect, test } from 'vitest';
import { analysed } from '../../language/circuit/model.js';
import { factsOf } from '../../language/checks/index.js';
import { createListener, describeSound } from '../../language/electrics/index.js';
import { candidates } from '../../language/intent/repair/candidates.js';
import { rewired } from '../../language/intent/repair/change.js';
import { createFolding } from '../../language/intent/repair/folding.js';
import { wiringOf } from '../../language/intent/repair/wiring.js';
import { createRandom } from '../harness/random.js';
import { drawPractice } from '../practice/index.js';
import { circuitOf } from './harness.js';

/** Seeds of circuits with an amplifier stage, fed through the jack or a switch. */
const withStages = [4, 8, 20, 32];

test.each([2, 3, 5, 6, 9, 25, 36, ...withStages])('in drawn circuit %i', (seed) => {
  const circuit = circuitOf(drawPractice(seed).text);
  const random = createRandom('listener', seed);
  const folding = createFolding(circuit);
  const changes = candidates(wiringOf(circuit), folding.classes([]).slice());
  const settings = factsOf(circuit)
    .settings()
    .flatMap((setting) => [0, 3, 10].map((turn) => ({ ...setting, rotations: setting.rotations.map(() => turn) })));
  let compared = 0;
  for (let count = 0; count < 24; count++) {
    const change = changes[Math.floor(random() * changes.length)];
    const made = change === undefined ? [] : [change];
    const changed = analysed(rewired(circuit, made));
    folding.classes(made);
    // With several jacks a change may make another one the usual output.
    if (changed.output?.tip !== circuit.output?.tip) continue;
    for (const setting of settings) {
      // Nothing is heard of a shorted output, and nothing asked.
      if (folding.turnedKey(setting, circuit.output) === 0) continue;
      const coils = createListener(circuit, setting.rotations)?.(folding.netOf);
      if (coils === undefined) continue;
      compared++;
      expect(coils, JSON.stringify([change, setting])).toEqual(describeSound(changed, setting).heard.map(({ coil }) => coil));
    }
  }
  expect(compared).toBeGreaterThan(24);
});
