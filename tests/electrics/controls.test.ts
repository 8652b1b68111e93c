/** What controls do is found by turning them: wired as in trade practice, and wired wrongly. */
import { altered } from '../../language/circuit/model.js';
import { describe, expect, it } from 'vitest';
import { controlEffects, type ControlEffect } from '../../language/electrics/index.js';
import { circuit, type CircuitBuilder } from './builder.js';

const effects = (b: CircuitBuilder): Readonly<Record<string, ControlEffect>> => {
  const made = b.build();
  return Object.fromEntries(controlEffects(made).map((effect) => [made.shafts[effect.shaft]!.name, effect]));
};
const one = (): CircuitBuilder => circuit().single('coil', { farad: 100e-12 }).wire('coil.ground', 'output.sleeve');
const volume = (b: CircuitBuilder, hot: string, low: '1' | '3' = '1'): CircuitBuilder =>
  b
    .wire(hot, low === '1' ? 'volume.3' : 'volume.1')
    .wire('volume.2', 'output.tip')
    .wire(`volume.${low}`, 'output.sleeve');

describe('one pickup', () => {
  it.each(['linear', 'audio'] as const)('a volume, %s', (taper) => {
    expect(effects(volume(one().pot('volume', { taper }), 'coil.hot')).volume).toMatchObject({
      role: 'volume',
      backwards: false,
      silences: [],
    });
  });

  it('a volume with its outer lugs exchanged works backwards', () => {
    expect(effects(volume(one().pot('volume'), 'coil.hot', '3')).volume).toMatchObject({ role: 'volume', backwards: true });
  });

  it('a volume made for the left hand, 10 at lug 1, is right as its mirror image', () => {
    expect(effects(volume(one().pot('volume', { empty: 10, full: 0 }), 'coil.hot', '3')).volume).toMatchObject({
      role: 'volume',
      backwards: false,
    });
    expect(effects(volume(one().pot('volume', { empty: 10, full: 0 }), 'coil.hot')).volume).toMatchObject({
      role: 'volume',
      backwards: true,
    });
  });

  const tone = (lug: '1' | '3', farad = 22e-9, noLoad = false): CircuitBuilder =>
    one()
      .pot('tone', { taper: 'audio', noLoad })
      .wire('coil.hot', 'tone.2', 'output.tip')
      .capacitor('cap', farad, `tone.${lug}`, 'output.sleeve');

  it.each([4.7e-9, 22e-9, 47e-9, 100e-9])('a tone with %f F', (farad) => {
    expect(effects(tone('1', farad)).tone).toMatchObject({ role: 'tone', backwards: false });
  });

  it('a tone on its other outer lug works backwards', () => {
    expect(effects(tone('3')).tone).toMatchObject({ role: 'tone', backwards: true });
  });

  it('a no-load tone', () => {
    expect(effects(tone('1', 22e-9, true)).tone).toMatchObject({ role: 'tone', backwards: false });
  });

  it('a bass cut', () => {
    const b = one()
      .pot('cut', { ohm: 1e6 })
      .wire('coil.hot', 'cut.3')
      .wire('cut.2', 'output.tip')
      .capacitor('cap', 2.2e-9, 'cut.3', 'cut.2');
    expect(effects(b.wire('cut.1', 'cut.2').resistor('load', 250e3, 'cut.2', 'output.sleeve')).cut).toMatchObject({
      role: 'bass-cut',
      backwards: false,
    });
  });

  it('a tone without its capacitor, and a pot that nothing is soldered to', () => {
    const found = effects(
      one().pot('tone').pot('spare').wire('coil.hot', 'tone.2', 'output.tip').wire('spare.case', 'output.sleeve'),
    );
    expect(found.tone).toMatchObject({ role: 'nothing', actsIn: [] });
    expect(found.spare).toMatchObject({ role: 'unwired' });
  });

  it('a volume behind another that rests at 0 is still found', () => {
    const b = one().pot('first', { rest: 0 }).pot('volume').wire('coil.hot', 'first.3').wire('first.1', 'output.sleeve');
    expect(effects(volume(b, 'first.2')).volume).toMatchObject({ role: 'volume' });
  });

  it('a pot across one coil of a pickup turns between its coils', () => {
    const b = circuit().humbucker('neck').wire('neck.hot', 'output.tip').wire('neck.ground', 'output.sleeve').pot('spread');
    expect(effects(b.wire('neck.north-finish', 'spread.3').wire('spread.2', 'output.sleeve')).spread).toMatchObject({
      role: 'spread',
    });
  });
});

