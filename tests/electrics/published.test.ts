/** Figures from outside, each with its source. P: published; C: follows by the formula beside it; M: from memory. */
import { wireDiameter } from '../../language/circuit/index.js';
import { describe, expect, it } from 'vitest';
import {
  capacitorAnswer,
  copperAt,
  createSolver,
  describeSound,
  isPreferred,
  letterCode,
  nearestPreferred,
  nets,
  readAtJack,
  responseSummary,
  restingSetting,
  taperShare,
  threeDigitCode,
  transferImpedance,
  wireCapacitance,
  wireResistance,
  withRotation,
} from '../../language/electrics/index.js';
import { altered, shaftId, type AnalysedCircuit, type LugId } from '../../language/circuit/model.js';
import { circuit, type CoilValues } from './builder.js';

/** Magnitude at the output of all coils at one frequency. */
function levelAt(made: AnalysedCircuit, hz: number, rotation?: number): number {
  const rest = restingSetting(made);
  const setting = rotation === undefined ? rest : withRotation(rest, shaftId(0), rotation);
  const { re, im } = createSolver(made, nets(made, setting.positions), setting).sweep([hz]);
  return Math.hypot(re[0]!, im[0]!);
}

const bare = (values: CoilValues, cable: number, input = Infinity): AnalysedCircuit =>
  circuit()
    .single('coil', values)
    .wire('coil.hot', 'output.tip')
    .wire('coil.ground', 'output.sleeve')
    .rigged(cable, input)
    .build();

describe('coils and resonance', () => {
  it('100 mH, 210 Ω, 100 kHz: 25.33 pF and a series Q of 299.20 (P and C: C. E. LaForest, "Characterizing Magnetic Guitar Pickups (and Other Large Inductors)")', () => {
    const farad = 1 / ((2 * Math.PI * 100e3) ** 2 * 0.1);
    expect(farad * 1e12).toBeCloseTo(25.33, 2);
    const made = bare({ ohm: 210, henry: 0.1, farad: 25.33e-12 }, 0);
    const z = transferImpedance(
      made,
      restingSetting(made),
      [made.output!.tip, made.output!.sleeve],
      [made.output!.tip, made.output!.sleeve],
      100e3,
    )!;
    // At its resonance the real part of a parallel circuit is Q²·R.
    expect(Math.sqrt(z.re / 210)).toBeCloseTo(299.2, 0);
  });

  it.each([
    [300e-12, 5931.4],
    [2400e-12, 2097.1],
  ])('2.4 H with %f F: %f Hz (P in words, C: f = 1/2π√LC; "Instrument Cable and Sound")', (cable, hz) => {
    expect(responseSummary(bare({ ohm: 1, henry: 2.4 }, cable), { positions: [], rotations: [] }).peak!.hz).toBeCloseTo(hz, 1);
  });

  it('instrument cable: 30 pF a foot, 98.43 pF a metre (P: Sound on Sound, November 2009)', () => {
    expect(wireCapacitance('shielded', 1) * 1e12).toBeCloseTo(98.43, 2);
  });

  it('a coil of 6.30 kΩ at 35 °C is 5.949 kΩ at 20 °C (C; coefficient P: IEC 60028:1925)', () => {
    expect(copperAt(6300, 35) / 1000).toBeCloseTo(5.949, 3);
  });

  it('a network of twelve parts at 1.5 kHz: 108.919 + j51.022 kΩ (C, three ways; values from a physics exercise)', () => {
    const b = circuit().rigged(0, Infinity);
    for (const point of ['a', 'b', 'c', 'd', 'e', 'f', 'g']) b.metal(point);
    b.inductor('l', 5.8, 'a', 'b', 11_900).resistor('r1', 142e3, 'b', 'c').capacitor('c1', 46e-9, 'c', 'd');
    b.resistor('r2', 243e3, 'b', 'e').resistor('r3', 73e3, 'e', 'd');
    b.resistor('r4', 1.8, 'e', 'f').capacitor('c2', 597e-12, 'f', 'd').resistor('r5', 26e6, 'f', 'd');
    const made = b.build();
    const at = (label: string): LugId => made.lugs.find((lug) => lug.label === label)!.id;
    const z = transferImpedance(made, restingSetting(made), [at('a'), at('d')], [at('a'), at('d')], 1500)!;
    expect(z.re / 1000).toBeCloseTo(108.919, 3);
    expect(z.im / 1000).toBeCloseTo(51.022, 3);
  });

  it('AWG 42: 0.0633 mm, 5470 Ω/km (P: Standard Handbook for Electrical Engineers, 14th ed., 2000)', () => {
    expect(wireDiameter(42) * 1e3).toBeCloseTo(0.0633, 4);
    expect(Math.abs(wireResistance(42, 1000) / 5470 - 1)).toBeLessThan(0.003);
  });

  it('3 H, 7.5 kΩ, 500 pF into 250 kΩ: Q 2.4957, peak 3999.6 Hz, 8.122 dB over DC (C, twice; H(s) = 1/(1 + Rs/Rl + s(L/Rl + RsC) + s²LC))', () => {
    const { peak, levelDb } = responseSummary(bare({}, 500e-12, 250e3), { positions: [], rotations: [] });
    expect(peak!.hz).toBeCloseTo(3999.6, 1);
    // The reference is the level at the middle of 80 Hz to 1.3 kHz, where this one has its median: it only rises there.
    const dc = 20 * Math.log10(250 / 257.5);
    expect(levelDb! + peak!.db - dc).toBeCloseTo(8.122, 2);
    const [l, c, rs, rl] = [3, 500e-12, 7500, 250e3];
    const q = Math.sqrt(l * c * (1 + rs / rl)) / (l / rl + rs * c);
    expect(q).toBeCloseTo(2.4957, 4);
    expect(levelDb! + peak!.db - dc).toBeCloseTo(20 * Math.log10(q / Math.sqrt(1 - 1 / (4 * q * q))), 3);
    const w = 2 * Math.PI * Math.sqrt(80 * 1300);
    expect(levelDb).toBeCloseTo(-20 * Math.log10(Math.hypot(1 + rs / rl - w * w * l * c, w * (l / rl + rs * c))), 3);
  });
});

