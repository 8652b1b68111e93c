/** The response of one string: notes, nodes, a table worked by hand, signed sums of two pickups, and the general solver with its sources scaled. */
import { describe, expect, test } from 'vitest';
import { elementById, partById, type AnalysedCircuit } from '../../language/circuit/model.js';
import {
  netNames,
  nets,
  response,
  restingSetting,
  sensedShare,
  spiceDeck,
  stringResponse,
  withRotation,
  type Setting,
} from '../../language/electrics/index.js';
import { circuitOf, expectProblems, soundCircuit } from '../circuit/harness.js';
import { sweepReference } from './general-solver.js';

const standard = 'scale 648mm, tuning "E2 A2 D3 G3 B3 E4"';
const two = (neck: string, bridge: string, more = '', strings = standard): string => `
instrument "Alder Lane no. 0" { ${strings} }
part neck : single-coil 6k 2.5H 100pF { ${neck} }
part bridge : single-coil 6k 2.5H 100pF { ${bridge} }
part volume : pot 250k
part out : jack
wire neck.hot to bridge.hot to volume.3
wire volume.2 to out.tip
wire neck.ground to bridge.ground to volume.case to out.sleeve
solder volume.1 to volume.case
${more}`;
const one = (place: string): AnalysedCircuit =>
  soundCircuit(`
instrument "Alder Lane no. 0" { ${standard} }
part p : single-coil 1R 1mH 1pF { ${place} }
part out : jack
wire p.hot to out.tip
wire p.ground to out.sleeve
rig { cable 0pF, input 1M }
`);
const lowE = (circuit: AnalysedCircuit) => circuit.strings!.tuning[0]!;
const level = (factor: number): number => 20 * Math.log10(Math.abs(factor));

test('notes are equally tempered from A4 at 440 Hz (ISO 16:1975)', () => {
  const circuit = soundCircuit(`instrument "Alder Lane no. 0" { scale 648mm, tuning "E2 A2, D3 G3 B3 E4 F#2 Bb1 C4 A4 Cb4" }\n`);
  // Tables of equal temperament, three decimals; C is a semitone above B, and so Cb4 is B3.
  const expected = [82.407, 110, 146.832, 195.998, 246.942, 329.628, 92.499, 58.27, 261.626, 440, 246.942];
  expect(circuit.strings!.tuning.map(({ hz }) => Number(hz.toFixed(3)))).toEqual(expected);
  expect(circuit.strings!.scale).toBeCloseTo(0.648, 12);
});

describe('what a pickup senses of a partial', () => {
  test('by hand: a quarter of the scale from the bridge, 20 mm wide', () => {
    // sin(nπ/4) · sinc(n · 20/1296), the sinc by its series 1 − x²/6 + x⁴/120 with x = π n 20/1296.
    const shares = [1, 2, 3, 4].map((n) => sensedShare({ fromBridge: 0.162, aperture: 0.02 }, 0.648, 100, n * 100));
    [0.70682981, 0.99843377, 0.70461641, 0].forEach((share, i) => expect(shares[i]).toBeCloseTo(share, 7));
    // Beyond the node the sign turns.
    expect(sensedShare({ fromBridge: 0.162, aperture: 0 }, 0.648, 100, 500)).toBeCloseTo(-Math.SQRT1_2, 12);
  });

  test('nothing at a node: every fourth partial at a quarter of the scale, every even one at half of it', () => {
    const silentAt = (fromBridge: number): number[] =>
      stringResponse(one(`from-bridge ${fromBridge}mm`), restingSetting(one(`from-bridge ${fromBridge}mm`)), {
        name: 'E2',
        hz: 82.4069,
      })
        .partials.filter(({ number, db }) => number <= 16 && db < -200)
        .map(({ number }) => number);
    expect(silentAt(162)).toEqual([4, 8, 12, 16]);
    expect(silentAt(324)).toEqual([2, 4, 6, 8, 10, 12, 14, 16]);
  });

  test('an aperture of whole half waves cancels what it covers', () => {
    // sinc is nothing where f w / (2 f0 S) is a whole number: the 6th partial on a third of the scale.
    expect(sensedShare({ fromBridge: 0.3, aperture: 0.2 }, 0.6, 100, 600)).toBeCloseTo(0, 12);
    expect(Math.abs(sensedShare({ fromBridge: 0.31, aperture: 0.2 }, 0.6, 100, 500))).toBeGreaterThan(0.01);
  });
});

test('through next to no impedance the level is the share itself', () => {
  const circuit = one('from-bridge 165mm, aperture 20mm');
  const { partials, points } = stringResponse(circuit, restingSetting(circuit), lowE(circuit), { points: 50 });
  const place = { fromBridge: 0.165, aperture: 0.02 };
  for (const { number, db, factors } of partials.slice(0, 20)) {
    const share = sensedShare(place, 0.648, lowE(circuit).hz, number * lowE(circuit).hz);
    expect(factors).toEqual([{ pickup: circuit.parts[0]!.id, factor: share }]);
    expect(db).toBeCloseTo(level(share), 3);
  }
  for (const { hz, db } of points) expect(db).toBeCloseTo(level(sensedShare(place, 0.648, lowE(circuit).hz, hz)), 2);
});

