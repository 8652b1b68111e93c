/** Coils: values shared between them, winding and magnet, taps. Expected values are worked by hand from the electrics' rules. */
import { describe, expect, test } from 'vitest';
import type { Circuit, Coil } from '../../language/circuit/index.js';
import { coilOf, lugOf, partOf, soundCircuit } from './harness.js';

/** Sign of the voltage that a string drives at `hot` against the coil's other end, and of hum: winding × magnet, and winding alone. */
function signs(circuit: Circuit, coil: Coil, hot: string): [string: number, hum: number] {
  const way = coil.b === lugOf(circuit, hot).id ? 1 : -1;
  return [way * coil.winding * coil.magnet, way * coil.winding];
}

describe('a single-coil', () => {
  test('has one coil, main, from ground to hot', () => {
    const circuit = soundCircuit('part p : single-coil 6.9k 2.9H 120pF');
    const coil = coilOf(circuit, 'p');
    expect([coil.resistance.value, coil.inductance.value, coil.capacitance.value, coil.output]).toEqual([6900, 2.9, 120e-12, 1]);
    expect([coil.a, coil.b]).toEqual([lugOf(circuit, 'p.ground').id, lugOf(circuit, 'p.hot').id]);
    expect(coil.loss).toBeUndefined();
  });

  // The rule is published: signal = winding × magnet, hum = winding (check-values, phase and hum).
  test.each([
    ['forward', 'north', 1, 1],
    ['forward', 'south', -1, 1],
    ['reverse', 'north', -1, -1],
    ['reverse', 'south', 1, -1],
  ])('wound %s over %s: strings %i, hum %i', (wound, magnet, string, hum) => {
    const circuit = soundCircuit(`part p : single-coil { wound ${wound}, magnet ${magnet} }`);
    expect(signs(circuit, coilOf(circuit, 'p'), 'p.hot')).toEqual([string, hum]);
  });

  test('has eddy currents and another output where they are given', () => {
    const coil = coilOf(soundCircuit('part p : single-coil { loss 250k, output 80% }'), 'p');
    expect(coil.loss?.value).toBe(250e3);
    expect(coil.output).toBe(0.8);
  });
});

describe('a humbucker', () => {
  const circuit = soundCircuit('part h : humbucker 8k 4.4H 120pF');

  test('shares its values: half the resistance, inductance and voltage each, twice the capacitance', () => {
    for (const name of ['north', 'south']) {
      const coil = coilOf(circuit, 'h', name);
      expect([coil.resistance.value, coil.inductance.value, coil.capacitance.value, coil.output]).toEqual([
        4000, 2.2, 240e-12, 0.5,
      ]);
      expect(coil.coupling).toBeUndefined();
    }
  });

  test('joins its finishes at a point inside, which is no lug of it', () => {
    const north = coilOf(circuit, 'h', 'north');
    const south = coilOf(circuit, 'h', 'south');
    expect(north.a).toBe(lugOf(circuit, 'h.hot').id);
    expect(south.a).toBe(lugOf(circuit, 'h.ground').id);
    expect(north.b).toBe(south.b);
    expect(circuit.lugs[north.b]!.inner).toBe(true);
    expect(partOf(circuit, 'h').lugs.map((id) => circuit.lugs[id]!.name)).toEqual(['hot', 'ground']);
  });

  test('is in phase with a plain single-coil, and its hum cancels', () => {
    const north = coilOf(circuit, 'h', 'north');
    const south = coilOf(circuit, 'h', 'south');
    // From ground to hot: the south coil runs from its start to the middle, the north coil from the middle back to its start.
    const string = south.winding * south.magnet - north.winding * north.magnet;
    const hum = south.winding - north.winding;
    expect([string, hum]).toEqual([2, 0]);
  });
});

