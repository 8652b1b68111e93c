/** The solder order of every example, judged by a checker of its own that reads the steps and the circuit and nothing of how the order was made. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { buildOf, solderPlan } from '../../language/workshop/index.js';
import { orderBreaches } from '../../language/workshop/plan/order-rules.js';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { createProject } from '../../language/project.js';
import { judgeOrder } from './judge-order.js';

const folder = new URL('../../examples/', import.meta.url);
const project = createProject({ read: (uri) => readFileSync(new URL(uri), 'utf8') });
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.lug'))
  .map((name) => [name, project.circuit(new URL(name, folder).href)!] as const)
  .filter(([, circuit]) => !circuit.isLibrary);

describe.each(examples)('%s', (_, circuit: AnalysedCircuit) => {
  const plan = solderPlan(buildOf(circuit));

  test('keeps every rule, says the checker of the tests', () => {
    expect(judgeOrder(circuit, plan)).toEqual([]);
  });

  test('keeps every rule, says the proof that comes with it', () => {
    expect(orderBreaches(buildOf(circuit), plan)).toEqual([]);
  });

  test('has as few second heats as can be', () => {
    expect(plan.reheats).toBe(plan.bound);
  });

  test('says one thing in each step, with its reason, in a line that can be read', () => {
    for (const { text, because } of plan.stages.flatMap(({ steps }) => steps)) {
      expect(text).toMatch(/^\S.*\.$/);
      expect(because).not.toBe('');
      expect(text).not.toContain('undefined');
    }
  });

  test('step keys are unique', () => {
    const keys = plan.stages.flatMap(({ steps }) => steps.map(({ key }) => key));
    expect(new Set(keys).size).toBe(keys.length);
  });
});

test('an order with a fault in it is caught', () => {
  const [, circuit] = examples.find(([name]) => name.startsWith('bass-two-circuits'))!;
  const plan = solderPlan(buildOf(circuit));
  expect(buildOf(circuit).work.items.length).toBeGreaterThan(10);
  // Two stages exchanged: what is pulled through the channels comes before it is soldered at the bench.
  const stages = [...plan.stages].reverse();
  expect(judgeOrder(circuit, { ...plan, stages }).length).toBeGreaterThan(0);
  // A heat left out.
  const without = plan.stages.map((stage, i) =>
    i === 0 ? { ...stage, steps: stage.steps.filter(({ kind }) => kind !== 'heat') } : stage,
  );
  expect(judgeOrder(circuit, { ...plan, stages: without }).length).toBeGreaterThan(0);
});
