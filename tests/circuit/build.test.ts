/** `build { … }`: what it sets, where it comes from, what is wrong in it. */
import { expect, test } from 'vitest';
import { circuitOf, expectProblems, soundCircuit } from './harness.js';

test('settings in their units: metres, a share, a gauge, a count', () => {
  const { build } = soundCircuit('build { slack 25mm, strip .5cm, gauge 24awg, fill 45%, spares 2, ends 3, case-ends 1 }\n');
  expect(build).toEqual({ slack: 0.025, strip: 0.005, gauge: 24, fill: 0.45, spares: 2, ends: 3, 'case-ends': 1 });
});

test('preferences in the order are words', () => {
  expect(soundCircuit('build { first signal, leads last, from jack, strip 5mm }\n')).toMatchObject({
    order: { first: 'signal', leads: 'last', from: 'jack' },
    build: { strip: 0.005 },
  });
  expectProblems(`
build { from neck }
//      ^^^^^^^^^ property: from is farthest or jack
`);
});

test('nothing said, nothing set', () => {
  expect(circuitOf('instrument "Alder Lane no. 62"\n').build).toBeUndefined();
});

test('a file that is used may hold the habits of the house; the instrument’s own come first', () => {
  const house = { 'house.lug': 'build { slack 30mm }\n' };
  expect(soundCircuit('use "house.lug"\n', house).build).toEqual({ slack: 0.03 });
  expect(soundCircuit('use "house.lug"\nbuild { slack 10mm }\n', house).build).toEqual({ slack: 0.01 });
});

test('a part may be called build', () => {
  expect(soundCircuit('part build : pot 250k audio\n').parts.map(({ name }) => name)).toContain('build');
});

test('what is wrong is told at its place, and the usual setting holds', () => {
  expectProblems(`
build { slak 20mm, strip 6, fill 5mm, spares 1.5, step 0mm }
//      ^^^^ property: build has no setting slak; it takes slack, lift, strip, step, crossing, depth, gauge, fill, shielded, lead, cable, sleeve, spares, ends, case-ends, nut, knob, pickup-tolerance, meter, temperature, shielded-capacitance, first, leads and from; did you mean slack?
//                 ^^^^^^^ value: 6 is a plain number; strip takes a length such as 85mm
//                          ^^^^^^^^ value: 5mm is a length; fill takes a percentage such as 10%
//                                    ^^^^^^^^^^ value: spares takes a whole number
//                                                ^^^^^^^^ value: step must be greater than zero
build { slack 10mm }
//< \`build { slack 10mm }\` form: there is already a build block; a circuit has one
`);
});

test('the capacitance of shielded wire is for one metre', () => {
  expect(soundCircuit('build { shielded-capacitance 150pF }\n').build).toEqual({ 'shielded-capacitance': 150e-12 });
  expect(soundCircuit('build { shielded-capacitance 0pF }\n').build).toEqual({ 'shielded-capacitance': 0 });
  for (const [given, message] of [
    [
      '150nF',
      '150nF a metre is more than any cable has; shielded-capacitance is for one metre, such as 150pF: a prefix may be wrong',
    ],
    ['-150pF', 'shielded-capacitance must be greater than zero'],
    ['150', '150 is a plain number; shielded-capacitance takes a capacitance such as 22nF'],
    ['3m', '3m is a length; shielded-capacitance takes a capacitance such as 22nF'],
    ['150pF 3m', 'shielded-capacitance takes one value, a capacitance such as 22nF'],
    ['', 'shielded-capacitance takes one value, a capacitance such as 22nF'],
  ] as const) {
    const { build, problems } = circuitOf(`build { shielded-capacitance ${given} }\n`);
    expect(problems.map((problem) => problem.message)).toEqual([message]);
    expect(build).toEqual({});
  }
});