describe('a humbucker with four leads', () => {
  const circuit = soundCircuit('part h : humbucker-4 8k 4H 100pF');
  const north = coilOf(circuit, 'h', 'north');
  const south = coilOf(circuit, 'h', 'south');

  test('has both coils wound alike over opposite poles', () => {
    expect(north.winding).toBe(south.winding);
    expect(north.magnet).toBe(-south.magnet);
    expect([north.a, north.b].map((id) => circuit.lugs[id]!.name)).toEqual(['north-start', 'north-finish']);
    expect([south.a, south.b].map((id) => circuit.lugs[id]!.name)).toEqual(['south-start', 'south-finish']);
  });

  test('joined finish to finish with the north start hot, each coil alone is in phase with a plain single-coil', () => {
    expect(signs(circuit, north, 'h.north-start')).toEqual([1, 1]);
    expect(signs(circuit, south, 'h.south-finish')).toEqual([1, -1]);
  });

  test('is turned as a whole by its own winding and magnet', () => {
    const turned = soundCircuit('part h : humbucker-4 { wound reverse, magnet south }');
    expect([coilOf(turned, 'h', 'north').winding, coilOf(turned, 'h', 'north').magnet]).toEqual([-north.winding, -north.magnet]);
  });

  test('may have its coils called screw and slug, and its lugs after them', () => {
    const spoken = soundCircuit(`
part h : humbucker-4
part out : jack
wire h.screw-start to out.tip
expect : sounds h.slug
`);
    expect(spoken.joints[0]!.a).toBe(lugOf(spoken, 'h.north-start').id);
    expect(spoken.expectations[0]!.claims[0]).toMatchObject({
      arrangement: { kind: 'coil', coil: coilOf(spoken, 'h', 'south').id },
    });
  });
});

test('a tapped single-coil has its windings share by the tap; both together are the whole', () => {
  const circuit = soundCircuit('part p : single-coil-tapped 10k 4H 120pF { tap 75% }');
  const [inner, outer] = [coilOf(circuit, 'p', 'inner'), coilOf(circuit, 'p', 'outer')];
  expect([inner.resistance.value, outer.resistance.value]).toEqual([7500, 2500]);
  // By turns on one core, coupling 98 %: L′ = 4 / (0.75² + 0.25² + 2 · 0.98 · 0.75 · 0.25), and L′ n² each.
  expect(inner.inductance.value).toBeCloseTo((4 * 0.5625) / 0.9925, 9);
  expect(outer.inductance.value).toBeCloseTo((4 * 0.0625) / 0.9925, 9);
  expect([inner.output, outer.output]).toEqual([0.75, 0.25]);
  // Capacitances in series: 1/(1/160p + 1/480p) = 120p.
  expect(1 / (1 / inner.capacitance.value + 1 / outer.capacitance.value)).toBeCloseTo(120e-12, 18);
  expect(circuit.lugs[inner.b]!.label).toBe('p.tap');
});

test('a type of your own with two coils and no shares divides its voltage between them, not its other values', () => {
  const circuit = soundCircuit(`
type twin : pickup {
  lugs hot ground
  coil upper from middle to hot { resistance 4k, inductance 2H }
  coil lower from ground to middle { resistance 3k, inductance 1H, wound reverse, magnet south }
}
part p : twin { output 90% }
`);
  expect([coilOf(circuit, 'p', 'upper').output, coilOf(circuit, 'p', 'lower').output]).toEqual([0.45, 0.45]);
  expect(coilOf(circuit, 'p', 'upper').resistance.value).toBe(4000);
  expect(coilOf(circuit, 'p', 'upper').capacitance.value).toBe(0);
});

test('covers and baseplates are there where they are named, and are metal', () => {
  const circuit = soundCircuit(`
part p : single-coil
part q : single-coil
part g : star
wire p.cover to g
`);
  expect(circuit.lugs.filter((lug) => lug.metal).map((lug) => lug.label)).toEqual(['g', 'p.cover']);
  expect(partOf(circuit, 'q').lugs).toHaveLength(2);
});
