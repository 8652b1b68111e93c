/** What a changed circuit takes over from the circuits tried before it, against what it gives when nothing was solved before. */
import { expect, test } from 'vitest';
import { analysed, type AnalysedCircuit } from '../../language/circuit/model.js';
import { factsOf } from '../../language/checks/index.js';
import { controlEffects, describeSound, jointClasses } from '../../language/electrics/index.js';
import { candidates } from '../../language/intent/repair/candidates.js';
import { rewired } from '../../language/intent/repair/change.js';
import { wiringOf } from '../../language/intent/repair/wiring.js';
import { createRandom } from '../harness/random.js';
import { drawPractice } from '../practice/index.js';
import { circuitOf } from './harness.js';

/** What is heard in each setting, and what each pot does. */
function electricsOf(circuit: AnalysedCircuit): unknown {
  const sounds = factsOf(circuit)
    .settings()
    .map((setting) => {
      const { text, hum, heard } = describeSound(circuit, setting);
      return `${text}, ${hum}: ${heard.map(({ coil, string, delivers }) => `${coil} ${string} ${delivers.toPrecision(6)}`).join()}`;
    });
  return { sounds, effects: controlEffects(circuit) };
}

test.each([1, 4, 9, 16, 25, 36])('after a change in drawn circuit %i', (seed) => {
  const circuit = circuitOf(drawPractice(seed).text);
  const random = createRandom('taken-over', seed);
  const classes = jointClasses(circuit).of;
  const smallest = classes.map((own) => classes.indexOf(own));
  const changes = candidates(wiringOf(circuit), smallest);
  electricsOf(circuit);
  for (let count = 0; count < 12; count++) {
    const change = changes[Math.floor(random() * changes.length)];
    const changed = rewired(circuit, change === undefined ? [] : [change]);
    expect(electricsOf(changed), JSON.stringify(change)).toEqual(electricsOf(analysed(changed)));
  }
});
