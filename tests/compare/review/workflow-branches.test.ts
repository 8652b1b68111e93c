/** The workflow's comment, annotations and gate on each branch of the workshop, run as a build runs them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { branches } from './branches.js';
import { createSteps } from './workflow-steps.js';
import { createWorkshop } from './workshop.js';

const { folder, branch, git } = createWorkshop();
for (const { name, edit } of branches) branch(name, edit);
const base = git('rev-parse', 'main').trim();
const { step } = createSteps(folder);
/** What the workflow's gate names. */
const gates = ['silent', 'lost', 'weakened', 'allow'];

test.each(branches.map((one) => [one.name, one] as const))('%s', (name, { verdict, stops }) => {
  git('checkout', '-q', name);
  const compared = step('Compare the circuits', { BASE: base });
  expect([compared.code, compared.err]).toEqual([0, '']);
  expect(compared.out.split('\n')[0]).toBe(`::notice title=wiring::${verdict}`);
  const comment = readFileSync(join(folder, 'comment.md'), 'utf8');
  expect(comment.split('\n').slice(0, 3)).toEqual(['<!-- lugwork: wiring review -->', '', `### Wiring: ${verdict}`]);
  expect(step('Gate', { BASE: base }).code).toBe(stops.some((stop) => gates.includes(stop)) ? 1 : 0);
});
