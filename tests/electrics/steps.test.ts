/** One setting is solved in several steps, so that a host can answer others between them. */
import { expect, test } from 'vitest';
import {
  describeSoundSteps,
  readAtJackSteps,
  responseSteps,
  responseSummarySteps,
  restingSetting,
} from '../../language/electrics/index.js';
import { createProject } from '../../language/project.js';
import type { Steps } from '../../language/steps.js';
import { generateCircuit } from '../bench/circuits.js';

const project = createProject({ read: () => undefined });
project.update('memory:/a.lug', generateCircuit(100));
const circuit = project.circuit('memory:/a.lug')!;
const setting = restingSetting(circuit);

test.each<[string, () => Steps<unknown>, number]>([
  ['what is heard: nets, network, equations, solution', () => describeSoundSteps(circuit, setting), 4],
  ['what a meter reads: nets, network, the reading, each end of its spread', () => readAtJackSteps(circuit, setting), 4],
  [
    'the response: two blocks of frequencies, then one for each look for peak and corner',
    () => responseSummarySteps(circuit, setting),
    40,
  ],
  ['a curve of 1,000 points: ten blocks besides', () => responseSteps(circuit, setting, { points: 1000 }), 50],
])('%s', (_, make, least) => {
  const steps = make();
  let count = 0;
  while (steps.next().done !== true) count++;
  expect(count).toBeGreaterThanOrEqual(least);
});
