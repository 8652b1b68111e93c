/** The values of a pickup from measured curves: intervals that hold the truth, curves within 1 dB, open values marked, a lossy core and a newcomer's way. */
import { describe, expect, test } from 'vitest';
import { computed, fitPickup, type Curve, type Fit, type Load } from '../../language/fit/index.js';
import { drawnTruth, frequencies, measuredImpedance, measuredResponse, noLoad, trueLevel, type Truth } from './synthetic.js';

const lead: Load = { farad: 470e-12, ohm: 1e6 };
const more: Load = { farad: 1.47e-9, ohm: 1e6 };

/** How far the response of the fitted pickup is from the true one up to 10 kHz with that load, dB, the levels in the middle brought together. */
function apart({ pickup }: Fit, truth: Truth, load: Load): number {
  const hz = frequencies(200).filter((at) => at <= 10_000);
  const db = hz.map((at) => trueLevel(truth, load, at));
  const found = computed(pickup, { measured: { kind: 'response', hz, db }, load }).db;
  return Math.max(...db.map((level, i) => Math.abs(level - found[i]!)));
}

interface Way {
  readonly curves: (truth: Truth, seed: number) => readonly Curve[];
  readonly stated: (truth: Truth) => { readonly resistance?: number };
  readonly isLossy: boolean;
}

const ways: readonly (readonly [string, Way])[] = [
  [
    'an impedance',
    { curves: (truth, seed) => [measuredImpedance(truth, noLoad, 0.01, seed)], stated: () => ({}), isLossy: false },
  ],
  [
    'an impedance with eddy currents',
    { curves: (truth, seed) => [measuredImpedance(truth, noLoad, 0.01, seed)], stated: () => ({}), isLossy: true },
  ],
  [
    'two responses and the resistance',
    {
      curves: (truth, seed) => [measuredResponse(truth, lead, 0.1, seed), measuredResponse(truth, more, 0.1, seed + 5000)],
      stated: ({ resistance }) => ({ resistance }),
      isLossy: true,
    },
  ],
  [
    'one response and the resistance',
    {
      curves: (truth, seed) => [measuredResponse(truth, lead, 0.1, seed)],
      stated: ({ resistance }) => ({ resistance }),
      isLossy: false,
    },
  ],
];

// 50 cases of each way: 200 in all, with noise of 1 % and of 0.1 dB.
describe('200 pickups made up with noise', () => {
  const all: boolean[] = [];

  test.each(ways)('%s: nine in ten intervals hold the true value, and the curve is within 1 dB to 10 kHz', (_, way) => {
    const held: boolean[] = [];
    for (let seed = 1; seed <= 50; seed++) {
      const truth = drawnTruth(seed, way.isLossy);
      const fit = fitPickup(way.curves(truth, seed), way.stated(truth));
      expect(apart(fit, truth, lead), `seed ${seed}`).toBeLessThan(1);
      for (const { name, origin, low = 0, high = 0 } of fit.values) {
        const value = truth[name];
        if (origin === 'fitted') held.push(value !== undefined && low <= value && value <= high);
      }
    }
    all.push(...held);
    expect(held.length).toBeGreaterThan(90);
    expect(held.filter(Boolean).length / held.length).toBeGreaterThan(0.87);
  });

  test('of all of them nine in ten', () => {
    expect(all.length).toBeGreaterThan(500);
    expect(all.filter(Boolean).length / all.length).toBeGreaterThanOrEqual(0.9);
  });
});

describe('what the data determine', () => {
  const truth: Truth = { resistance: 6.3e3, inductance: 2.5, capacitance: 115e-12, loss: 500e3 };
  const origins = (fit: Fit) => Object.fromEntries(fit.values.map(({ name, origin }) => [name, origin]));

  test('an impedance determines all', () => {
    expect(origins(fitPickup([measuredImpedance(truth, noLoad, 0.01, 1)]))).toEqual({
      resistance: 'fitted',
      inductance: 'fitted',
      capacitance: 'fitted',
      loss: 'fitted',
    });
  });

  test('one response leaves the capacitance open, a second load does not', () => {
    const one = fitPickup([measuredResponse(truth, lead, 0.1, 1)], { resistance: 6.3e3 });
    expect(origins(one)).toMatchObject({ resistance: 'stated', capacitance: 'usual' });
    const two = fitPickup([measuredResponse(truth, lead, 0.1, 1), measuredResponse(truth, more, 0.1, 2)], { resistance: 6.3e3 });
    expect(origins(two)).toMatchObject({ resistance: 'stated', inductance: 'fitted', capacitance: 'fitted' });
    expect(two.pickup.inductance / 2.5).toBeCloseTo(1, 1);
  });

  test('one response never determines the capacitance, however large it comes out', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const drawn = drawnTruth(seed, false);
      const { values } = fitPickup([measuredResponse(drawn, lead, 0.1, seed)], { resistance: drawn.resistance });
      expect(values.find(({ name }) => name === 'capacitance')?.origin, `seed ${seed}`).toBe('usual');
    }
  });

  test('without noise the values come back', () => {
    const { pickup } = fitPickup([measuredImpedance(truth, noLoad, 1e-6, 3)]);
    for (const name of ['resistance', 'inductance', 'capacitance', 'loss'] as const)
      expect(pickup[name]! / truth[name]!).toBeCloseTo(1, 3);
  });
});

test.each([0.9, 0.94, 0.97])(
  'a core after Leach with the exponent %d, which the fit does not know: within 1 dB to 10 kHz',
  (exponent) => {
    for (let seed = 1; seed <= 10; seed++) {
      const truth = { ...drawnTruth(seed, false), exponent };
      expect(
        apart(fitPickup([measuredImpedance(truth, noLoad, 0.01, seed)]), truth, lead),
        `impedance, seed ${seed}`,
      ).toBeLessThan(1);
      const curves = [measuredResponse(truth, lead, 0.1, seed), measuredResponse(truth, more, 0.1, seed + 50)];
      expect(apart(fitPickup(curves, { resistance: truth.resistance }), truth, lead), `responses, seed ${seed}`).toBeLessThan(1);
    }
  },
);
