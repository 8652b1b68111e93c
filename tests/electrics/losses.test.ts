/** Losses of a coil: the sections against Leach's form, the solver against closed forms written here and against the general solver by its deck. */
import { afterAll, describe, expect, it, test } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { coreImpedance, coreSections, lossFactor } from '../../language/coil/index.js';
import { logarithmic, readAtJack, response, restingSetting, transferImpedance } from '../../language/electrics/index.js';
import { lugOf, soundCircuit } from '../circuit/harness.js';
import { createComparison } from './comparison.js';

type Complex = readonly [re: number, im: number];
const plus = (...all: readonly Complex[]): Complex => [all.reduce((s, [x]) => s + x, 0), all.reduce((s, [, y]) => s + y, 0)];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = ([a, b]: Complex, [c, d]: Complex): Complex => [
  (a * c + b * d) / (c * c + d * d),
  (b * c - a * d) / (c * c + d * d),
];
const beside = (a: Complex, b: Complex): Complex => over(times(a, b), plus(a, b));
const db = ([x, y]: Complex): number => 20 * Math.log10(Math.hypot(x, y));
const degrees = ([x, y]: Complex): number => (Math.atan2(y, x) * 180) / Math.PI;

const onJack = (part: string, wires = 'wire p.hot to output.tip\nwire p.ground to output.sleeve'): AnalysedCircuit =>
  soundCircuit(`part p : ${part}\npart output : jack\n${wires}\nrig { cable 400pF, input 1M }`);
const points = (circuit: AnalysedCircuit, count = 40) => response(circuit, restingSetting(circuit), { points: count }).points;

describe('the lossy inductor', () => {
  // L = 4 H at 120 Hz: own derivation from Leach's form, K = L ω^(1−n) / sin(nπ/2), issue figures to four places.
  test.each([
    [0.94, 5.979],
    [0.9, 7.856],
  ])('n = %f has for 4 H at 120 Hz K = %f Ω·s^n', (n, factor) => {
    expect(lossFactor(4, n).toFixed(3)).toBe(factor.toFixed(3));
  });

  // W. M. Leach, "Loudspeaker voice-coil inductance losses", J. Audio Eng. Soc. 50(6), 2002: Z = K (jω)^n = K ω^n ∠ n·90°.
  test.each([0.5, 0.6, 0.7, 0.8, 0.9, 0.94, 0.98, 0.999])(
    'n = %f follows K (jω)^n within 0.2 dB and 2° from 50 Hz to 15 kHz',
    (n) => {
      const sections = coreSections({ henry: 4, exponent: n });
      for (const hz of logarithmic(50, 15_000, 200)) {
        const omega = 2 * Math.PI * hz;
        const { re, im } = coreImpedance(sections, Infinity, omega);
        expect(Math.abs(db([re, im]) - 20 * Math.log10(lossFactor(4, n) * omega ** n)), `${hz} Hz`).toBeLessThan(0.2);
        expect(Math.abs(degrees([re, im]) - 90 * n), `${hz} Hz`).toBeLessThan(2);
      }
    },
  );

  it('has at 120 Hz the inductance that is given, and half the resistance of the core per coil of a humbucker', () => {
    for (const [type, ends] of [
      ['single-coil', ['p.hot', 'p.ground']],
      ['humbucker', ['p.hot', 'p.ground']],
    ] as const) {
      const circuit = soundCircuit(`part p : ${type} 8k 4H 0pF { loss-exponent 0.9 }`);
      const lugs = [lugOf(circuit, ends[0]).id, lugOf(circuit, ends[1]).id] as const;
      const z = transferImpedance(circuit, restingSetting(circuit), lugs, lugs, 120)!;
      // Within the 0.2 dB, 2.3 %, of the sections.
      expect(z.im / (2 * Math.PI * 120) / 4).toBeCloseTo(1, 1.6);
      // R + Im / tan(nπ/2), the phase of K (jω)^n.
      expect((z.re - 8000) / (z.im / Math.tan((0.9 * Math.PI) / 2))).toBeCloseTo(1, 1);
    }
  });
});

