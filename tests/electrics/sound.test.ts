/** What is heard, how it is joined and whether hum cancels, on circuits whose answer follows from the drawing. */
import { describe, expect, it } from 'vitest';
import { shaftId, switchId, type Arrangement, type AnalysedCircuit, type ElementId } from '../../language/circuit/model.js';
import {
  arrangementText,
  describeSound,
  restingSetting,
  sameArrangement,
  withPosition,
  withRotation,
} from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

const hear = (b: CircuitBuilder): string => {
  const made = b.build();
  const { text, hum } = describeSound(made, restingSetting(made));
  return `${text}, hum ${hum}`;
};
const grounded = (b: CircuitBuilder, ...names: readonly string[]): CircuitBuilder => {
  for (const name of names) b.wire(`${name}.ground`, 'output.sleeve');
  return b;
};

describe('arrangements', () => {
  it('one pickup by its name', () => {
    expect(hear(grounded(circuit().single('bridge'), 'bridge').wire('bridge.hot', 'output.tip'))).toBe('bridge, hum present');
  });

  it('a pickup with both coils in series by its name, its hum cancelled by its second coil', () => {
    expect(hear(grounded(circuit().humbucker('neck'), 'neck').wire('neck.hot', 'output.tip'))).toBe('neck, hum cancelled');
  });

  it('turned round it is the same pickup: phase counts only between coils', () => {
    expect(hear(circuit().single('bridge').wire('bridge.hot', 'output.sleeve').wire('bridge.ground', 'output.tip'))).toBe(
      'bridge, hum present',
    );
  });

  it('members stand by name, whatever the order of the wires', () => {
    const b = circuit().single('neck').single('bridge', { winding: -1, magnet: -1 });
    expect(hear(grounded(b, 'bridge', 'neck').wire('neck.hot', 'output.tip').wire('bridge.hot', 'output.tip'))).toBe(
      'parallel(bridge, neck), hum cancelled',
    );
  });

  it('four leads: series, parallel, one coil, out of phase', () => {
    const four = (): CircuitBuilder => circuit().humbucker('neck', {}, true);
    const series = four()
      .wire('neck.north-start', 'output.tip')
      .wire('neck.north-finish', 'neck.south-finish')
      .wire('neck.south-start', 'output.sleeve');
    expect(hear(series)).toBe('neck, hum cancelled');
    const parallel = four()
      .wire('neck.north-start', 'neck.south-finish', 'output.tip')
      .wire('neck.north-finish', 'neck.south-start', 'output.sleeve');
    expect(hear(parallel)).toBe('parallel(neck.north, neck.south), hum cancelled');
    const single = four().wire('neck.north-start', 'output.tip').wire('neck.north-finish', 'output.sleeve');
    expect(hear(single)).toBe('neck.north, hum present');
    const against = four()
      .wire('neck.north-start', 'output.tip')
      .wire('neck.north-finish', 'neck.south-start')
      .wire('neck.south-finish', 'output.sleeve');
    expect(hear(against)).toBe('series(neck.north, reversed neck.south), hum present');
  });

  it('nested groups, a group by the names in it', () => {
    const b = circuit().single('neck').single('middle').single('bridge');
    b.wire('bridge.ground', 'output.sleeve').wire('bridge.hot', 'middle.ground').wire('middle.hot', 'output.tip');
    expect(hear(b.wire('neck.ground', 'output.sleeve').wire('neck.hot', 'output.tip'))).toBe(
      'parallel(series(bridge, middle), neck), hum present',
    );
  });

  it('a group turned as a whole is told once; its hum, a third each, cancels two thirds of the other', () => {
    const b = circuit().single('neck').single('middle').single('bridge');
    b.wire('bridge.hot', 'output.sleeve').wire('bridge.ground', 'middle.hot').wire('middle.ground', 'output.tip');
    b.single('attic').wire('attic.ground', 'output.sleeve').wire('attic.hot', 'output.tip');
    expect(hear(b)).toBe('parallel(attic, reversed series(bridge, middle)), hum cancelled');
  });

  it('series in a row is one group', () => {
    const b = circuit().single('a').humbucker('b').single('c');
    b.wire('a.ground', 'output.sleeve').wire('a.hot', 'b.ground').wire('b.hot', 'c.ground').wire('c.hot', 'output.tip');
    expect(hear(b)).toBe('series(a, b, c), hum present');
  });

  it('a coil hanging by one end, or shorted, is not there', () => {
    const b = circuit().single('a').single('b').single('c');
    b.wire('a.ground', 'b.ground', 'output.sleeve')
      .wire('a.hot', 'output.tip')
      .wire('c.hot', 'output.tip')
      .wire('b.hot', 'output.sleeve');
    expect(hear(b)).toBe('a, hum present');
  });

  it('controls, capacitors and resistors are folded away', () => {
    const b = grounded(circuit().single('bridge').single('neck').pot('v1').pot('v2').pot('tone'), 'bridge', 'neck');
    b.wire('bridge.hot', 'v1.3')
      .wire('neck.hot', 'v2.3')
      .wire('v1.2', 'v2.2', 'tone.2', 'output.tip')
      .wire('v1.1', 'v2.1', 'output.sleeve');
    b.capacitor('cap', 22e-9, 'tone.1', 'output.sleeve').capacitor('bleed', 1e-9, 'v1.3', 'v1.2');
    expect(hear(b)).toBe('parallel(bridge, neck), hum present');
  });

  it('unequal pickups in parallel show no shares: that is what parallel means', () => {
    const b = grounded(circuit().single('bridge', { ohm: 14_000 }).single('neck', { ohm: 5000 }), 'bridge', 'neck');
    expect(hear(b.wire('bridge.hot', 'neck.hot', 'output.tip'))).toBe('parallel(bridge, neck), hum present');
  });

  it('a volume half way tells the share of the pickup that it holds back', () => {
    const made = grounded(circuit().single('bridge').single('neck').pot('v1').pot('v2'), 'bridge', 'neck')
      .wire('bridge.hot', 'v1.3')
      .wire('neck.hot', 'v2.3')
      .wire('v1.2', 'v2.2', 'output.tip')
      .wire('v1.1', 'v2.1', 'output.sleeve')
      .rigged(0, Infinity)
      .build();
    const sound = describeSound(made, withRotation(restingSetting(made), shaftId(0), 9));
    // By hand, each EMF over its own branch: |7.5 + j1.885| k against |7.5 + 25 + j1.885| k is 23.8 %.
    expect(sound.text).toBe('parallel(bridge 24%, neck)');
  });

  it('a pickup named by its two coils, each with the share, is that pickup with that share', () => {
    const made = grounded(circuit().humbucker('bridge').single('neck').pot('v1').pot('v2'), 'bridge', 'neck')
      .wire('bridge.hot', 'v1.3')
      .wire('neck.hot', 'v2.3')
      .wire('v1.2', 'v2.2', 'output.tip')
      .wire('v1.1', 'v2.1', 'output.sleeve')
      .rigged(0, Infinity)
      .build();
    const sound = describeSound(made, withRotation(restingSetting(made), shaftId(0), 9));
    const coil = (id: ElementId, share?: number): Arrangement => ({
      kind: 'coil',
      coil: id,
      reversed: false,
      ...(share === undefined ? {} : { share }),
    });
    const [north, south, neck] = made.elements.filter(({ kind }) => kind === 'coil').map(({ id }) => id) as [
      ElementId,
      ElementId,
      ElementId,
    ];
    const said = (share: number): Arrangement => ({
      kind: 'parallel',
      members: [{ kind: 'series', members: [coil(north, share), coil(south, share)], reversed: false }, coil(neck)],
      reversed: false,
    });
    // The same values in all as the single-coil above, so the same 24 % of the neck.
    expect(sound.text).toBe('parallel(bridge 24%, neck)');
    expect(sameArrangement(made, said(0.24), sound.arrangement!, sound)).toBe(true);
    expect(sameArrangement(made, said(0.12), sound.arrangement!, sound)).toBe(false);
  });

  it('a coil half shorted by a resistor tells its share', () => {
    const b = circuit().humbucker('neck').resistor('split', 1600, 'neck.north-finish', 'output.sleeve');
    const made = b.wire('neck.hot', 'output.tip').wire('neck.ground', 'output.sleeve').build();
    // By hand: the south coil over 1.6 k: 1600/(1600 + 3750) = 30 % of its own voltage (at 100 Hz its 942 Ω of reactance take 0.5 % more).
    const sound = describeSound(made, restingSetting(made));
    expect(sound.text).toBe('series(neck.north, neck.south 29%)');
    expect(sound.heard.map(({ delivers }) => Number(delivers.toFixed(2)))).toEqual(
      [1, 0.29].map((share) => expect.closeTo(share, 1)),
    );
  });

  it('a twentieth counts, less does not', () => {
    const at = (ohm: number): string => {
      const b = grounded(circuit().single('loud').single('faint').rigged(0, Infinity), 'loud', 'faint');
      return hear(b.wire('loud.hot', 'output.tip').resistor('pad', ohm, 'faint.hot', 'output.tip')).split(',')[0]!;
    };
    // Resistive, by hand: 7.5 k/(7.5 k + pad) is 1/19.7 at 140 k and 1/21 at 150 k; the reactance of 1.9 k moves it by 3 %.
    expect(at(125e3)).toBe('parallel(faint 6%');
    expect(at(160e3)).toBe('loud');
  });

  it('a capacitor across the middles of a bridge is open where it is small and a joint where it is large', () => {
    const across = (farad: number): string => {
      const b = circuit().single('a').single('b').single('c').single('d');
      b.wire('a.ground', 'c.ground', 'output.sleeve').wire('b.hot', 'd.hot', 'output.tip');
      b.wire('a.hot', 'b.ground').wire('c.hot', 'd.ground').capacitor('cap', farad, 'a.hot', 'c.hot');
      const made = b.build();
      return describeSound(made, restingSetting(made)).text;
    };
    // At 100 Hz 100 pF are 16 MΩ and 100 µF 16 Ω; a coil is 7.7 kΩ.
    expect(across(100e-12)).toBe('parallel(series(a, b), series(c, d))');
    expect(across(100e-6)).toBe('series(parallel(a, c), parallel(b, d))');
  });

  it('a stage hands on the phase of what it hears, and one that turns it turns it', () => {
    const beside = (gain: number, winding: 1 | -1): string => {
      const b = grounded(
        circuit().single('bridge', { winding }).single('neck').buffer('stage', { gain, output: 1000 }),
        'bridge',
        'neck',
      );
      b.wire('bridge.hot', 'stage.in').wire('stage.minus', 'output.sleeve').battery('cell', 'stage.plus', 'stage.minus');
      const made = b.wire('stage.out', 'neck.hot', 'output.tip').build();
      return describeSound(made, restingSetting(made)).text;
    };
    expect(beside(1, 1)).not.toContain('reversed');
    expect(beside(1, -1)).toContain('reversed');
    expect(beside(-1, 1)).toContain('reversed');
    expect(beside(-1, -1)).not.toContain('reversed');
  });

  it('what is not series and parallel is told with shares', () => {
    // A bridge of four coils and one across.
    const b = circuit().single('a').single('b').single('c').single('d').single('e');
    b.wire('a.ground', 'c.ground', 'output.sleeve').wire('b.hot', 'd.hot', 'output.tip');
    b.wire('a.hot', 'b.ground', 'e.ground').wire('c.hot', 'd.ground', 'e.hot');
    const made = b.build();
    const sound = describeSound(made, restingSetting(made));
    // Balanced: nothing of e arrives, but it still ties the middles, and so no step of reduction applies.
    expect(sound.text).toBe('mixed(a 100%, b 100%, c 100%, d 100%)');
    const other = circuit().single('a').single('b', { ohm: 20_000 }).single('c', { ohm: 20_000 }).single('d').single('e');
    other.wire('a.ground', 'c.ground', 'output.sleeve').wire('b.hot', 'd.hot', 'output.tip');
    other.wire('a.hot', 'b.ground', 'e.ground').wire('c.hot', 'd.ground', 'e.hot');
    const mixed = describeSound(other.build(), { positions: [], rotations: [] });
    expect(mixed.text).toMatch(/^mixed\(\w 100%(, (reversed )?\w \d+%){4}\)$/);
    expect(mixed.arrangement?.kind).toBe('mixed');
  });

  it('an amplifier stage carries what stands at its input', () => {
    const b = grounded(circuit().single('bridge').single('neck'), 'bridge', 'neck').buffer('buffer', { gain: -1 });
    b.wire('bridge.hot', 'buffer.in').wire('buffer.minus', 'output.sleeve').battery('cell', 'buffer.plus', 'output.sleeve');
    b.wire('neck.hot', 'output.tip').resistor('mix', 7500, 'buffer.out', 'output.tip');
    // At 100 Hz 8.5 kΩ stand against 7.5 kΩ + j 1.9 kΩ: |−1000 + j 1885| / (8500 + 7733) is 13 % of hum left.
    expect(hear(b)).toBe('parallel(bridge, reversed neck), hum partly');
  });

  it('a stage without its battery is silent', () => {
    const b = grounded(circuit().single('bridge'), 'bridge')
      .buffer('buffer')
      .wire('bridge.hot', 'buffer.in')
      .wire('buffer.minus', 'output.sleeve');
    expect(hear(b.wire('buffer.out', 'output.tip'))).toBe('silent, hum none');
  });

  it('a dummy coil of output 0 % is not heard, and cancels hum', () => {
    const b = circuit().single('bridge').single('dummy', { output: 0, winding: -1 });
    expect(
      hear(b.wire('bridge.hot', 'output.tip').wire('bridge.ground', 'dummy.hot').wire('dummy.ground', 'output.sleeve')),
    ).toBe('bridge, hum cancelled');
  });

  it('a volume at 0 is silent', () => {
    const made = grounded(circuit().single('bridge').pot('v'), 'bridge')
      .wire('bridge.hot', 'v.3')
      .wire('v.2', 'output.tip')
      .wire('v.1', 'output.sleeve')
      .build();
    expect(describeSound(made, withRotation(restingSetting(made), shaftId(0), 0)).text).toBe('silent');
  });
});

