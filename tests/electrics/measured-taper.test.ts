/** A taper as measured points: read, refused with the place, interpolated, metered and heard, beside dividers worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { circuitFromJson, circuitToJson, topologySignature, valuesSignature } from '../../language/circuit/index.js';
import {
  branchesOf,
  controlEffects,
  meter,
  response,
  restingSetting,
  trackShare,
  withRotation,
} from '../../language/electrics/index.js';
import { circuitOf, expectProblems, lugOf, soundCircuit, trackOf } from '../circuit/harness.js';
import { createComparison } from './comparison.js';

const points = '"0 0%, 25 4%, 50 16%, 75 55%, 100 100%"';
const withTaper = (properties: string, type = 'pot 500k'): string => `
part p : single-coil 7.5k 3H 100pF
part volume : ${type} { ${properties} }
part out : jack
wire p.hot to volume.3
wire volume.2 to out.tip
wire p.ground to volume.case to out.sleeve
solder volume.1 to volume.case
`;
const measured = soundCircuit(withTaper(`taper ${points}`));

/** Ohms of both halves of the volume's track. */
function halves(circuit: AnalysedCircuit, rotation: number): readonly number[] {
  const { rotations } = withRotation(restingSetting(circuit), circuit.shafts[0]!.id, rotation);
  return branchesOf(circuit, rotations).flatMap(({ of, ohm }) => (of === 'lower' || of === 'upper' ? [ohm] : []));
}

describe('points', () => {
  test('count rotations to 100 or to 10, and the share of the resistance from lug 1', () => {
    const expected = [
      { travel: 0, share: 0 },
      { travel: 0.25, share: 0.04 },
      { travel: 0.5, share: 0.16 },
      { travel: 0.75, share: 0.55 },
      { travel: 1, share: 1 },
    ];
    for (const written of [points, '"0 0%, 2.5 4%, 5 16%, 7.5 55%, 10 100%"', '"0% 0%,25% 4 %,50% 16%, 75%  55%,100% 100%"']) {
      const track = trackOf(soundCircuit(withTaper(`taper ${written}`)), 'volume');
      expect([track.taper, track.points]).toEqual(['measured', expected]);
    }
  });

  // By hand: a quarter of the way from 4 % to 16 % is 7 %, half of the way from 16 % to 55 % is 35.5 %; of 500 k each.
  test.each([
    [0, 0, 500e3],
    [2.5, 20e3, 480e3],
    [3.125, 35e3, 465e3],
    [5, 80e3, 420e3],
    [6.25, 177.5e3, 322.5e3],
    [9, 410e3, 90e3],
    [10, 500e3, 0],
  ])('at %d the halves of 500 k are %d and %d ohms', (rotation, lower, upper) => {
    const [below, above] = halves(measured, rotation);
    expect(below).toBeCloseTo(lower, 4);
    expect(above).toBeCloseTo(upper, 4);
  });

  test('a flat stretch stays flat, and the share never falls between points', () => {
    const { points: flat } = trackOf(soundCircuit(withTaper('taper "0 0%, 1 0%, 5 10%, 6 10%, 9 100%, 10 100%"')), 'volume');
    const shares = Array.from({ length: 201 }, (_, i) => trackShare({ taper: 'measured', mid: 0.15, points: flat! }, i / 200));
    expect(shares.every((share, i) => i === 0 || share >= shares[i - 1]!)).toBe(true);
    expect([shares[10], shares[20], shares[100], shares[110], shares[180], shares[200]]).toEqual([0, 0, 0.1, 0.1, 1, 1]);
  });

  test('turned left, on a blend and with what the ends keep they count as a law does', () => {
    // At 10 the wiper of a pot that turns left is at lug 1.
    expect(halves(soundCircuit(withTaper(`taper ${points}, turn left`)), 7.5)[0]).toBeCloseTo(20e3, 4);
    expect(halves(soundCircuit(withTaper(`taper ${points}, end 50R`)), 0)[0]).toBeCloseTo(50, 6);
    const blend = soundCircuit(withTaper(`taper ${points}`, 'pot-blend 500k').replaceAll(/volume\.([123])/g, 'volume.$1a'));
    // Track a is full at 5: at 2.5 its wiper is half way, 16 %.
    expect(halves(blend, 2.5)[0]).toBeCloseTo(80e3, 4);
  });
});

test('the meter reads the divider that the points give', () => {
  const setting = withRotation(restingSetting(measured), measured.shafts[0]!.id, 5);
  const { ohm } = meter(measured, setting, lugOf(measured, 'out.tip').id, lugOf(measured, 'out.sleeve').id);
  // 16 % of 500 k across 84 % of it and the pickup: 80 k ∥ (420 k + 7.5 k).
  expect(ohm).toBeCloseTo((80e3 * 427.5e3) / 507.5e3, 1);
});

test('the points of a linear pot sound as a linear pot, and those of an audio one at its points', () => {
  const straight = soundCircuit(withTaper('taper "0 0%, 10 100%"'));
  const linear = soundCircuit(withTaper('taper linear'));
  for (const rotation of [0, 2, 5, 9, 10]) expect(halves(straight, rotation)).toEqual(halves(linear, rotation));
  // Published check value: 15 % at mid rotation, 5.89 % at 3, 48.36 % at 8 (the exponential law, rounded).
  const audio = soundCircuit(withTaper('taper audio'));
  const table = soundCircuit(withTaper('taper "0 0%, 3 5.89%, 5 15%, 8 48.36%, 10 100%"'));
  for (const rotation of [3, 5, 8])
    expect(Math.abs(halves(table, rotation)[0]! / halves(audio, rotation)[0]! - 1)).toBeLessThan(1e-3);
});

