/** Stages with bands and knobs, transistors and driven positions in types of one's own: what they are made into, and what is said of wrong ones. */
import { describe, expect, test } from 'vitest';
import { circuitOf, elementsOf, soundCircuit } from './harness.js';

const stage = (properties: string): string => `type t : amplifier {
  lugs in out plus minus
  takes lift 6dB
  gain from in to out { plus plus, minus minus, ${properties} }
}
part p : t`;

const messages = (text: string): readonly string[] => circuitOf(text).problems.map(({ message }) => message);

describe('bands', () => {
  test('are kept in order, with their knobs', () => {
    const circuit = soundCircuit(`${stage('pole 20kHz, bass lift at 80Hz by low, treble -9dB at 2.5kHz')} { lift 9dB }`);
    expect(elementsOf(circuit, 'p')).toMatchObject([
      {
        bands: [
          { kind: 'pole', hz: 20e3 },
          { kind: 'bass', hz: 80, db: 9, shaft: 0 },
          { kind: 'treble', hz: 2500, db: -9 },
        ],
      },
    ]);
    expect(circuit.shafts).toMatchObject([{ name: 'p', rest: 5, tracks: [] }]);
  });

  test.each([
    ['bass 6dB', 'bass takes decibels at a frequency: bass 6dB at 100Hz, or with its knob: bass 12dB at 100Hz by bass'],
    ['bass 6dB at', 'bass takes decibels at a frequency: bass 6dB at 100Hz, or with its knob: bass 12dB at 100Hz by bass'],
    ['mid 6dB at 100Hz by', 'mid takes decibels at a frequency: mid 6dB at 100Hz, or with its knob: mid 12dB at 100Hz by mid'],
    ['treble 6 at 3kHz', '6 has no unit; treble takes a number of decibels such as 3dB'],
    ['treble 6dB at 3k', '3k is a resistance; treble takes a frequency such as 3.2kHz'],
    ['bass 6dB at 0Hz', 'frequency of bass of p must be greater than zero'],
  ])('%s: %s', (properties, message) => {
    expect(messages(stage(properties))).toEqual([message]);
  });

  test('are set by the name of their knob', () => {
    const text = `${stage('bass 6dB at 80Hz by low, treble 6dB at 3kHz by high')}
part coil : single-coil
part output : jack
wire coil.hot to p.in
wire p.out to output.tip
wire coil.ground to output.sleeve to p.minus
part cell : battery from p.plus to p.minus
expect p.low 8 : sounds coil
expect p.middle 8 : sounds coil`;
    expect(messages(text)).toHaveLength(1);
    expect(messages(text)[0]).toContain('middle');
  });
});

describe('positions that a battery brings about', () => {
  const relay = (body: string): string => `type k : switch {
  lugs a b x y
  positions open closed
  ${body}
  resistor from a to b { resistance 500R }
}`;

  test('know the two lugs, and whether the direction counts', () => {
    const either = soundCircuit(`${relay('at closed across a and b joins x y\n  rest open')}\npart p : k`);
    expect(either.switches).toMatchObject([{ rest: 0, drive: { position: 1, eitherWay: true } }]);
    const one = soundCircuit(`${relay('at closed from a to b joins x y\n  rest open')}\npart p : k`);
    expect(one.switches).toMatchObject([{ rest: 0, drive: { position: 1, eitherWay: false } }]);
  });

  test.each([
    ['at closed across a and b joins x y', 'k needs a position to rest in while no current flows: rest open'],
    ['at closed across a and b joins x y\n  rest closed', 'k needs a position to rest in while no current flows: rest open'],
    ['at closed across a and c joins x y\n  rest open', 'k has no lug c; it has a b x y'],
    [
      'at open from a to b joins x y\n  at closed across a and b joins x y\n  rest open',
      'a battery brings k into one position only, which is open',
    ],
  ])('%s: %s', (body, message) => {
    expect(messages(relay(body))).toContain(message);
  });

  test('hold contacts of points inside', () => {
    const circuit = soundCircuit('part p : optocoupler');
    const [, lit] = circuit.switches[0]!.positions;
    expect(lit!.joins).toHaveLength(1);
  });
});

describe('transistors', () => {
  // −gm · ro, by Norton and Thévenin.
  test.each([
    ['jfet 2mS { output 50k }', -100, 'forward'],
    ['jfet 2mS { output 50k, channel p }', -100, 'backward'],
    ['transistor 40mS { output 100k, polarity pnp }', -4000, 'backward'],
  ])('%s', (type, gain, transistor) => {
    const [element] = elementsOf(soundCircuit(`part p : ${type}`), 'p');
    expect(element).toMatchObject({ kind: 'gain', transistor });
    expect(element?.kind === 'gain' ? element.gain : undefined).toBeCloseTo(gain, 9);
  });

  test('say that a transconductance has its unit', () => {
    expect(messages('part p : jfet { transconductance 2 }')).toEqual([
      '2 has no unit; transconductance takes a transconductance such as 2mS',
    ]);
  });
});
