/** Answers about single values, held against hand working. */
import { describe, expect, it } from 'vitest';
import { partId, shaftId, type Circuit, type ElementId, type LugId, type PartId } from '../../language/circuit/model.js';
import {
  capacitorAnswer,
  letterCode,
  nearestPreferred,
  netAnswer,
  pickupAnswer,
  potLoad,
  restingSetting,
  threeDigitCode,
  wireCapacitance,
  wireResistance,
} from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

const farads = (made: Circuit, name: string): ElementId => made.parts.find((part) => part.name === name)!.elements[0]!;
const partNamed = (made: Circuit, name: string): PartId => made.parts.find((part) => part.name === name)!.id;
/** Peak of a coil of L and R with C across and a load: textbook form, see the published figures. */
const peakOf = (l: number, rs: number, c: number, rl: number): number => {
  const q = Math.sqrt(l * c * (1 + rs / rl)) / (l / rl + rs * c);
  return (Math.sqrt((1 + rs / rl) / (l * c)) / (2 * Math.PI)) * Math.sqrt(1 - 1 / (2 * q * q));
};

const instrument = (): CircuitBuilder =>
  circuit()
    .single('bridge', { farad: 120e-12 })
    .single('neck', { ohm: 6200, henry: 2.4, farad: 110e-12 })
    .toggle('toggle')
    .pot('volume')
    .pot('tone')
    .wire('bridge.hot', 'toggle.A')
    .wire('neck.hot', 'toggle.B')
    .wire('toggle.out', 'volume.3', 'tone.2')
    .wire('volume.2', 'output.tip')
    .wire('volume.1', 'bridge.ground', 'neck.ground', 'output.sleeve')
    .capacitor('cap', 22e-9, 'tone.1', 'output.sleeve');

describe('capacitors', () => {
  it('a tone capacitor: the resonance with its pot at 10, 5 and 0', () => {
    const made = instrument().build();
    const answer = capacitorAnswer(made, farads(made, 'cap'))!;
    expect(answer.role).toBe('tone');
    expect(made.shafts[answer.shaft!]!.name).toBe('tone');
    expect(answer.at.map(({ rotation }) => rotation)).toEqual([10, 5, 0]);
    const [at10, , at0] = answer.at;
    expect(at10!.response.peak!.hz).toBeGreaterThan(2500);
    // At 0 it lies across coil, volume track and amplifier: 22 nF + 0.5 nF + 0.12 nF, 250 k ∥ 1 M.
    expect(at0!.response.peak!.hz).toBeCloseTo(peakOf(3, 7500, 22.62e-9, 200e3), 0);
    expect(at0!.trebleDb).toBeLessThan(-20);
    expect(Math.abs(at0!.bassDb)).toBeLessThan(0.5);
    expect(answer.says).toMatch(/^takes treble to ground: peak \d\.\d\d kHz/);
  });

  it('a treble bleed, on the volume', () => {
    const made = instrument().capacitor('bleed', 1e-9, 'volume.3', 'volume.2').build();
    const answer = capacitorAnswer(made, farads(made, 'bleed'))!;
    expect(answer.role).toBe('treble-bleed');
    expect(made.shafts[answer.shaft!]!.name).toBe('volume');
    expect(answer.at.find(({ rotation }) => rotation === 5)!.trebleDb).toBeGreaterThan(1);
  });

  it('a bass cut in the way of the signal', () => {
    const b = circuit()
      .single('coil')
      .pot('volume')
      .wire('coil.ground', 'volume.1', 'output.sleeve')
      .wire('volume.2', 'output.tip')
      .capacitor('cut', 3.3e-9, 'coil.hot', 'volume.3');
    const made = b.build();
    expect(capacitorAnswer(made, farads(made, 'cut'))!.role).toBe('bass-cut');
  });

  it('one that does nothing, and an element that is none', () => {
    const made = instrument().metal('m').capacitor('idle', 1e-9, 'm', 'output.sleeve').build();
    expect(capacitorAnswer(made, farads(made, 'idle'))).toMatchObject({ role: 'none', says: 'changes nothing here' });
    expect(capacitorAnswer(made, farads(made, 'volume'))).toBeUndefined();
  });
});

