/** A text that changes while it is read in steps: what is known afterwards is of the newest text, whenever the change came. */
import { expect, test } from 'vitest';
import { createAnalysis } from '../../language/analysis.js';
import { createProject } from '../../language/project.js';
import { twoPickups } from './circuits.js';

const uri = 'memory:/a.lug';
const shared = 'memory:/house.lug';
const house = (ohms: string): string => `type dark : single-coil { takes resistance ${ohms} }\n`;
const text = twoPickups({
  'instrument "Alder': 'use "house.lug"\ninstrument "Alder',
  'neck     : single-coil 6.2k 2.4H 110pF': 'neck     : dark 2.4H 110pF',
});

function reading() {
  const project = createProject({ read: () => undefined });
  project.update(uri, text);
  project.update(shared, house('8k'));
  const analysis = createAnalysis(project);
  return { project, analysis, steps: analysis.circuitSteps(uri) };
}

const resistances = (analysis: ReturnType<typeof createAnalysis>): string =>
  JSON.stringify(analysis.circuit(uri)!.elements.map((element) => (element.kind === 'coil' ? element.resistance.value : 0)));

test.each([
  ['the text itself', uri, text.replace('6.9k', '7.1k')],
  ['a text that it uses', shared, house('9k')],
])('%s changes between any two steps', (_, changed, later) => {
  let count = 0;
  const first = reading();
  while (first.steps.next().done !== true) count++;
  expect(count).toBeGreaterThan(10);

  const fresh = reading();
  fresh.project.update(changed, later);
  const expected = resistances(fresh.analysis);
  expect(expected).not.toBe(resistances(first.analysis));

  for (let at = 0; at <= count; at++) {
    const { project, analysis, steps } = reading();
    for (let step = 0; step < at; step++) steps.next();
    project.update(changed, later);
    while (steps.next().done !== true);
    expect(resistances(analysis)).toBe(expected);
  }
});
