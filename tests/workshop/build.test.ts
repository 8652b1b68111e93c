/** The workshop's model of a build: made once for a circuit, its wires in steps, its accessors against what the text says. */
import { expect, test } from 'vitest';
import { altered } from '../../language/circuit/index.js';
import { buildOf, planSteps, runSteps, solderPlan } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';

const text = `instrument "Alder Lane no. 12" { batch 3 }
build { slack 30mm, first signal }
cavity control depth 38mm
cavity neck-rout depth 20mm
channel neck-rout to control 70mm bore 8mm
plate main in control { volume at 20 30, output at 90 70 }
place neck in neck-rout
part neck : single-coil
part volume : pot 250k audio
part output : jack
part trim : capacitor 1nF from volume.3 to volume.1
wire neck.hot to volume.3 white 24awg
wire neck.ground to volume.case black 24awg
wire volume.2 to output.tip yellow 24awg
wire volume.1 to volume.case black 24awg
wire volume.case to output.sleeve black 24awg
`;

test('is made once for a circuit, and anew for one that was changed', () => {
  const circuit = soundCircuit(text);
  expect(buildOf(circuit)).toBe(buildOf(circuit));
  const [wire] = circuit.joints.filter(({ kind }) => kind === 'wire');
  const fewer = buildOf(altered(circuit, { joints: circuit.joints.filter((joint) => joint !== wire) }));
  expect(fewer.runs).toHaveLength(buildOf(circuit).runs.length - 1);
});

test('measures its wires and makes its plan in steps, and keeps what the steps made', () => {
  const build = buildOf(soundCircuit(text));
  const steps = runSteps(build);
  expect(steps.next().done).toBe(false);
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  expect(build.runs).toBe(step.value);
  let planned = 0;
  const plan = planSteps(build);
  for (let next = plan.next(); ; next = plan.next(), planned++) {
    if (next.done !== true) continue;
    expect(solderPlan(build)).toBe(next.value);
    break;
  }
  expect(planned).toBeGreaterThan(5);
});

test('says where things lie, what is on ground and how this shop works, as the text has it', () => {
  const circuit = soundCircuit(text);
  const build = buildOf(circuit);
  const lug = (label: string) => circuit.lugs.find((one) => one.label === label)!.id;
  expect(build.areaOf(lug('volume.2'))).toEqual({ key: 'plate main', kind: 'plate', name: 'main', cavity: 'control' });
  expect(build.areaOf(lug('neck.hot')).key).toBe('cavity neck-rout');
  // The capacitor hangs on the pot: it lies where its first lead is soldered.
  expect(build.hostOf(circuit.parts.find(({ name }) => name === 'trim')!.id).name).toBe('volume');
  expect(build.depthOf('neck-rout')).toBe(0.02);
  expect(build.depthOf('horn')).toBeUndefined();
  // The box round volume and output is 70 mm wide and 40 mm high; the neck's cavity has no measured place, so the shop's 50 mm count.
  expect(build.widthOf('control')).toBeCloseTo(0.11, 9);
  expect(build.widthOf('neck-rout')).toBe(0.05);
  expect(build.channelsAt('control')).toHaveLength(1);
  expect(build.label(lug('output.tip'))).toBe('output.tip');
  expect([build.isGround(lug('volume.case')), build.isGround(lug('output.tip'))]).toEqual([true, false]);
  expect(build.settings.slack).toBe(0.03);
  expect(build.settings.strip).toBe(0.006);
  expect(build.preferences.first).toBe('signal');
  expect([build.count, build.batch, build.hasBattery]).toEqual([3, 3, false]);
});