test('ours beside the general solver, turned', async () => {
  const comparison = createComparison();
  for (const rotation of [10, 8.2, 5, 3.125, 1]) {
    const setting = withRotation(restingSetting(measured), measured.shafts[0]!.id, rotation);
    expect(await comparison.response(measured, setting, `at ${rotation}`)).toBe(true);
  }
});

test('it is found to be a volume, and the wrong way round where its ends are exchanged', () => {
  expect(controlEffects(measured)[0]).toMatchObject({ role: 'volume', backwards: false });
  const turned = soundCircuit(
    withTaper(`taper ${points}`).replace('p.hot to volume.3', 'p.hot to volume.1').replace('solder volume.1', 'solder volume.3'),
  );
  expect(controlEffects(turned)[0]).toMatchObject({ role: 'volume', backwards: true });
});

test('each track, a value in hand, a type of one’s own and a part inside take points', () => {
  const dual = soundCircuit(`part d : pot-dual 250k audio { taper-b "0 0%, 5 30%, 10 100%" }\n`);
  expect([trackOf(dual, 'd', 'a').taper, trackOf(dual, 'd', 'b').points?.[1]?.share]).toEqual(['audio', 0.3]);
  const own = soundCircuit(`
type rim-pot : control {
  lugs 1 2 3
  takes taper linear|audio
  track a from 1 to 2 wiper 3 { resistance 100k, taper "0 0%, 5 25%, 10 100%" }
  track b from 1 to 2 wiper 3 { resistance 100k, taper taper }
}
part r : rim-pot { taper "0 0%, 5 20%, 10 100%" }
type pair : assembly {
  lugs a b c
  takes taper linear|audio
  part v : pot 100k { taper taper }
  wire a to v.1
  wire b to v.2
  wire c to v.3
}
part two : pair { taper "0 0%, 5 35%, 10 100%" }
`);
  const shareOf = (name: string, track: string): number | undefined => trackOf(own, name, track).points?.[1]?.share;
  expect([shareOf('r', 'a'), shareOf('r', 'b'), shareOf('two.v', '')]).toEqual([0.25, 0.2, 0.35]);
});

test('a point that changes is a value that changes, and JSON keeps the points', () => {
  const other = soundCircuit(withTaper(`taper ${points.replace('16%', '17%')}`));
  expect(topologySignature(other)).toBe(topologySignature(measured));
  expect(valuesSignature(other)).not.toBe(valuesSignature(measured));
  const json: unknown = JSON.parse(JSON.stringify(circuitToJson(measured, { nameOf: (uri) => uri })));
  const read = circuitFromJson(json, { uriOf: (name) => name });
  if ('problem' in read) throw new Error(read.problem);
  const setting = withRotation(restingSetting(measured), measured.shafts[0]!.id, 4);
  expect(response(read.circuit, setting, { points: 9 }).points).toEqual(response(measured, setting, { points: 9 }).points);
});

test('what is no taper is reported at its point, and the pot stays', () => {
  expectProblems(`
part a : pot 250k { taper "0 0%, 5 60%, 7 40%, 10 100%" }
//                                      ^^^^^ value: the shares of a taper never fall: 7 40% can’t follow 5 60%
part b : pot 250k { taper "0 0%, 5 60%, 5 70%, 10 100%" }
//                                      ^^^^^ value: the rotations of a taper rise: 5 70% can’t follow 5 60%
part c : pot 250k { taper "1 0%, 10 100%" }
//                         ^^^^ value: a taper begins at 0 0%, where the wiper is at lug 1, not at 1 0%
part d : pot 250k { taper "0 0%, 9 100%" }
//                               ^^^^^^ value: a taper ends at full rotation with the whole resistance, 10 100%, not at 9 100%
part e : pot 250k { taper "0 0%, 5 120%, 10 100%" }
//                               ^^^^^^ value: 5 120% is more than the whole resistance, 100%
part f : pot 250k { taper "0 0%, five 10%, 10 100%" }
//                               ^^^^^^^^ value: \`five 10%\` is no point of a taper, which is a rotation and a share such as 5 15%
part g : pot 250k { taper "10 100%" }
//                        ^^^^^^^^^ value: a taper has two points at least, from 0 0% to 10 100%, such as "0 0%, 5 15%, 10 100%"
part h : pot 250k { taper "" }
//                        ^^ value: taper has no points; write a rotation and the share of the resistance up to the wiper each: "0 0%, 5 15%, 10 100%"
part i : pot 250k { taper "0 0%, -5 10%, 10 100%" }
//                               ^^^^^^ value: the rotations of a taper rise: -5 10% can’t follow 0 0%
part j : pot 250k { taper "0 0%, 5 15, 10 100%" }
//                               ^^^^ value: \`5 15\` is no point of a taper, which is a rotation and a share such as 5 15%
`);
  const circuit = circuitOf('part a : pot 300k audio { taper "0 0%" }\n');
  expect(trackOf(circuit, 'a')).toMatchObject({ taper: 'audio', resistance: { value: 300e3 } });
  const many = Array.from({ length: 102 }, (_, i) => `${i} 0%`).join(', ');
  expect(circuitOf(`part a : pot 300k { taper "${many}" }\n`).problems.map(({ message }) => message)).toEqual([
    'taper takes 101 points at most, not 102',
  ]);
});