/** What a coil R + Z gives at the jack of `onJack`, closed: e / (1 + (R + Z)(1/R_in + jω(C + C_lead))). */
const loaded = (ohm: number, z: Complex, farad: number, omega: number): Complex =>
  over([1, 0], plus([1, 0], times(plus([ohm, 0], z), [1 / 1e6, omega * (farad + 400e-12)])));

describe('closed forms', () => {
  const models: readonly [string, (omega: number) => Complex, (omega: number) => Complex][] = [
    ['', (w) => [0, 3 * w], () => [1, 0]],
    ['loss 300k', (w) => beside([0, 3 * w], [300e3, 0]), () => [1, 0]],
    ['eddy-inductance 30%, eddy-resistance 15k', (w) => plus([0, 2.1 * w], beside([0, 0.9 * w], [15e3, 0])), () => [1, 0]],
    [
      'eddy-inductance 30%, eddy-resistance 15k, cover-shading 40%',
      (w) => plus([0, 2.1 * w], beside([0, 0.9 * w], [15e3, 0])),
      // 1 − κ jω / (jω + Re/Le)
      (w) => plus([1, 0], over([0, -0.4 * w], [15e3 / 0.9, w])),
    ],
    [
      'loss 500k, eddy-inductance 100%, eddy-resistance 200k, cover-shading 100%',
      (w) => beside(beside([0, 3 * w], [200e3, 0]), [500e3, 0]),
      (w) => plus([1, 0], over([0, -w], [200e3 / 3, w])),
    ],
  ];

  test.each(models)('{ %s }', (properties, core, source) => {
    for (const type of ['single-coil', 'humbucker']) {
      for (const { hz, ...point } of points(onJack(`${type} 6k 3H 100pF { ${properties} }`))) {
        const omega = 2 * Math.PI * hz;
        const expected = times(source(omega), loaded(6000, core(omega), 100e-12, omega));
        expect(Math.abs(point.db - db(expected)), `${type} ${hz} Hz`).toBeLessThan(1e-6);
        expect(Math.abs(point.deg - degrees(expected)), `${type} ${hz} Hz`).toBeLessThan(1e-5);
      }
    }
  });

  it('a lossy inductor with eddy currents under a cover is within 0.2 dB of the exact form', () => {
    const [share, ohm, n] = [0.3, 15e3, 0.9];
    const circuit = onJack(
      `single-coil 6k 3H 100pF { loss-exponent ${n}, eddy-inductance 30%, eddy-resistance 15k, cover-shading 40% }`,
    );
    for (const point of points(circuit)) {
      const omega = 2 * Math.PI * point.hz;
      const size = lossFactor(3 * (1 - share), n) * omega ** n;
      const exact: Complex = [size * Math.cos((n * Math.PI) / 2), size * Math.sin((n * Math.PI) / 2)];
      const core = plus(exact, beside([0, 3 * share * omega], [ohm, 0]));
      const shaded = plus([1, 0], over([0, -0.4 * omega], [ohm / (3 * share), omega]));
      expect(Math.abs(point.db - db(times(shaded, loaded(6000, core, 100e-12, omega)))), `${point.hz} Hz`).toBeLessThan(0.2);
    }
  });
});

