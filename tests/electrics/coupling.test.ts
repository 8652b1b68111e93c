/** Coils that share a field: inductances against the definition of mutual inductance, its sign against Neumann's integral, a tap against a deck written by hand. */
import { describe, expect, it, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { response, restingSetting, transferImpedance } from '../../language/electrics/index.js';
import { coupledPairs } from '../../language/electrics/network/coupling.js';
import { lugOf, soundCircuit } from '../circuit/harness.js';
import { sweepReference } from './general-solver.js';

/** Inductance in henries between two lugs, by the impedance at 100 Hz, where the winding's capacitance is left out. */
function inductance(circuit: AnalysedCircuit, a: string, b: string): number {
  const ends = [lugOf(circuit, a).id, lugOf(circuit, b).id] as const;
  return transferImpedance(circuit, restingSetting(circuit), ends, ends, 100)!.im / (2 * Math.PI * 100);
}

const two = (coupling: number, wires = ''): AnalysedCircuit =>
  soundCircuit(`part p : humbucker-4 8k 4.4H 0pF { coupling ${coupling}% }\n${wires}`);

describe('two coils side by side, 4.4 H together', () => {
  // L = L1 + L2 + 2 k √(L1 L2), the definition of the coupling factor: any text on mutual inductance.
  test.each([-40, 0, 15, 40, 95])('in series, in phase, they have what is stated at %i %%', (k) => {
    const circuit = two(k, 'wire p.north-finish to p.south-finish');
    expect(inductance(circuit, 'p.north-start', 'p.south-start')).toBeCloseTo(4.4, 9);
  });

  test.each([-40, 0, 15, 40, 95])('one alone has L / (2 (1 + k)) at %i %%', (k) => {
    expect(inductance(two(k), 'p.north-start', 'p.north-finish')).toBeCloseTo(4.4 / (2 * (1 + k / 100)), 9);
  });

  it('one alone has 2.20 H without coupling and 1.91 H at 15 %', () => {
    expect(inductance(two(0), 'p.south-start', 'p.south-finish').toFixed(2)).toBe('2.20');
    expect(inductance(two(15), 'p.south-start', 'p.south-finish').toFixed(2)).toBe('1.91');
  });

  test.each([0, 15, 40])('in parallel, in phase, they have a quarter of it at %i %%', (k) => {
    // In phase: the hot ends are the start of one and the finish of the other, since the magnets are opposite.
    const circuit = two(k, 'wire p.north-start to p.south-finish\nwire p.north-finish to p.south-start');
    expect(inductance(circuit, 'p.north-start', 'p.north-finish')).toBeCloseTo(1.1, 9);
  });

  test.each([15, 40])('in series with one reversed they have L (1 − k) / (1 + k) at %i %%, less than any other way', (k) => {
    const circuit = two(k, 'wire p.north-finish to p.south-start');
    const share = k / 100;
    expect(inductance(circuit, 'p.north-start', 'p.south-finish')).toBeCloseTo((4.4 * (1 - share)) / (1 + share), 9);
  });

  // Common practice, no source: pairs of the whole and one coil that are reported of pickups whose coils are alike.
  test.each([
    [3.9, 1.7],
    [8.0, 3.5],
  ])('%f H whole and %f H for one coil are a coupling of about 15 %%', (whole, single) => {
    const k = Math.round(100 * (whole / (2 * single) - 1));
    expect(Math.abs(k - 15)).toBeLessThanOrEqual(1);
    const circuit = soundCircuit(`part p : humbucker-4 8k ${whole}H 0pF { coupling ${k}% }`);
    expect(inductance(circuit, 'p.north-start', 'p.north-finish')).toBeCloseTo(single, 1);
  });
});

describe('the sign of the coupling', () => {
  /** Mutual inductance of two circular loops of 5 mm, both wound the same way round, by Neumann's integral, in henries. */
  function neumann(apart: { readonly x: number; readonly z: number }): number {
    const [radius, parts] = [5e-3, 400];
    const step = (2 * Math.PI) / parts;
    let sum = 0;
    for (let i = 0; i < parts; i++)
      for (let j = 0; j < parts; j++) {
        const [a, b] = [i * step, j * step];
        const r = Math.hypot(apart.x + radius * (Math.cos(b) - Math.cos(a)), radius * (Math.sin(b) - Math.sin(a)), apart.z);
        sum += (Math.cos(a - b) * (radius * step) ** 2) / r;
      }
    return 1e-7 * sum;
  }
  const factor = (text: string): number => coupledPairs(soundCircuit(text))[0]!.factor;

  it('is negative for windings side by side that are wound alike, from start to finish', () => {
    expect(neumann({ x: 18e-3, z: 0 })).toBeLessThan(0);
    expect(factor('part p : humbucker { coupling 15% }')).toBe(-0.15);
    expect(factor('part p : humbucker { coupling 15%, wound reverse, magnet south }')).toBe(-0.15);
  });

  it('is positive for windings on one core', () => {
    expect(neumann({ x: 0, z: 1e-3 })).toBeGreaterThan(0);
    expect(factor('part p : single-coil-tapped')).toBe(0.98);
  });
});

describe('a tapped winding', () => {
  it('4 H tapped at 70 % has 1.98 H at the tap and 4 H whole (L′ t², L′ = L / (t² + (1 − t)² + 2 · 0.98 t (1 − t)))', () => {
    const circuit = soundCircuit('part p : single-coil-tapped 9k 4H 0pF { tap 70% }');
    expect(inductance(circuit, 'p.tap', 'p.ground').toFixed(2)).toBe('1.98');
    expect(inductance(circuit, 'p.hot', 'p.ground')).toBeCloseTo(4, 9);
  });

  test.each(['tap', 'hot'])(
    'played at %s it sounds as one whose capacitance and loss lie across the whole winding',
    async (end) => {
      const circuit = soundCircuit(`
      part p : single-coil-tapped 9k 4H 130pF { tap 70%, loss 400k }
      part output : jack
      wire p.${end} to output.tip
      wire p.ground to output.sleeve`);
      const whole = 0.49 + 0.09 + 2 * 0.98 * 0.21;
      // By hand: each winding with its own source and resistance; the loss across both inductances, the capacitance from hot to ground.
      const deck = [
        '* a tapped winding',
        'V1 m1 0 DC 0 AC 0.7',
        'R1 m1 n1 6300',
        `L1 n1 tap ${0.49 * (4 / whole)}`,
        `L2 tap n2 ${0.09 * (4 / whole)}`,
        'K1 L1 L2 0.98',
        'Rloss n1 n2 400000',
        'R2 n2 m2 2700',
        'V2 hot m2 DC 0 AC 0.3',
        'Cwinding hot 0 130e-12',
        `Clead ${end} 0 500e-12`,
        `Ramplifier ${end} 0 1000000`,
        '.ac dec 10 50 10000',
        `.print ac vdb(${end})`,
        '.end',
      ].join('\n');
      for (const { hz, re, im } of await sweepReference(deck, end)) {
        const [point] = response(circuit, restingSetting(circuit), { from: hz, to: hz, points: 1 }).points;
        expect(Math.abs(point!.db - 20 * Math.log10(Math.hypot(re, im))), `${hz} Hz`).toBeLessThan(0.05);
      }
    },
  );
});