describe('DC resistance at the jack (C: a∥b = ab/(a+b))', () => {
  const one = (pot?: number, tolerance = 0): AnalysedCircuit => {
    const b = circuit().single('coil').wire('coil.ground', 'output.sleeve');
    if (pot === undefined) return b.wire('coil.hot', 'output.tip').build();
    return b
      .pot('volume', { ohm: pot, tolerance })
      .wire('coil.hot', 'volume.3')
      .wire('volume.2', 'output.tip')
      .wire('volume.1', 'output.sleeve')
      .build();
  };
  const two = (kind: 'series' | 'parallel', pot?: number): AnalysedCircuit => {
    const b = circuit().single('first').single('second');
    b.wire('first.ground', 'output.sleeve').wire('second.ground', kind === 'series' ? 'first.hot' : 'output.sleeve');
    if (kind === 'parallel') b.wire('first.hot', 'second.hot');
    if (pot === undefined) return b.wire('second.hot', 'output.tip').build();
    return b
      .pot('volume', { ohm: pot })
      .wire('second.hot', 'volume.3')
      .wire('volume.2', 'output.tip')
      .wire('volume.1', 'output.sleeve')
      .build();
  };
  const ohms = (made: AnalysedCircuit, rotation = 10): number =>
    readAtJack(made, withRotation(restingSetting(made), shaftId(0), rotation)).ohm!;

  it.each([
    ['one pickup, 250 k', one(250e3), 7281.6],
    ['one pickup, 500 k', one(500e3), 7389.2],
    ['two in parallel', two('parallel'), 3750],
    ['two in parallel, 250 k', two('parallel', 250e3), 3694.6],
    ['two in parallel, 500 k', two('parallel', 500e3), 3722.1],
    ['two in series', two('series'), 15_000],
    ['two in series, 250 k', two('series', 250e3), 14_150.9],
    ['two in series, 500 k', two('series', 500e3), 14_563.1],
  ])('%s', (_, made, ohm) => {
    expect(ohms(made)).toBeCloseTo(ohm, 1);
  });

  it('7.5 kΩ with 250 k ±20 %: 7228.9 to 7317.1 Ω', () => {
    // A meter without an error of its own still shows one more or less in the third digit, and the ends are rounded outwards to it.
    const made = altered(one(250e3, 0.2), { build: { meter: 0, temperature: 0 } });
    const { low, high } = readAtJack(made, restingSetting(made));
    expect([low, high]).toEqual([7210, 7330]);
    expect(low).toBe(10 * Math.floor(7228.9 / 10 - 1));
    expect(high).toBe(10 * Math.ceil(7317.1 / 10 + 1));
  });

  it.each([
    [0, 0],
    [0.1, 22_572.8],
    [0.25, 47_330.1],
    [0.5, 64_320.4],
    [0.75, 50_970.9],
    [0.9, 28_398.1],
    [1, 7281.6],
  ])('250 k linear turned to %f', (x, ohm) => {
    expect(ohms(one(250e3), 10 * x)).toBeCloseTo(ohm, 1);
  });

  it('the most is (R + Rp)/4 = 64,375 Ω at 0.515', () => {
    expect(ohms(one(250e3), 5.15)).toBeCloseTo(64_375, 0);
    expect(ohms(one(250e3), 5.15)).toBeGreaterThan(ohms(one(250e3), 5.1));
    expect(ohms(one(250e3), 5.15)).toBeGreaterThan(ohms(one(250e3), 5.2));
  });
});

