/** Wires, solder joints, screens, leads, and which jack is the output. */
import { describe, expect, test } from 'vitest';
import { jointsOf, lugOf, partOf, soundCircuit } from './harness.js';

const PARTS = `
part p : single-coil
part volume : pot
part g : star
part out : jack
`;

test('each `to` is one run of the same statement, and what follows holds for every run', () => {
  const circuit = soundCircuit(`${PARTS}
wire volume.case to g to out.sleeve black 22awg 85mm twisted
wire volume.2 to out.tip bare
`);
  expect(jointsOf(circuit)).toEqual(['wire volume.case g', 'wire g out.sleeve', 'wire volume.2 out.tip']);
  const look = { colour: 'black', gauge: 22, length: 0.085, twisted: true, bare: false, shielded: false, ownLead: false };
  expect(circuit.joints.slice(0, 2)).toMatchObject([look, look]);
  expect(circuit.joints.map((joint) => joint.statement)).toEqual([0, 0, 1]);
  expect(circuit.joints[2]).toMatchObject({ bare: true });
  expect(circuit.joints[2]!.colour).toBeUndefined();
});

test('colours may be words, letters of IEC 60757, or two for a stripe', () => {
  const circuit = soundCircuit(`${PARTS}
wire p.hot to volume.3 BK
wire p.hot to volume.3 white-red
wire p.hot to volume.3 GNYE
wire p.hot to volume.3 WH-BU
`);
  expect(circuit.joints.map((joint) => joint.colour)).toEqual(['black', 'white-red', 'green-yellow', 'white-blue']);
});

test('a direct joint is no wire', () => {
  const circuit = soundCircuit(`${PARTS}\nsolder volume.1 to volume.case`);
  expect(jointsOf(circuit)).toEqual(['solder volume.1 volume.case']);
});

test('a part in place has its first lead on the first lug, `across` the same way', () => {
  const circuit = soundCircuit(`${PARTS}
part c : capacitor 22nF from volume.1 to volume.case
part e : electrolytic 10uF across volume.3 and g
`);
  expect(jointsOf(circuit)).toEqual([
    'solder volume.1 c.a',
    'solder c.b volume.case',
    'solder volume.3 e.plus',
    'solder e.minus g',
  ]);
  expect(partOf(circuit, 'c').inPlace).toBe(true);
  expect(lugOf(circuit, 'volume.1').uses.map((range) => range.start.line)).toEqual([6]);
});

test('a two-lead part may be wired by its lugs as well', () => {
  const circuit = soundCircuit(`${PARTS}\npart c : capacitor 22nF\nwire volume.1 to c.a\nwire c.b to g`);
  expect(partOf(circuit, 'c').inPlace).toBe(false);
  expect(jointsOf(circuit)).toEqual(['wire volume.1 c.a', 'wire c.b g']);
});

describe('leads of a part’s own', () => {
  const circuit = soundCircuit(`
part p : single-coil { lead hot white 300mm, lead ground black 26awg shielded }
part cell : battery 9V { lead plus red }
part volume : pot
wire p.hot to volume.3
wire volume.1 to p.ground green
wire volume.3 to volume.2 yellow
`);

  test('are kept with the part', () => {
    expect(partOf(circuit, 'p').leads).toMatchObject([
      { lug: lugOf(circuit, 'p.hot').id, colour: 'white', length: 0.3, shielded: false },
      { lug: lugOf(circuit, 'p.ground').id, colour: 'black', gauge: 26, shielded: true },
    ]);
    expect(partOf(circuit, 'cell').leads).toMatchObject([{ colour: 'red' }]);
    expect(partOf(circuit, 'volume').leads).toBeUndefined();
  });

  test('are the wires from their lugs, in their colour where the wire gives none', () => {
    expect(circuit.joints.map((joint) => [joint.ownLead, joint.colour])).toEqual([
      [true, 'white'],
      [true, 'green'],
      [false, 'yellow'],
    ]);
  });
});

describe('screens', () => {
  test('are metal, one a run, tied where the wire says', () => {
    const circuit = soundCircuit(`${PARTS}\nwire volume.2 to out.tip white shielded screen to volume.case and out.sleeve`);
    const screen = circuit.joints[0]!.screen!;
    expect(circuit.lugs[screen]).toMatchObject({ metal: true, name: 'screen' });
    expect(circuit.parts[circuit.lugs[screen]!.part]).toMatchObject({ family: 'screen', type: 'screen' });
    expect(jointsOf(circuit)).toEqual([
      'wire volume.2 out.tip',
      'screen screen of volume.2 to out.tip volume.case',
      'screen screen of volume.2 to out.tip out.sleeve',
    ]);
    expect(circuit.joints.map((joint) => joint.statement)).toEqual([0, 0, 0]);
  });

  test('a shielded wire has a screen though nothing says where it is tied; a screen makes a wire shielded', () => {
    const circuit = soundCircuit(`${PARTS}\nwire volume.2 to out.tip shielded\nwire p.hot to volume.3 to out.tip screen to g`);
    expect(
      circuit.joints.filter((joint) => joint.kind === 'wire').map((joint) => [joint.shielded, joint.screen !== undefined]),
    ).toEqual([
      [true, true],
      [true, true],
      [true, true],
    ]);
    expect(circuit.parts.filter((part) => part.family === 'screen')).toHaveLength(3);
  });
});

describe('the output', () => {
  test('is the first jack whose tip is wired, else the first', () => {
    const two = 'part one : jack\npart two : jack\npart volume : pot';
    expect(soundCircuit(two).output).toMatchObject({ part: 0 });
    expect(soundCircuit(`${two}\nwire one.sleeve to volume.case\nwire volume.2 to two.tip`).output).toMatchObject({ part: 1 });
    expect(soundCircuit(two).jacks).toEqual([0, 1]);
    expect(soundCircuit('part volume : pot').output).toBeUndefined();
  });
});

describe('lugs', () => {
  test('of a part with one go by its name alone', () => {
    const circuit = soundCircuit(
      'part saddle : bridge-ground\npart g : star\npart j : junction\nwire saddle to g to j to g.point',
    );
    expect(circuit.lugs.map((lug) => [lug.label, lug.metal, lug.takesMany])).toEqual([
      ['saddle', true, false],
      ['g', true, true],
      ['j', false, false],
    ]);
  });

  test('that are metal are told, and those with room for many wires', () => {
    const circuit = soundCircuit(
      'part s : lever-3\npart out : jack\npart h : humbucker-4\npart b : jack { boxed }\npart v : pot',
    );
    const metal = circuit.lugs.filter((lug) => lug.metal || lug.takesMany);
    expect(metal.map((lug) => [lug.label, lug.metal, lug.takesMany])).toEqual([
      ['s.frame', true, true],
      ['out.sleeve', true, true],
      ['h.shield', true, false],
      ['b.sleeve', false, true],
      ['v.case', true, true],
    ]);
  });
});

test('lead and amplifier: 500 pF and 1 MΩ unless given; a metre of cable counts 100 pF', () => {
  expect(soundCircuit('part p : pot').rig).toEqual({ cable: 500e-12, input: 1e6 });
  const { rig } = soundCircuit('rig { cable 3m, input 470k }');
  expect(rig.cable).toBeCloseTo(300e-12, 18);
  expect(rig.input).toBe(470e3);
});