describe('limits and shares', () => {
  const same = (one: string, other: string, within = 1e-9): void => {
    const [a, b] = [points(onJack(one)), points(onJack(other))];
    a.forEach(({ db: own, hz }, i) => expect(Math.abs(own - b[i]!.db), `${one} and ${other} at ${hz} Hz`).toBeLessThan(within));
  };

  test.each([
    ['eddy-inductance 0%, eddy-resistance 20k', ''],
    ['loss-exponent 1', ''],
    ['eddy-inductance 30%, eddy-resistance 20k, cover-shading 0%', 'eddy-inductance 30%, eddy-resistance 20k'],
    ['eddy-inductance 100%, eddy-resistance 300k', 'loss 300k'],
    ['eddy-inductance 30%, loss 200k, eddy-resistance 20k', 'loss 200k, eddy-resistance 20k, eddy-inductance 30%'],
  ])('{ %s } is { %s }', (one, other) => {
    same(`single-coil 6k 3H 100pF { ${one} }`, `single-coil 6k 3H 100pF { ${other} }`);
    same(`humbucker 6k 3H 100pF { coupling 15%, ${one} }`, `humbucker 6k 3H 100pF { coupling 15%, ${other} }`);
  });

  const all = 'loss 500k, loss-exponent 0.92, eddy-inductance 30%, eddy-resistance 20k, cover-shading 40%';
  test.each(['loss 300k', 'loss-exponent 0.9', 'eddy-inductance 30%, eddy-resistance 20k', all])(
    'two coils in series are the whole, at whatever coupling: %s',
    (losses) => {
      for (const coupling of [-30, 0, 15, 60])
        same(`humbucker 8k 4H 120pF { ${losses}, coupling ${coupling}% }`, `single-coil 8k 4H 120pF { ${losses} }`, 1e-6);
      // The windings of a tapped one share their field but for 2 %.
      same(`single-coil-tapped 8k 4H 120pF { ${losses} }`, `single-coil 8k 4H 120pF { ${losses} }`, 0.02);
    },
  );

  it('does not depend on the order of the statements', () => {
    const lines = [
      `part p : humbucker 8k 4H 120pF { ${all}, coupling 15% }`,
      'part output : jack',
      'wire p.hot to output.tip',
      'wire p.ground to output.sleeve',
    ];
    const [one, other] = [lines, [...lines].reverse()].map((text) => points(soundCircuit(text.join('\n'))));
    one!.forEach(({ db: own }, i) => expect(Math.abs(own - other![i]!.db)).toBeLessThan(1e-9));
  });

  it('leaves what an ohmmeter reads as it was', () => {
    for (const type of ['single-coil', 'humbucker', 'single-coil-tapped'])
      for (const coupling of type === 'single-coil' ? [''] : ['', 'coupling 20%, ']) {
        const read = (losses: string): number => {
          const circuit = onJack(`${type} 8k 4H 120pF { ${coupling}${losses} }`);
          return readAtJack(circuit, restingSetting(circuit)).ohm!;
        };
        expect(read(all)).toBeCloseTo(8000, 6);
      }
  });
});

describe('against the general solver', () => {
  const comparison = createComparison();
  afterAll(() => {
    console.log(`losses of coils against the general solver: ${comparison.summary()}`);
  });

  const split = 'wire p.hot to output.tip\nwire p.ground to output.sleeve';
  const parts: readonly [string, string][] = [
    ['single-coil 6k 3H 100pF', split],
    ['humbucker 8k 4.4H 120pF', split],
    ['humbucker-4 8k 4.4H 120pF', 'wire p.north-start to output.tip\nwire p.north-finish to p.south-finish to output.sleeve'],
    [
      'humbucker-4 8k 4.4H 120pF',
      'wire p.north-start to p.south-finish to output.tip\nwire p.north-finish to p.south-start to output.sleeve',
    ],
    [
      'humbucker-4 8k 4.4H 120pF',
      'wire p.north-start to output.tip\nwire p.north-finish to p.south-start\nwire p.south-finish to output.sleeve',
    ],
    [
      'humbucker-4 8k 4.4H 120pF',
      'wire p.north-start to p.north-finish to p.south-start to output.sleeve\nwire p.south-finish to output.tip',
    ],
    ['single-coil-tapped 9k 4H 130pF', 'wire p.tap to output.tip\nwire p.ground to output.sleeve'],
    ['single-coil-tapped 9k 4H 130pF', 'wire p.hot to output.tip\nwire p.ground to output.sleeve'],
  ];
  const losses = [
    'eddy-inductance 30%, eddy-resistance 15k',
    'loss-exponent 0.9',
    'eddy-inductance 30%, eddy-resistance 15k, cover-shading 50%',
    'loss 400k, loss-exponent 0.6, eddy-inductance 60%, eddy-resistance 60k, cover-shading 30%',
  ];
  const couplings = ['', 'coupling 15%, ', 'coupling -30%, '];
  test.each(parts.map(([part, wires], i) => ({ part, wires, i })))('$i: $part', async ({ part, wires }) => {
    for (const own of losses)
      for (const coupling of part.startsWith('humbucker') ? couplings : [''])
        await comparison.response(
          onJack(`${part} { ${coupling}${own} }`, wires),
          { positions: [], rotations: [] },
          `${part} { ${coupling}${own} }\n${wires}`,
        );
  });
});