describe('controls', () => {
  it('audio taper with 10 % at the middle: 2.50 % at a quarter, 32.50 % at three quarters (form P: MathWorks "Potentiometer"; C)', () => {
    expect(taperShare('audio', 0.1, 0.25)).toBeCloseTo(0.025, 12);
    expect(taperShare('audio', 0.1, 0.75)).toBeCloseTo(0.325, 12);
  });

  it('15 % at the middle, in tenths of the travel (C; that 15A means 15 %: M)', () => {
    const percent = [0, 1.33, 3.22, 5.89, 9.66, 15, 22.55, 33.24, 48.36, 69.74, 100];
    expect(percent.map((_, i) => Number((100 * taperShare('audio', 0.15, i / 10)).toFixed(2)))).toEqual(percent);
    expect(percent.map((_, i) => Number((100 - 100 * taperShare('reverse-audio', 0.15, 1 - i / 10)).toFixed(2)))).toEqual(
      percent,
    );
  });

  const divider = circuit()
    .single('source', { ohm: 0, henry: 0 })
    .pot('volume')
    .wire('source.hot', 'volume.3')
    .wire('source.ground', 'volume.1', 'output.sleeve')
    .wire('volume.2', 'output.tip')
    .rigged(0, 1e6)
    .build();

  it('250 k linear at half into 1 MΩ, ideal source: 8/17, −6.547 dB; at 10 %: 0.09780, −20.193 dB (C)', () => {
    expect(levelAt(divider, 1000, 5)).toBeCloseTo(8 / 17, 9);
    expect(20 * Math.log10(levelAt(divider, 1000, 5))).toBeCloseTo(-6.547, 3);
    expect(levelAt(divider, 1000, 1)).toBeCloseTo(0.0978, 5);
    expect(20 * Math.log10(levelAt(divider, 1000, 1))).toBeCloseTo(-20.193, 3);
  });

  it.each([
    ['1 MΩ', 1e6, undefined, 48.229],
    ['500 kΩ', 500e3, undefined, 96.458],
    ['250 kΩ ∥ 1 MΩ', 1e6, 250e3, 241.144],
  ])('3.3 nF in series into %s: half power at the corner (C: f = 1/2πRC)', (_, input, pot, hz) => {
    const b = circuit().single('source', { ohm: 0, henry: 0 }).wire('source.ground', 'output.sleeve').rigged(0, input);
    b.capacitor('cut', 3.3e-9, 'source.hot', 'output.tip');
    if (pot !== undefined) b.resistor('load', pot, 'output.tip', 'output.sleeve');
    expect(levelAt(b.build(), hz)).toBeCloseTo(Math.SQRT1_2, 5);
  });

  it('22 nF and 250 k are no 28.9 Hz filter (P that it misleads: "On pickups and tone controls", guitarhacking.net, 2021): the answer tells resonances', () => {
    const made = circuit()
      .single('coil', { farad: 120e-12 })
      .pot('tone')
      .wire('coil.hot', 'tone.2', 'output.tip')
      .wire('coil.ground', 'output.sleeve')
      .capacitor('cap', 22e-9, 'tone.1', 'output.sleeve')
      .build();
    const answer = capacitorAnswer(made, made.elements.find((element) => element.kind === 'capacitor')!.id)!;
    expect(answer.role).toBe('tone');
    expect(answer.at.map(({ rotation }) => rotation)).toEqual([10, 5, 0]);
    // C: at 0 the capacitor lies across the coil, f0 = 1/2π√(L(C + Cc + Cw)) with its load of 1 MΩ; the coil's 7.5 kΩ leaves Q 1.5.
    const [l, c, rs, rl] = [3, 22e-9 + 500e-12 + 120e-12, 7500, 1e6];
    const f0 = Math.sqrt((1 + rs / rl) / (l * c)) / (2 * Math.PI);
    const q = Math.sqrt(l * c * (1 + rs / rl)) / (l / rl + rs * c);
    expect(answer.at[2]!.response.peak!.hz).toBeCloseTo(f0 * Math.sqrt(1 - 1 / (2 * q * q)), 1);
    for (const { response } of answer.at) expect(response.cutoffHz!).toBeGreaterThan(500);
  });

  it('two equal impedances in parallel: the mean of both EMFs; 1 and −0.8 give 0.1 (C)', () => {
    const made = (output: number, winding: 1 | -1): AnalysedCircuit =>
      circuit()
        .single('one')
        .single('two', { output, winding })
        .wire('one.hot', 'two.hot', 'output.tip')
        .wire('one.ground', 'two.ground', 'output.sleeve')
        .rigged(0, Infinity)
        .build();
    expect(levelAt(made(0.6, 1), 100)).toBeCloseTo(0.8, 9);
    expect(levelAt(made(0.8, -1), 100)).toBeCloseTo(0.1, 9);
  });
});

