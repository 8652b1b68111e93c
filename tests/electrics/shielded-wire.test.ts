/** The capacitance of shielded wire inside: its figures, where it counts, and the general solver beside ours. */
import { expect, test } from 'vitest';
import { altered, type AnalysedCircuit } from '../../language/circuit/model.js';
import { circuitFromJson, circuitToJson } from '../../language/circuit/index.js';
import {
  response,
  responseSummary,
  restingSetting,
  spiceDeck,
  uncountedWires,
  withRotation,
} from '../../language/electrics/index.js';
import { lugOf, soundCircuit } from '../circuit/harness.js';
import { createComparison } from './comparison.js';

/** One pickup through a volume; the wire to the jack is as given, and so is what `build` says. */
const text = (wire: string, build = 'build { shielded-capacitance 150pF }'): string => `
part p : single-coil 6.5k 3H 100pF
part volume : pot 250k
part tone : pot 250k
part out : jack
wire p.hot to volume.3 white
wire p.ground to volume.case
solder volume.1 to volume.case
wire volume.case to out.sleeve
wire volume.2 to out.tip ${wire}
${build}
`;

const plain = soundCircuit(text('400mm'));

/** The circuit written as JSON and read again. */
function asJson(circuit: AnalysedCircuit): AnalysedCircuit {
  const json: unknown = JSON.parse(JSON.stringify(circuitToJson(circuit, { nameOf: (uri) => uri })));
  const read = circuitFromJson(json, { uriOf: (name) => name });
  if ('problem' in read) throw new Error(read.problem);
  return read.circuit;
}

/** The capacitances of the deck by name. */
function capacitances(circuit: AnalysedCircuit): Readonly<Record<string, string>> {
  const lines = spiceDeck(circuit, restingSetting(circuit)).split('\n');
  return Object.fromEntries(
    lines.flatMap((line) => (line.startsWith('C_screen') ? [[line.split(' ')[0]!, line.split(' ').slice(1).join(' ')]] : [])),
  );
}

test('0.4 m at 150 pF a metre are 60 pF across the jack, and the resonance falls to its closed form', () => {
  const circuit = soundCircuit(text('400mm shielded screen to out.sleeve'));
  expect(capacitances(circuit)).toEqual({ C_screen_of_volume_2_to_out_tip: 'out_tip 0 6e-11' });
  // H(s) of check value "1/(1 + Rs/Rl + s(L/Rl + RsC) + s²LC)": textbook second order.
  const [henry, ohm, load, farad] = [3, 6500, 1 / (1 / 250e3 + 1 / 1e6), 100e-12 + 500e-12 + 0.4 * 150e-12];
  const f0 = Math.sqrt((1 + ohm / load) / (henry * farad)) / (2 * Math.PI);
  const q = Math.sqrt(henry * farad * (1 + ohm / load)) / (henry / load + ohm * farad);
  const peak = responseSummary(circuit, restingSetting(circuit)).peak!;
  expect(peak.hz / (f0 * Math.sqrt(1 - 1 / (2 * q * q)))).toBeCloseTo(1, 5);
  expect(responseSummary(plain, restingSetting(plain)).peak!.hz).toBeGreaterThan(peak.hz + 100);
});

test('nothing counts without the setting, with a setting of nothing, without a screen, and of a screen that is connected nowhere', () => {
  for (const [wire, build] of [
    ['400mm shielded screen to out.sleeve', ''],
    ['400mm shielded screen to out.sleeve', 'build { shielded-capacitance 0pF }'],
    ['400mm', 'build { shielded-capacitance 150pF }'],
    ['400mm shielded', 'build { shielded-capacitance 150pF }'],
  ] as const) {
    const circuit = soundCircuit(text(wire, build));
    expect(capacitances(circuit)).toEqual({});
    const points = response(circuit, restingSetting(circuit), { points: 20 }).points;
    expect(points).toEqual(response(plain, restingSetting(plain), { points: 20 }).points);
  }
});

test('each run has the length that its statement gives, and a pickup’s own lead that of the lead', () => {
  const circuit = soundCircuit(`
part p : single-coil 6.5k 3H 100pF { lead hot white 300mm }
part volume : pot 250k
part out : jack
wire p.hot to volume.3 shielded screen to volume.case
wire p.ground to volume.case
solder volume.1 to volume.case
wire volume.case to out.sleeve
wire volume.2 to volume.3 to out.tip 20cm shielded screen to volume.case
build { shielded-capacitance 100pF }
`);
  expect(capacitances(circuit)).toEqual({
    C_screen_of_p_hot_to_volume_3: 'out_tip 0 3e-11',
    C_screen_of_volume_2_to_volume_3: 'out_tip 0 2e-11',
    C_screen_of_volume_3_to_out_tip: 'out_tip 0 2e-11',
  });
});

