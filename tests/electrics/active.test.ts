/** Transistors, op-amps, diodes, piezos, transformers, relays and preamps with tone controls: against formulas, decks written by hand, and the general solver. */
import { afterAll, describe, expect, it, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import {
  describeSound,
  loopGain,
  readAtJack,
  response,
  restingSetting,
  settingLabel,
  enumerate,
  withRotation,
  withSettings,
  type Setting,
} from '../../language/electrics/index.js';
import { elementsOf, soundCircuit } from '../circuit/harness.js';
import { createComparison } from './comparison.js';
import { sweepReference } from './general-solver.js';

const comparison = createComparison();
afterAll(() => {
  console.info(`active and other parts against the general solver: ${comparison.summary()}`);
});

/** Level and phase at a frequency, dB and degrees. */
function at(circuit: AnalysedCircuit, hz: number, setting: Setting = restingSetting(circuit)) {
  return response(circuit, setting, { from: hz, to: hz, points: 1 }).points[0]!;
}

/** A source of next to no impedance, so that what comes after it is what is measured; a lead and an amplifier that load nothing. */
const source = `rig { cable 0pF, input 1000M }
part source : single-coil 0.001R 0.000001H 0pF
part cell : battery
part output : jack
wire source.ground to output.sleeve to cell.minus`;

const decibels = (ratio: number): number => 20 * Math.log10(Math.abs(ratio));
const parallel = (...ohms: readonly number[]): number => 1 / ohms.reduce((sum, ohm) => sum + 1 / ohm, 0);

describe('transistors for small signals', () => {
  // Any text on small-signal models: a follower gives gm Rs / (1 + gm Rs), Rs beside the output resistance.
  it('a FET with its load in the source follows', () => {
    const circuit = soundCircuit(`${source}
part q : jfet 3mS { output 50k }
wire source.hot to q.g
wire q.d to cell.plus
part load : resistor 4.7k from q.s to output.sleeve
wire q.s to output.tip`);
    const load = 3e-3 * parallel(4700, 50e3);
    expect(at(circuit, 1000).db).toBeCloseTo(decibels(load / (1 + load)), 3);
    expect(at(circuit, 1000).deg).toBeCloseTo(0, 3);
  });

  // The load in the drain, the source on ground: −gm (Rd beside ro).
  it('a transistor with its load in the collector amplifies and turns the phase', () => {
    const circuit = soundCircuit(`${source}
part q : transistor 20mS { input 8k, output 60k }
wire source.hot to q.b
wire q.e to output.sleeve
part load : resistor 5.6k from q.c to cell.plus
wire q.c to output.tip`);
    expect(at(circuit, 1000).db).toBeCloseTo(decibels(20e-3 * parallel(5600, 60e3)), 3);
    expect(Math.abs(at(circuit, 1000).deg)).toBeCloseTo(180, 3);
  });

  it.each([
    ['jfet', 'n', 'd', 's'],
    ['jfet', 'p', 's', 'd'],
  ])('a %s of channel %s works with its %s on plus, and not the other way round', (type, channel, plus, minus) => {
    const built = (first: string, second: string): AnalysedCircuit =>
      soundCircuit(`${source}
part q : ${type} 3mS { channel ${channel} }
wire source.hot to q.g
part r : resistor 10k from q.${first} to cell.plus
wire q.${second} to output.sleeve
wire q.${first} to output.tip`);
    const [right, wrong] = [built(plus, minus), built(minus, plus)];
    expect(describeSound(right, restingSetting(right)).silent).toBe(false);
    expect(describeSound(wrong, restingSetting(wrong)).silent).toBe(true);
  });
});

describe('an op-amp', () => {
  const amplifier = (back: string): AnalysedCircuit =>
    soundCircuit(`${source}
part amp : op-amp { gain-bandwidth 1MHz }
part second : battery from ground.point to amp.minus
part ground : star
wire ground to output.sleeve
wire cell.plus to amp.plus
wire amp.out to output.tip
${back}`);

  // The textbook gains, 1 + Rf/Rg and −Rf/Rg, at a frequency far below the corner.
  it('amplifies by 1 + Rf/Rg where the signal is on its noninverting input', () => {
    const circuit = amplifier(`wire source.hot to amp.noninverting
part rf : resistor 30k from amp.out to amp.inverting
part rg : resistor 10k from amp.inverting to ground`);
    expect(at(circuit, 100).db).toBeCloseTo(decibels(4), 2);
    // The closed loop falls by 3 dB where the open loop has fallen to its gain: gain-bandwidth over gain.
    expect(at(circuit, 250e3).db - at(circuit, 100).db).toBeCloseTo(-3.01, 1);
  });

  it('amplifies by −Rf/Rg where it is on its inverting input', () => {
    const circuit = amplifier(`wire amp.noninverting to ground
part rf : resistor 30k from amp.out to amp.inverting
part rg : resistor 10k from amp.inverting to source.hot`);
    expect(at(circuit, 100).db).toBeCloseTo(decibels(3), 2);
    expect(Math.abs(at(circuit, 100).deg)).toBeCloseTo(180, 0);
  });

  const stage = (circuit: AnalysedCircuit) => {
    const [element] = elementsOf(circuit, 'amp');
    if (element?.kind !== 'gain') throw new Error('amp is no stage');
    return loopGain(circuit, restingSetting(circuit), element)?.gain ?? 0;
  };

  it('is stable fed back to its inverting input, and not to the other', () => {
    const right = amplifier(`wire source.hot to amp.noninverting
part rf : resistor 30k from amp.out to amp.inverting
part rg : resistor 10k from amp.inverting to ground`);
    const wrong = amplifier(`part rs : resistor 10k from source.hot to amp.noninverting
part rf : resistor 30k from amp.out to amp.noninverting
wire amp.inverting to ground`);
    expect(stage(right)).toBeLessThan(1);
    expect(stage(wrong)).toBeGreaterThan(1);
  });
});

describe('a preamp with tone controls', () => {
  const preamp = (bands: string): AnalysedCircuit =>
    soundCircuit(`type module : amplifier {
  lugs in out plus minus
  takes low 6dB, high -4dB
  gain from in to out { gain 2, input 1M, output 1k, plus plus, minus minus, ${bands} }
}
${source}
part pre : module
wire source.hot to pre.in
wire pre.out to output.tip
wire cell.plus to pre.plus
wire pre.minus to output.sleeve`);

  // Half of a shelf's decibels at its frequency, all of them far below or above: the definition in the reference.
  test.each([
    ['bass 12dB at 100Hz', 1, 12],
    ['bass 12dB at 100Hz', 100, 6],
    ['bass 12dB at 100Hz', 10e3, 0],
    ['bass -9dB at 200Hz', 2, -9],
    ['bass -9dB at 200Hz', 200, -4.5],
    ['bass low at 100Hz', 1, 6],
    ['treble 10dB at 3kHz', 30, 0],
    ['treble 10dB at 3kHz', 3e3, 5],
    ['treble 10dB at 3kHz', 300e3, 10],
    ['treble high at 3kHz', 300e3, -4],
    ['mid 8dB at 700Hz', 700, 8],
    ['mid -8dB at 700Hz', 700, -8],
    ['mid 8dB at 700Hz', 7, 0],
    // A first-order low pass: 10 log 2 dB at its corner, 20 dB a decade beyond.
    ['pole 5kHz', 5e3, -3.0103],
    ['pole 5kHz', 500e3, -40.0004],
  ])('%s: at %f Hz %f dB', (bands, hz, db) => {
    expect(at(preamp(bands), hz).db - decibels(2)).toBeCloseTo(db, 1);
  });

  it('has a knob for each band that names one: nothing at 5, all of it at 10, its contrary at 0', () => {
    const circuit = preamp('bass 12dB at 100Hz by bass, treble 10dB at 3kHz by treble');
    expect(circuit.shafts.map(({ name, rest }) => [name, rest])).toEqual([
      ['pre.bass', 5],
      ['pre.treble', 5],
    ]);
    const [bass, treble] = circuit.shafts.map(({ id }) => id);
    const turned = (rotation: number, hz: number, shaft = bass!): number =>
      at(circuit, hz, withRotation(restingSetting(circuit), shaft, rotation)).db - decibels(2);
    expect(turned(5, 1)).toBeCloseTo(0, 2);
    expect(turned(10, 1)).toBeCloseTo(12, 1);
    expect(turned(0, 1)).toBeCloseTo(-12, 1);
    expect(turned(7.5, 1)).toBeCloseTo(6, 1);
    expect(turned(10, 300e3, treble)).toBeCloseTo(10, 1);
  });
});

describe('a piezo', () => {
  // A capacitance into a resistance: 3 dB down at 1 / (2π R C).
  it('loses its bass into the amplifier’s resistance', () => {
    const circuit = soundCircuit(`rig { cable 0pF, input 1M }
part saddle : piezo 500pF
part output : jack
wire saddle.hot to output.tip
wire saddle.ground to output.sleeve`);
    const corner = 1 / (2 * Math.PI * 1e6 * 500e-12);
    expect(at(circuit, corner).db).toBeCloseTo(-3.0103, 3);
    expect(at(circuit, 100 * corner).db).toBeCloseTo(0, 3);
    expect(describeSound(circuit, restingSetting(circuit)).hum).toBe('none');
    expect(readAtJack(circuit, restingSetting(circuit)).ohm).toBeNull();
  });
});

describe('the capacitance of an amplifier’s input', () => {
  // In parallel with the lead: capacitances add.
  it('loads like as much more of lead', () => {
    const on = (rig: string): AnalysedCircuit =>
      soundCircuit(`rig { ${rig} }
part coil : single-coil
part output : jack
wire coil.hot to output.tip
wire coil.ground to output.sleeve`);
    const [apart, together, without] = ['cable 400pF, input 1M 150pF', 'cable 550pF, input 1M', 'cable 400pF, input 1M'].map(on);
    for (const hz of [100, 3000, 9000]) expect(at(apart!, hz).db).toBeCloseTo(at(together!, hz).db, 9);
    expect(at(without!, 9000).db).toBeGreaterThan(at(apart!, 9000).db + 1);
  });
});

describe('a transformer', () => {
  // Unloaded, the secondary has k n of the voltage across the primary's inductance; the deck is written by hand.
  it('lifts the voltage by its turns', async () => {
    const circuit = soundCircuit(`rig { cable 300pF, input 1M }
part coil : single-coil 180R 60mH 0pF
part lift : transformer { ratio 8, inductance 3H, primary 40R, secondary 1.5k, coupling 99.5% }
part output : jack
wire coil.hot to lift.p1
wire coil.ground to lift.p2 to lift.s2 to output.sleeve
wire lift.s1 to output.tip`);
    const deck = `* a lifted coil
V1 m 0 DC 0 AC 1
R1 m n 180
L1 n p1 0.06
R2 p1 q 40
L2 q 0 3
R3 tip r 1500
L3 r 0 192
K1 L2 L3 0.995
C1 tip 0 300e-12
R4 tip 0 1000000
.ac dec 10 50 10000
.print ac vdb(tip)
.end`;
    for (const { hz, re, im } of await sweepReference(deck, 'tip'))
      expect(Math.abs(at(circuit, hz).db - decibels(Math.hypot(re, im))), `${hz} Hz`).toBeLessThan(0.01);
    expect(describeSound(circuit, restingSetting(circuit)).silent).toBe(false);
  });
});

describe('diodes', () => {
  const clipped = (diodes: string): AnalysedCircuit =>
    soundCircuit(`part coil : single-coil
part output : jack
wire coil.hot to output.tip
wire coil.ground to output.sleeve
${diodes}`);

  it('are open for signals where no battery drives them, and never metered', () => {
    const [plain, both] = [
      clipped(''),
      clipped('part a : diode from output.tip to output.sleeve\npart b : diode from output.sleeve to output.tip'),
    ];
    expect(at(both, 1000).db).toBe(at(plain, 1000).db);
    const reading = readAtJack(both, restingSetting(both));
    expect(reading.ohm).toBeNull();
    expect(reading.unknown).toBe(true);
    expect(reading.note).toContain('through a diode');
  });

  it('behind a capacitor leave the reading as it was', () => {
    const circuit = clipped('part c : capacitor 10nF from output.tip to d.anode\npart d : led\nwire d.cathode to output.sleeve');
    expect(readAtJack(circuit, restingSetting(circuit)).ohm).toBeCloseTo(6500, 6);
  });

  const guarded = (anode: string, cathode: string): AnalysedCircuit =>
    soundCircuit(`${source}
part stage : buffer
part guard : diode from ${anode} to ${cathode}
wire source.hot to stage.in
wire stage.minus to output.sleeve
wire stage.out to output.tip`);

  it('in the supply pass one way only', () => {
    const [right, wrong] = [guarded('cell.plus', 'stage.plus'), guarded('stage.plus', 'cell.plus')];
    expect(describeSound(right, restingSetting(right)).silent).toBe(false);
    expect(describeSound(wrong, restingSetting(wrong)).silent).toBe(true);
  });

  // 9 V over a red LED and a resistor: (9 − 1.8) V / R through a junction of 26 Ω at most leaves the signal next to a short.
  it('carry the signal while a battery lights them', () => {
    const lamp = (anode: string, cathode: string): AnalysedCircuit =>
      soundCircuit(`${source}
part lamp : led from ${anode} to ${cathode}
part top : junction
part r : resistor 4.7k from cell.plus to top
part c : capacitor 100uF from source.hot to top
wire top to output.tip`);
    const [lit, dark] = [lamp('top.point', 'output.sleeve'), lamp('output.sleeve', 'top.point')];
    expect(at(lit, 20).db).toBeLessThan(-9);
    expect(at(dark, 20).db).toBeGreaterThan(-0.1);
  });

  it('of Zener’s kind conduct backwards from their voltage on', () => {
    const zener = (volts: string): AnalysedCircuit =>
      soundCircuit(`${source}
part z : zener ${volts} from output.sleeve to top.point
part top : junction
part r : resistor 1k from cell.plus to top
part c : capacitor 100uF from source.hot to top
wire top to output.tip`);
    expect(at(zener('5.1V'), 20).db).toBeLessThan(-9);
    expect(at(zener('12V'), 20).db).toBeGreaterThan(-0.1);
  });
});

describe('relays', () => {
  const relay = (coil: string): AnalysedCircuit =>
    soundCircuit(`part coil : single-coil
part other : single-coil
part k : relay
part on : spst
part cell : battery
part output : jack
wire coil.hot to k.A1
wire other.hot to k.A2
wire coil.ground to other.ground to output.sleeve
wire k.A0 to output.tip
wire cell.plus to on.A0
${coil}`);
  const labels = (circuit: AnalysedCircuit) =>
    enumerate(circuit).settings.map((setting) => `${settingLabel(circuit, setting)}: ${describeSound(circuit, setting).text}`);

  test.each([
    ['one way round', 'wire on.A1 to k.coil-a\nwire k.coil-b to cell.minus'],
    ['the other', 'wire on.A1 to k.coil-b\nwire k.coil-a to cell.minus'],
  ])('are pulled by a battery through a switch, %s', (_, coil) => {
    expect(labels(relay(coil))).toEqual(['k energised, on on: other', 'on off: coil']);
  });

  it('stay at rest without a circuit, and where a resistor takes most of the voltage', () => {
    expect(labels(relay('wire on.A1 to k.coil-a'))).toEqual(['on on: coil', 'on off: coil']);
    expect(labels(relay('part r : resistor 10k from on.A1 to k.coil-a\nwire k.coil-b to cell.minus'))).toEqual([
      'on on: coil',
      'on off: coil',
    ]);
  });

  it('pull another, and the meter finds all of them at rest', () => {
    const circuit = relay(`part second : relay
wire on.A1 to k.coil-a to second.A0
wire k.coil-b to cell.minus to second.coil-b
wire second.coil-a to k.B0
wire k.B2 to on.A1`);
    expect(labels(circuit)[0]).toBe('k energised, on on, second energised: other');
    const [pulled] = enumerate(circuit).settings;
    expect(readAtJack(circuit, pulled!).through).toEqual(elementsOf(circuit, 'coil').map(({ id }) => id));
  });

  it('are where the batteries bring them in the resting setting too, and stay where a question puts them', () => {
    const circuit = relay('wire on.A1 to k.coil-a\nwire k.coil-b to cell.minus');
    expect(describeSound(circuit, restingSetting(circuit)).text).toBe('other');
    const put = (name: string, position: number) => {
      const device = circuit.switches.find((one) => one.name === name)!;
      return withSettings(circuit, [{ kind: 'switch', switch: device.id, position, range: circuit.parts[0]!.range }]);
    };
    expect(describeSound(circuit, put('on', 1)).text).toBe('coil');
    expect(describeSound(circuit, put('k', 0)).text).toBe('coil');
  });

  test.each([
    ['anode', 'cathode', 'lit'],
    ['cathode', 'anode', 'dark'],
  ])('an optocoupler whose %s is on plus and whose %s is on minus is %s', (plus, minus, state) => {
    const circuit = soundCircuit(`part coil : single-coil
part oc : optocoupler
part cell : battery
part output : jack
part r : resistor 1k from cell.plus to oc.${plus}
wire oc.${minus} to cell.minus to output.sleeve
wire coil.hot to output.tip to oc.a
wire coil.ground to output.sleeve to oc.b`);
    const [setting] = enumerate(circuit).settings;
    expect(settingLabel(circuit, setting!)).toBe(state === 'lit' ? 'oc lit' : '');
    // 500 Ω across a coil of 6.5 kΩ and 2.6 H at 100 Hz, by hand: |500 / (500 + 6500 + j 1634)|.
    const loaded = state === 'lit' ? decibels(500 / Math.hypot(7000, 1634)) : 0;
    expect(at(circuit, 100, setting).db).toBeCloseTo(loaded, 0);
  });
});

describe('the decks of these parts, in the general solver', () => {
  const decks: readonly (readonly [string, string])[] = [
    [
      'a piezo through a FET',
      `part saddle : piezo 600pF { output 40% }
part q : jfet 2mS
part rg : resistor 2.2M from q.g to output.sleeve
part rs : resistor 6.8k from q.s to output.sleeve
part c : capacitor 1uF from q.s to output.tip
part cell : battery
part output : jack
wire saddle.hot to q.g
wire saddle.ground to output.sleeve to cell.minus
wire q.d to cell.plus`,
    ],
    [
      'an op-amp at half the supply behind a diode',
      `part coil : humbucker
part amp : op-amp
part cell : battery
part guard : diode from cell.plus to amp.plus
part half : junction
part r1 : resistor 100k from amp.plus to half
part r2 : resistor 100k from half to output.sleeve
part ch : electrolytic 10uF from half to output.sleeve
part rb : resistor 1M from half to amp.noninverting
part cin : capacitor 100nF from coil.hot to amp.noninverting
part rf : resistor 20k from amp.out to amp.inverting
part rg : resistor 10k from amp.inverting to half
part cout : capacitor 1uF from amp.out to output.tip
part output : jack
wire coil.ground to output.sleeve to cell.minus to amp.minus`,
    ],
    [
      'bands one behind the other',
      `type eq : amplifier {
  lugs in out plus minus
  gain from in to out {
    gain 3, input 1M, output 600R, plus plus, minus minus
    pole 12kHz, bass 9dB at 90Hz, mid -7dB at 650Hz, treble 11dB at 2.5kHz
  }
}
part coil : single-coil
part pre : eq
part cell : battery from pre.plus to pre.minus
part output : jack
wire coil.hot to pre.in
wire pre.out to output.tip
wire coil.ground to output.sleeve to pre.minus`,
    ],
    [
      'a transistor with a load in each branch, behind a transformer',
      `part coil : single-coil 200R 80mH 100pF
part lift : transformer { ratio 5 }
part q : transistor
part rb1 : resistor 220k from cell.plus to q.b
part rb2 : resistor 47k from q.b to output.sleeve
part rc : resistor 4.7k from cell.plus to q.c
part re : resistor 1k from q.e to output.sleeve
part c1 : capacitor 220nF from lift.s1 to q.b
part c2 : capacitor 1uF from q.c to output.tip
part cell : battery
part output : jack
wire coil.hot to lift.p1
wire coil.ground to lift.p2 to lift.s2 to output.sleeve to cell.minus`,
    ],
  ];

  test.each(decks)('%s', async (name, text) => {
    const circuit = soundCircuit(text);
    expect(await comparison.response(circuit, restingSetting(circuit), name)).toBe(true);
  });
});