describe('comparing arrangements', () => {
  const made = grounded(circuit().single('bridge').humbucker('neck'), 'bridge', 'neck')
    .wire('bridge.hot', 'neck.hot', 'output.tip')
    .build();
  const [main, north, south] = made.elements.map((element) => element.id) as [ElementId, ElementId, ElementId];
  const bridge: Arrangement = { kind: 'pickup', part: made.parts.find((part) => part.name === 'bridge')!.id, reversed: false };
  const neck: Arrangement = { kind: 'pickup', part: made.parts.find((part) => part.name === 'neck')!.id, reversed: false };
  const coil = (id: ElementId, share?: number): Arrangement => ({
    kind: 'coil',
    coil: id,
    reversed: false,
    ...(share === undefined ? {} : { share }),
  });
  const group = (kind: 'series' | 'parallel', ...members: readonly Arrangement[]): Arrangement => ({
    kind,
    members,
    reversed: false,
  });
  const reversed = (of: Arrangement): Arrangement => ({ ...of, reversed: true });
  const same = (a: Arrangement, b: Arrangement): boolean => sameArrangement(made, a, b);

  it('order is free, and so is the sign of the whole', () => {
    expect(same(group('parallel', neck, bridge), group('parallel', bridge, neck))).toBe(true);
    expect(same(reversed(group('parallel', neck, reversed(bridge))), group('parallel', bridge, reversed(neck)))).toBe(true);
    expect(same(group('parallel', neck, reversed(bridge)), group('parallel', bridge, neck))).toBe(false);
    expect(same(group('series', neck, bridge), group('parallel', bridge, neck))).toBe(false);
  });

  it('a pickup is its coils in series, and a coil of one the pickup', () => {
    expect(same(neck, group('series', coil(south), coil(north)))).toBe(true);
    expect(same(neck, group('series', coil(south), reversed(coil(north))))).toBe(false);
    expect(same(coil(main), bridge)).toBe(true);
    expect(same(group('series', neck, bridge), group('series', coil(north), bridge, coil(south)))).toBe(true);
  });

  it('shares count only where they are expected, within seven points', () => {
    const actual = group('series', coil(north), coil(south, 0.3));
    expect(same(group('series', coil(north), coil(south)), actual)).toBe(true);
    expect(same(group('series', coil(north), coil(south, 0.36)), actual)).toBe(true);
    expect(same(group('series', coil(north), coil(south, 0.4)), actual)).toBe(false);
  });

  it('text: reversed, shares, nesting', () => {
    expect(arrangementText(made, group('parallel', bridge, reversed(group('series', coil(north), coil(south, 0.304)))))).toBe(
      'parallel(bridge, reversed series(neck.north, neck.south 30%))',
    );
  });
});

describe('switched', () => {
  const made: AnalysedCircuit = grounded(
    circuit().single('bridge').single('neck', { winding: -1, magnet: -1 }).toggle('toggle'),
    'bridge',
    'neck',
  )
    .wire('bridge.hot', 'toggle.A')
    .wire('neck.hot', 'toggle.B')
    .wire('toggle.out', 'output.tip')
    .build();

  it.each(['bridge, present', 'parallel(bridge, neck), cancelled', 'neck, present'].map((line, i) => [i, line] as const))(
    'position %i',
    (position, line) => {
      const { text, hum } = describeSound(made, withPosition(restingSetting(made), switchId(0), position));
      expect(`${text}, ${hum}`).toBe(line);
    },
  );
});