test('a wire without a length is named once and counts nothing', () => {
  const circuit = soundCircuit(text('shielded screen to out.sleeve'));
  expect(capacitances(circuit)).toEqual({});
  const says = 'the capacitance of the shielded wire volume.2 to out.tip isn’t counted: state its length';
  expect(uncountedWires(circuit)).toBe(says);
  expect(spiceDeck(circuit, restingSetting(circuit))).toContain('* the capacitance of the shielded wire volume.2 to out.tip');
  expect(uncountedWires(soundCircuit(text('400mm shielded screen to out.sleeve')))).toBeUndefined();
  expect(uncountedWires(soundCircuit(text('shielded screen to out.sleeve', '')))).toBeUndefined();
  expect(uncountedWires(soundCircuit(text('shielded')))).toBeUndefined();
});

test('ours beside the general solver: screens on ground, on another net, on both, in mid air, and behind a switch', async () => {
  const comparison = createComparison();
  const ties = [
    'screen to out.sleeve',
    'screen to out.sleeve and volume.case',
    'screen to volume.3',
    'screen to tone.2',
    'screen to tone.case',
  ];
  for (const tie of ties) {
    const circuit = soundCircuit(text(`3m shielded ${tie}`, 'wire tone.3 to volume.3\nbuild { shielded-capacitance 300pF }'));
    expect(Object.keys(capacitances(circuit)), tie).toHaveLength(1);
    for (const rotation of [10, 5, 1]) {
      const setting = withRotation(restingSetting(circuit), circuit.shafts[0]!.id, rotation);
      expect(await comparison.response(circuit, setting, `${tie} at ${rotation}`)).toBe(true);
    }
  }
  const switched = soundCircuit(`${text('3m shielded screen to lift.A0')}
part lift : spst
wire lift.A1 to out.sleeve
`);
  for (const position of [0, 1])
    expect(
      await comparison.response(switched, { ...restingSetting(switched), positions: [position] }, `switch at ${position}`),
    ).toBe(true);
  console.log(`shielded wires against the general solver: ${comparison.summary()}`);
});

test('two wires whose screens are joined in mid air couple their cores', async () => {
  const circuit = soundCircuit(`
part neck, bridge : single-coil 6.5k 3H 100pF
part volume : pot 250k
part afloat : star
part out : jack
wire neck.ground to bridge.ground to volume.case to out.sleeve
wire neck.hot to volume.3 2m shielded screen to afloat
wire bridge.hot to volume.2 2m shielded screen to afloat
solder volume.1 to volume.case
wire volume.2 to out.tip
build { shielded-capacitance 150pF }
`);
  const comparison = createComparison();
  expect(await comparison.response(circuit, withRotation(restingSetting(circuit), circuit.shafts[0]!.id, 3), 'afloat')).toBe(
    true,
  );
});

test('a wire that a repair moves takes its capacitance along', () => {
  const circuit = soundCircuit(text('400mm shielded screen to out.sleeve'));
  const joints = circuit.joints.map((joint) =>
    joint.screen === undefined ? joint : { ...joint, a: lugOf(circuit, 'tone.2').id, b: lugOf(circuit, 'tone.3').id },
  );
  expect(Object.values(capacitances(altered(circuit, { joints })))).toEqual(['tone_2 0 6e-11']);
});

test('the circuit as JSON, which a page reads, sounds alike', () => {
  const circuit = soundCircuit(text('400mm shielded screen to out.sleeve'));
  expect(responseSummary(asJson(circuit), restingSetting(circuit))).toEqual(responseSummary(circuit, restingSetting(circuit)));
});

test('the amplifier’s input capacitance lies beside the cable’s, in the deck, in the general solver and in JSON', async () => {
  const circuit = soundCircuit(text('', 'rig { cable 500pF, input 1M 100pF }'));
  expect(spiceDeck(circuit, restingSetting(circuit))).toContain('\nC_lead out_tip 0 6e-10\n');
  expect(await createComparison().response(circuit, restingSetting(circuit), 'input capacitance')).toBe(true);
  expect(responseSummary(circuit, restingSetting(circuit))).toEqual(
    responseSummary(soundCircuit(text('', 'rig { cable 600pF }')), restingSetting(circuit)),
  );
  expect(asJson(circuit).rig.inputCapacitance).toBe(100e-12);
});