describe('phase and hum: signal = winding × magnet, hum = winding (P, the rule; C, the table)', () => {
  it.each([
    ['same winding, same magnet', 1, 1, 'parallel(first, second)', 'present'],
    ['same winding, other magnet', 1, -1, 'parallel(first, reversed second)', 'present'],
    ['other winding, same magnet', -1, 1, 'parallel(first, reversed second)', 'cancelled'],
    ['both other', -1, -1, 'parallel(first, second)', 'cancelled'],
  ] as const)('%s', (_, winding, magnet, text, hum) => {
    for (const isTurned of [false, true]) {
      const b = circuit().single('first').single('second', { winding, magnet });
      b.wire('first.hot', 'output.tip').wire('first.ground', 'output.sleeve');
      b.wire(isTurned ? 'second.ground' : 'second.hot', 'output.tip').wire(
        isTurned ? 'second.hot' : 'second.ground',
        'output.sleeve',
      );
      const sound = describeSound(b.build(), { positions: [], rotations: [] });
      // Exchanged leads turn both: what was in phase is not, what cancelled adds.
      const flip = {
        'parallel(first, second)': 'parallel(first, reversed second)',
        'parallel(first, reversed second)': 'parallel(first, second)',
      };
      expect(sound.text).toBe(isTurned ? flip[text] : text);
      expect(sound.hum).toBe(isTurned ? (hum === 'present' ? 'cancelled' : 'present') : hum);
    }
  });
});

describe('standards', () => {
  const e12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2];
  it('preferred numbers (P: IEC 60063), in any decade', () => {
    for (const value of e12)
      for (const power of [-12, -9, 0, 3, 6]) expect(nearestPreferred(value * 10 ** power)).toBe(Number(`${value}e${power}`));
    for (const value of [1.1, 1.3, 1.6, 2, 2.4, 3, 3.6, 4.3, 5.1, 6.2, 7.5, 9.1])
      expect(isPreferred(value), String(value)).toBe(true);
    // Eight members are not the rounded power of 10^(1/24).
    const rounded = Array.from({ length: 24 }, (_, i) => Number((10 ** (i / 24)).toFixed(1)));
    expect([2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2].filter((value) => !rounded.includes(value) && isPreferred(value))).toHaveLength(
      8,
    );
    expect(nearestPreferred(9.6)).toBe(10);
    expect(isPreferred(250e3)).toBe(false);
  });

  it('letter code (P for resistors: IEC 60062; capacitors M)', () => {
    expect([0.47, 4.7, 470, 4700, 47_300, 4.7e6].map((value) => letterCode(value, 'ohm'))).toEqual([
      'R47',
      '4R7',
      '470R',
      '4K7',
      '47K3',
      '4M7',
    ]);
    expect([0.47e-12, 4.7e-9, 22e-9].map((value) => letterCode(value, 'farad'))).toEqual(['p47', '4n7', '22n']);
  });

  it('three digits in picofarads (M)', () => {
    expect([22e-9, 47e-9, 680e-12].map(threeDigitCode)).toEqual(['223', '473', '681']);
  });

  it.each([
    [22, 0.6438, 52.96, 0.644, 53],
    [24, 0.5106, 84.21, 0.511, 84.2],
    [26, 0.4049, 133.9, 0.405, 134],
  ])('AWG %i (C: ASTM B258 form, IEC 60028; handbook table P)', (awg, millimetre, ohm, handbookDiameter, handbookOhm) => {
    expect(wireDiameter(awg) * 1e3).toBeCloseTo(millimetre, 4);
    expect(wireResistance(awg, 1000)).toBeCloseTo(ohm, 1);
    expect(wireDiameter(awg) * 1e3).toBeCloseTo(handbookDiameter, 3);
    expect(Math.abs(wireResistance(awg, 1000) / handbookOhm - 1)).toBeLessThan(0.002);
  });
});