test('partials above 20 kHz are left out', () => {
  const circuit = one('from-bridge 165mm');
  const setting = restingSetting(circuit);
  const last = (hz: number) => stringResponse(circuit, setting, { name: 'E2', hz }).partials.at(-1)!;
  expect([last(82.4069).number, last(329.628).number, last(1000).number, last(1000).hz]).toEqual([242, 60, 20, 20_000]);
});

describe('two equal pickups in parallel', () => {
  // Check value "two equal impedances in parallel: the mean": of the signed shares here, through the response that both have together.
  const places = ['from-bridge 165mm, aperture 20mm', 'from-bridge 40mm, aperture 15mm'] as const;
  const shares = (hz: number, f0: number): [number, number] => [
    sensedShare({ fromBridge: 0.165, aperture: 0.02 }, 0.648, f0, hz),
    sensedShare({ fromBridge: 0.04, aperture: 0.015 }, 0.648, f0, hz),
  ];

  test('keep their signs partial by partial', () => {
    const circuit = soundCircuit(two(...places));
    const string = lowE(circuit);
    const setting = restingSetting(circuit);
    const { partials } = stringResponse(circuit, setting, string);
    for (const { hz, db } of partials) {
      const [a, b] = shares(hz, string.hz);
      const plain = response(circuit, setting, { from: hz, to: hz * 1.001, points: 2 }).points[0]!.db;
      expect(db).toBeCloseTo(plain + level((a + b) / 2), 4);
    }
    expect(partials.some(({ hz }) => shares(hz, string.hz)[0] * shares(hz, string.hz)[1] < 0)).toBe(true);
  });

  test('out of phase they cancel nowhere ideally, though the plain response is nothing', () => {
    const circuit = soundCircuit(two(places[0], `${places[1]}, wound reverse`));
    const inPhase = soundCircuit(two(...places));
    const setting = restingSetting(circuit);
    expect(response(circuit, setting, { points: 20 }).points.every(({ db }) => db < -200)).toBe(true);
    const string = lowE(circuit);
    for (const { hz, db } of stringResponse(circuit, setting, string).partials) {
      const [a, b] = shares(hz, string.hz);
      const plain = response(inPhase, setting, { from: hz, to: hz * 1.001, points: 2 }).points[0]!.db;
      expect(db).toBeCloseTo(plain + level((a - b) / 2), 4);
    }
  });
});

/** The circuit's deck at one frequency, each source times the share that its pickup senses there. */
function scaledDeck(circuit: AnalysedCircuit, setting: Setting, shares: ReadonlyMap<string, number>, hz: number): string {
  return spiceDeck(circuit, setting)
    .split('\n')
    .map((line) => {
      if (line.startsWith('.ac')) return `.ac lin 1 ${hz} ${hz}`;
      const source = /^V_(\S+) (\S+ \S+) DC 0 AC (\S+) (\S+)$/.exec(line);
      if (source === null) return line;
      const [, name, nodes, amplitude, degrees] = source;
      const share = [...shares].find(([pickup]) => name!.startsWith(`${pickup}_`))![1];
      const turned = share < 0 ? (Number(degrees) + 180) % 360 : Number(degrees);
      return `V_${name} ${nodes} DC 0 AC ${Number(amplitude) * Math.abs(share)} ${turned}`;
    })
    .join('\n');
}

test('the general solver with its sources scaled partial by partial: a two-coil pickup and a single coil, a tone and cable', async () => {
  const circuit = soundCircuit(`
instrument "Alder Lane no. 0" { ${standard} }
part neck : humbucker 8k 4.4H 120pF { from-bridge 150mm, aperture 38mm, coupling 15% }
part bridge : single-coil 6.9k 2.9H 120pF { from-bridge 42mm, aperture 18mm, output 90%, wound reverse }
part volume, tone : pot 250k audio
part cap : capacitor 22nF from tone.2 to tone.case
part out : jack
wire neck.hot to bridge.hot to volume.3 to tone.3
wire volume.2 to out.tip 500mm shielded screen to out.sleeve
wire neck.ground to bridge.ground to volume.case to out.sleeve
wire tone.case to volume.case
solder volume.1 to volume.case
build { shielded-capacitance 200pF }
`);
  const setting = withRotation(restingSetting(circuit), circuit.shafts[1]!.id, 6);
  const string = circuit.strings!.tuning[2]!;
  const net = netNames(circuit, nets(circuit, setting.positions))[nets(circuit, setting.positions).tip]!;
  let worst = 0;
  const { partials } = stringResponse(circuit, setting, string);
  for (const { hz, db, deg, factors } of partials.filter(({ number }) => number <= 8 || number % 12 === 0)) {
    const shares = new Map(factors.map(({ pickup, factor }) => [partById(circuit, pickup).name, factor]));
    const [point] = await sweepReference(scaledDeck(circuit, setting, shares, hz), net);
    const reference = 20 * Math.log10(Math.hypot(point!.re, point!.im));
    if (db < -200) {
      // Both pickups are at a node of this partial.
      expect(reference).toBeLessThan(-200);
      continue;
    }
    worst = Math.max(worst, Math.abs(reference - db));
    const turn = deg - (Math.atan2(point!.im, point!.re) * 180) / Math.PI;
    expect(Math.abs(turn - 360 * Math.round(turn / 360))).toBeLessThan(0.1);
  }
  console.log(`partials of one string against the general solver: worst ${worst.toExponential(1)} dB`);
  expect(worst).toBeLessThan(0.01);
});

