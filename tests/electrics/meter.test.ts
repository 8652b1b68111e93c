/** The ohmmeter: readings, their spread, and the words for what is read. */
import { altered } from '../../language/circuit/model.js';
import { type LugId, shaftId } from '../../language/circuit/model.js';
import { describe, expect, it } from 'vitest';
import { meter, readAtJack, restingSetting, withRotation } from '../../language/electrics/index.js';
import { meterLimits } from '../harness/meter-limits.js';
import { circuit, type CircuitBuilder } from './builder.js';

const atJack = (b: CircuitBuilder) => {
  const made = b.build();
  return readAtJack(made, restingSetting(made));
};
const coilAtTip = (): CircuitBuilder => circuit().single('coil', { tolerance: 0.1 }).wire('coil.ground', 'output.sleeve');

describe('what is read', () => {
  it('a pickup needs no note', () => {
    expect(atJack(coilAtTip().wire('coil.hot', 'output.tip'))).toMatchObject({ ohm: 7500, unknown: false });
    expect(atJack(coilAtTip().wire('coil.hot', 'output.tip')).note).toBeUndefined();
  });

  it('nothing: open', () => {
    expect(atJack(coilAtTip())).toMatchObject({
      ohm: null,
      low: null,
      high: null,
      note: 'there is no connection between the two probes',
    });
  });

  it('a short', () => {
    const { ohm, note } = atJack(coilAtTip().wire('coil.hot', 'output.tip', 'output.sleeve'));
    expect([ohm, note]).toEqual([0, 'a short: the two probes are on one net']);
  });

  it('a capacitor in series leaves the volume track as the reading', () => {
    const b = coilAtTip().pot('volume').wire('volume.2', 'output.tip').wire('volume.1', 'output.sleeve');
    const { ohm, note } = atJack(b.capacitor('cut', 3.3e-9, 'coil.hot', 'volume.3'));
    expect(ohm).toBe(250e3);
    expect(note).toBe('only the track of volume: the capacitor cut blocks the pickups');
  });

  it('a track alone, nothing behind it', () => {
    const { note } = atJack(circuit().pot('volume').wire('volume.2', 'output.tip').wire('volume.1', 'output.sleeve'));
    expect(note).toBe('only the track of volume: no pickup is read');
  });

  it('there is no reading through an amplifier stage; the battery is out', () => {
    const b = coilAtTip().buffer('buffer', { output: 1200 }).wire('coil.hot', 'buffer.in').wire('buffer.minus', 'output.sleeve');
    const { ohm, note } = atJack(b.battery('cell', 'buffer.plus', 'buffer.minus').wire('buffer.out', 'output.tip'));
    expect(ohm).toBeNull();
    expect(note).toBe('buffer is in the path of the meter: an ohmmeter gives no useful reading through an amplifier stage');
  });

  it('a stage that only lies across the pickup widens the low end of the reading', () => {
    // 7.5 kΩ ± 10 % and 5 K of copper at 0.393 %, the low end with the stage's 1 MΩ across it.
    const b = coilAtTip().buffer('buffer').wire('coil.hot', 'buffer.in', 'output.tip').wire('buffer.minus', 'output.sleeve');
    const { ohm, low, high, unknown } = atJack(b.battery('cell', 'buffer.plus', 'buffer.minus'));
    expect([ohm, high, unknown]).toEqual([7500, ...meterLimits(0, 7500 * 1.1 * 1.01965).slice(1), false]);
    const cold = 7500 * 0.9 * 0.98035;
    expect(low).toBe(meterLimits((cold * 1e6) / (cold + 1e6), 1)[0]);
  });

  it('an inductor without resistance is a joint for direct current', () => {
    expect(atJack(coilAtTip().inductor('choke', 1, 'coil.hot', 'output.tip')).ohm).toBe(7500);
  });

  it('no jack', () => {
    const made = altered(coilAtTip().build(), { output: undefined });
    expect(readAtJack(made, restingSetting(made))).toMatchObject({ ohm: null, note: 'there is no jack to measure at' });
  });

  it('a value that is not known makes the reading unknown only where it is read', () => {
    const b = circuit()
      .single('coil', { known: false })
      .single('other')
      .wire('coil.ground', 'other.ground', 'output.sleeve')
      .wire('coil.hot', 'output.tip');
    expect(atJack(b)).toMatchObject({ ohm: null, unknown: true });
    const made = b.build();
    const at = (label: string): LugId => made.lugs.find((lug) => lug.label === label)!.id;
    expect(meter(made, restingSetting(made), at('other.hot'), at('other.ground'))).toMatchObject({ ohm: 7500, unknown: false });
  });

  it('between any two lugs', () => {
    const made = coilAtTip().pot('volume').wire('coil.hot', 'volume.3').wire('volume.2', 'output.tip').build();
    const at = (label: string): LugId => made.lugs.find((lug) => lug.label === label)!.id;
    const turned = withRotation(restingSetting(made), shaftId(0), 4);
    expect(meter(made, turned, at('volume.1'), at('volume.3')).ohm).toBeCloseTo(250e3, 6);
    expect(meter(made, turned, at('output.tip'), at('output.sleeve')).ohm).toBeCloseTo(157.5e3, 6);
    expect(meter(made, turned, at('volume.1'), at('volume.1')).ohm).toBe(0);
  });

  it('a milliohm beside a megohm loses nothing', () => {
    const b = circuit();
    for (const point of ['a', 'b', 'c']) b.metal(point);
    b.resistor('r1', 1e7, 'a', 'b')
      .resistor('r2', 1e-3, 'b', 'c')
      .resistor('r3', 1e7, 'a', 'c')
      .wire('a', 'output.tip')
      .wire('c', 'output.sleeve');
    // By hand: (10⁷ + 10⁻³) ∥ 10⁷.
    expect(atJack(b).ohm! / ((1e7 * (1e7 + 1e-3)) / (2e7 + 1e-3)) - 1).toBeCloseTo(0, 14);
  });
});

it('the ends of the spread are the ends of all corners (Rayleigh: each resistor raises the reading)', () => {
  const values = [7500, 250e3, 500e3, 10e3, 6200];
  const build = (factors: readonly number[], tolerance: number) => {
    const b = circuit();
    for (const point of ['a', 'b']) b.metal(point);
    const ends = [
      ['output.tip', 'a'],
      ['a', 'output.sleeve'],
      ['output.tip', 'b'],
      ['b', 'a'],
      ['b', 'output.sleeve'],
    ] as const;
    ends.forEach(([from, to], i) => b.resistor(`r${i}`, values[i]! * factors[i]!, from, to, { tolerance }));
    return atJack(b);
  };
  const corners: number[] = [];
  for (let mask = 0; mask < 32; mask++)
    corners.push(
      build(
        values.map((_, i) => (mask & (1 << i) ? 1.2 : 0.8)),
        0,
      ).ohm!,
    );
  const { low, high } = build([1, 1, 1, 1, 1], 0.2);
  expect([low, high]).toEqual(meterLimits(Math.min(...corners), Math.max(...corners)));
});