describe('two pickups and a toggle', () => {
  const two = (kind: 'dependent' | 'independent', last: readonly [string, string] = ['1', '3']): CircuitBuilder => {
    const b = circuit().single('bridge').single('neck').pot('bridge-volume').pot('neck-volume').toggle('toggle');
    for (const name of ['bridge', 'neck']) {
      const [low, high] = name === 'neck' ? last : ['1', '3'];
      const [into, out] = kind === 'dependent' ? [high, '2'] : ['2', high];
      b.wire(`${name}.ground`, 'output.sleeve').wire(`${name}-volume.${low}`, 'output.sleeve');
      b.wire(`${name}.hot`, `${name}-volume.${into}`).wire(`${name}-volume.${out}`, name === 'bridge' ? 'toggle.A' : 'toggle.B');
    }
    return b.wire('toggle.out', 'output.tip');
  };

  it('each volume acts where its pickup is chosen', () => {
    const found = effects(two('dependent'));
    expect(found['bridge-volume']!.actsIn.map(({ positions }) => positions[0])).toEqual([0, 1]);
    expect(found['neck-volume']!.actsIn.map(({ positions }) => positions[0])).toEqual([1, 2]);
  });

  it('input on 3 and output on 2: at 0 one silences the other where both are on', () => {
    const found = effects(two('dependent'));
    expect(found['bridge-volume']).toMatchObject({ role: 'volume', backwards: false });
    expect(found['bridge-volume']!.silences.map(({ setting, pickups }) => [setting.positions[0], pickups])).toEqual([
      [1, ['neck']],
    ]);
    expect(found['neck-volume']!.silences.map(({ pickups }) => pickups)).toEqual([['bridge']]);
  });

  it('input on 2 and output on 3: each for itself', () => {
    const found = effects(two('independent'));
    expect(found['bridge-volume']).toMatchObject({ role: 'volume', backwards: false, silences: [] });
    expect(found['neck-volume']).toMatchObject({ role: 'volume', backwards: false, silences: [] });
  });

  it('one of two turned round', () => {
    expect(effects(two('independent', ['3', '1']))['neck-volume']).toMatchObject({ role: 'volume', backwards: true });
  });
});

describe('two pickups, always both', () => {
  const both = (b: CircuitBuilder): CircuitBuilder =>
    b.single('bridge').single('neck').wire('bridge.ground', 'neck.ground', 'output.sleeve');

  it('two independent volumes are volumes', () => {
    const b = both(circuit())
      .pot('a')
      .pot('b')
      .wire('bridge.hot', 'a.2')
      .wire('neck.hot', 'b.2')
      .wire('a.3', 'b.3', 'output.tip')
      .wire('a.1', 'b.1', 'output.sleeve');
    const found = effects(b);
    expect(found.a).toMatchObject({ role: 'volume', backwards: false, silences: [] });
    expect(found.b).toMatchObject({ role: 'volume', backwards: false, silences: [] });
  });

  it('two dependent volumes silence each other, told by which falls first', () => {
    const b = both(circuit())
      .pot('a')
      .pot('b')
      .wire('bridge.hot', 'a.3')
      .wire('neck.hot', 'b.3')
      .wire('a.2', 'b.2', 'output.tip')
      .wire('a.1', 'b.1', 'output.sleeve');
    expect(effects(b).a!.silences.map(({ pickups }) => pickups)).toEqual([['neck']]);
  });

  it('a blend', () => {
    const b = both(circuit()).blend('blend', 250e3).wire('bridge.hot', 'blend.3a').wire('neck.hot', 'blend.3b');
    const found = effects(b.wire('blend.2a', 'blend.2b', 'output.tip').wire('blend.1a', 'blend.1b', 'output.sleeve'));
    // Wired with the wiper as output a track at its end would silence both: the common wiring feeds the wiper.
    expect(['blend', 'mixed']).toContain(found.blend!.role);
    const fed = both(circuit()).blend('blend', 250e3).wire('bridge.hot', 'blend.2a').wire('neck.hot', 'blend.2b');
    expect(
      effects(fed.wire('blend.3a', 'blend.3b', 'output.tip').wire('blend.1a', 'blend.1b', 'output.sleeve')).blend,
    ).toMatchObject({ role: 'blend', backwards: false });
  });

  it('one pot in the lead of one pickup', () => {
    const b = both(circuit()).pot('add').wire('bridge.hot', 'output.tip').wire('neck.hot', 'add.3').wire('add.2', 'output.tip');
    expect(effects(b).add).toMatchObject({ role: 'blend', backwards: false });
  });

  it('a master volume takes nobody along', () => {
    const b = both(circuit()).pot('volume').wire('bridge.hot', 'neck.hot');
    expect(effects(volume(b, 'bridge.hot')).volume).toMatchObject({ role: 'volume', silences: [] });
  });
});

it('without a jack no control does anything, and nothing fails', () => {
  const made = altered(volume(one().pot('volume'), 'coil.hot').build(), { output: undefined });
  expect(controlEffects(made)).toMatchObject([{ role: 'nothing' }]);
});