describe('what is said of the pickups', () => {
  const names = (parts: readonly { readonly name: string }[]): string[] => parts.map(({ name }) => name);

  test('those without a place are named, and nothing is drawn', () => {
    const circuit = soundCircuit(two('', 'from-bridge 40mm'));
    const found = stringResponse(circuit, restingSetting(circuit), lowE(circuit));
    expect([names(found.missing), found.points, found.partials]).toEqual([['neck'], [], []]);
  });

  test('one that is not heard, or has no output, needs none', () => {
    const more =
      'part switch : spst\nwire spare.hot to switch.A0\nwire switch.A1 to volume.3\nwire spare.ground to volume.case\npart spare : single-coil 6k 2.5H 100pF\n';
    const circuit = soundCircuit(two('from-bridge 165mm', 'from-bridge 40mm', more));
    const at = (position: number) =>
      stringResponse(circuit, { ...restingSetting(circuit), positions: [position] }, lowE(circuit), { points: 5 });
    expect([names(at(0).missing), names(at(1).missing)].sort()).toEqual([[], ['spare']]);
    const dummy = soundCircuit(two('from-bridge 165mm', 'output 0%'));
    expect(names(stringResponse(dummy, restingSetting(dummy), lowE(dummy)).missing)).toEqual([]);
  });

  test('a missing aperture is a point, and the coils of a two-coil pickup are at one place', () => {
    const circuit = soundCircuit(
      two('from-bridge 165mm', 'from-bridge 40mm, aperture 20mm').replace('neck : single-coil', 'neck : humbucker'),
    );
    const found = stringResponse(circuit, restingSetting(circuit), lowE(circuit));
    expect([names(found.pointLike), names(found.severalCoils)]).toEqual([['neck'], ['neck']]);
  });

  test('nothing where nothing reaches the amplifier', () => {
    const circuit = soundCircuit(two('', '').replace('wire volume.2 to out.tip', 'wire volume.1 to out.tip'));
    const found = stringResponse(circuit, restingSetting(circuit), lowE(circuit));
    expect([found.points, found.missing]).toEqual([[], []]);
    expect(found.problem).toMatch(/shorted/);
    expect(elementById(circuit, circuit.elements[0]!.id).kind).toBe('coil');
  });
});

test('what can’t be is reported with its place', () => {
  expectProblems(`
instrument "Alder Lane no. 0" { scale 648mm, tuning "E2 H2 D3 g3" }
//                                                      ^^ value: \`H2\` is no note; write a letter, perhaps # or b, and the octave, such as E2, F#2 or Bb1
//                                                            ^^ value: \`g3\` is no note; write a letter, perhaps # or b, and the octave, such as E2, F#2 or Bb1
part a : single-coil { from-bridge 700mm }
//                                 ^^^^^ value: from-bridge of a is 700 mm, more than the scale of 648 mm
part b : single-coil { from-bridge 100mm, aperture 1m }
//                                                 ^^ value: aperture of b is 1000 mm, more than the scale of 648 mm
part c : single-coil { from-bridge 0mm, aperture 0mm }
//                                 ^^^ value: from-bridge must be greater than zero
//                                               ^^^ value: aperture must be greater than zero
part d : single-coil { from-bridge 165 }
//                                 ^^^ value: 165 has no unit; from-bridge takes a length such as 85mm
`);
  const messages = (properties: string): string[] =>
    circuitOf(`instrument "Alder Lane no. 0" { ${properties} }\n`).problems.map(({ message }) => message);
  expect(messages('tuning "E2"')).toEqual(['a tuning needs the scale as well: { scale 648mm, tuning "E2 A2 D3 G3 B3 E4" }']);
  expect(messages('scale 648')).toEqual(['scale takes the length of the open strings: { scale 648mm }']);
  expect(messages('scale 6.48m')).toEqual(['a scale of 6.48m is no string’s length, which is between 100 mm and 3 m']);
  expect(messages('scale')).toEqual(['scale takes the length of the open strings: { scale 648mm }']);
  for (const tuning of ['tuning ""', 'tuning E2', 'tuning', 'tuning "E2" "A2"'])
    expect(messages(`scale 648mm, ${tuning}`), tuning).toEqual([
      'tuning takes the notes of the open strings in quotes: { tuning "E2 A2 D3 G3 B3 E4" }',
    ]);
  expect(messages('scale 648mm, skale 3')[0]).toBe(
    'an instrument has no property skale; it takes batch, hand, seen, scale and tuning; did you mean scale?',
  );
});