describe('pickups and pots', () => {
  it('a pickup alone, on a lead, in place', () => {
    const made = instrument().build();
    const answer = pickupAnswer(made, partNamed(made, 'bridge'))!;
    // Alone only the winding's own 120 pF are there: 1/2π√(3 H · 120 pF).
    expect(answer.alone.peak!.hz).toBeCloseTo(peakOf(3, 7500, 120e-12, Infinity), 0);
    expect(answer.onLead.peak!.hz).toBeCloseTo(peakOf(3, 7500, 620e-12, 1e6), 0);
    expect(answer.inPlace!.setting.positions).toEqual([0]);
    expect(answer.inPlace!.response.peak!.db).toBeLessThan(answer.onLead.peak!.db);
    expect(answer.approximate).toBe(false);
  });

  it('a pickup of two coils has the values of both in series', () => {
    const made = circuit().humbucker('neck', { farad: 120e-12 }).build();
    const answer = pickupAnswer(made, partNamed(made, 'neck'))!;
    expect(answer.onLead.peak!.hz).toBeCloseTo(peakOf(3, 7500, 620e-12, 1e6), 0);
    // |1 / (1 + R/Rl − ω²LC + jω(L/Rl + RC))| at √(80 Hz · 1.3 kHz), where a level that only rises has its median.
    const w = 2 * Math.PI * Math.sqrt(80 * 1300);
    const [re, im] = [1 + 7.5e3 / 1e6 - w * w * 3 * 620e-12, w * (3 / 1e6 + 7500 * 620e-12)];
    expect(answer.onLead.levelDb).toBeCloseTo(-20 * Math.log10(Math.hypot(re, im)), 3);
    expect(answer).toMatchObject({ approximate: true });
    expect(answer.inPlace).toBeUndefined();
    expect(pickupAnswer(made, partId(0))).toBeUndefined();
  });

  it('a pot takes height from the peak of each pickup', () => {
    const made = instrument().build();
    const loads = potLoad(made, shaftId(0));
    expect(loads.map(({ pickup }) => made.parts[pickup]!.name)).toEqual(['bridge', 'neck']);
    const [bridge] = loads;
    expect(bridge!.setting.positions).toEqual([0]);
    expect(bridge!.takes).toBeCloseTo(bridge!.withoutPot.peak!.db - bridge!.withPot.peak!.db, 12);
    expect(bridge!.takes).toBeGreaterThan(1);
  });
});

it('a net, its lugs and its resistance to ground', () => {
  const made = instrument().build();
  const lug = (label: string): LugId => made.lugs.find((one) => one.label === label)!.id;
  const answer = netAnswer(made, restingSetting(made), lug('toggle.A'));
  // At 10 the wiper stands on lug 3, but that is the track's doing and no joint.
  expect(answer.lugs.map((id) => made.lugs[id]!.label)).toEqual(['bridge.hot', 'toggle.A', 'toggle.out', 'volume.3', 'tone.2']);
  expect(answer).toMatchObject({ name: 'bridge_hot', isGround: false, isOutput: false });
  expect(answer.toGround!.ohm).toBeCloseTo((7500 * 250e3) / 257.5e3, 6);
  expect(netAnswer(made, restingSetting(made), lug('volume.1'))).toMatchObject({ name: '0', isGround: true });
});

describe('wire and codes', () => {
  it('resistance grows with length, by four at half the diameter (six gauges)', () => {
    expect(wireResistance(22, 2)).toBeCloseTo(2 * wireResistance(22, 1), 12);
    expect(wireResistance(28, 1) / wireResistance(22, 1)).toBeCloseTo(4.02, 2);
  });

  it('capacitance: shielded more than twisted more than plain', () => {
    const [shielded, twisted, plain] = (['shielded', 'twisted', 'plain'] as const).map((kind) => wireCapacitance(kind, 1)) as [
      number,
      number,
      number,
    ];
    expect(shielded).toBeGreaterThan(twisted);
    expect(twisted).toBeGreaterThan(plain);
    expect(plain).toBeGreaterThan(5e-12);
  });

  it('codes round, and refuse what they cannot hold', () => {
    expect([0, 1000, 999_999, 1e6, 12.34, -1].map((value) => letterCode(value, 'ohm'))).toEqual([
      '0R',
      '1K',
      '1M',
      '1M',
      '12R3',
      '?',
    ]);
    expect([2.2e-6, 100e-12].map((value) => letterCode(value, 'farad'))).toEqual(['2µ2', '100p']);
    expect([100e-12, 1e-6, 1e-12].map(threeDigitCode)).toEqual(['101', '105', undefined]);
    expect(nearestPreferred(0)).toBeNaN();
    expect(nearestPreferred(0.02e-6)).toBe(2.2e-8);
  });
});
