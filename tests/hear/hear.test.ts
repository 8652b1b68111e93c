/** Samples against what they are made of: the transform against its definition, a response against closed forms and the solver, a string against its pitch and decay. */
import { describe, expect, test } from 'vitest';
import { fourier, impulseResponse, pluckedString, responseLength, strum } from '../../language/hear/index.js';
import { inProcess } from '../harness/in-process.js';

/** Σ x[n] e^(−2πi f n/fs) at any frequency, by its definition. */
function at(samples: Float64Array, hz: number, sampleRate: number): readonly [number, number] {
  const w = (2 * Math.PI * hz) / sampleRate;
  let [re, im] = [0, 0];
  for (const [n, value] of samples.entries()) {
    re += value * Math.cos(w * n);
    im -= value * Math.sin(w * n);
  }
  return [re, im];
}
const levelAt = (samples: Float64Array, hz: number, sampleRate: number): number =>
  20 * Math.log10(Math.hypot(...at(samples, hz, sampleRate)));

describe('the transform', () => {
  test('is its definition, and its inverse leads back', () => {
    const given = Float64Array.from({ length: 16 }, (_, n) => Math.sin(n * n) + n / 7);
    const [re, im] = [Float64Array.from(given), new Float64Array(16)];
    fourier(re, im);
    for (let k = 0; k < 16; k++) {
      const [x, y] = at(given, k, 16);
      expect(re[k]).toBeCloseTo(x, 10);
      expect(im[k]).toBeCloseTo(y, 10);
    }
    fourier(re, im, true);
    for (let n = 0; n < 16; n++) expect(re[n]! / 16).toBeCloseTo(given[n]!, 12);
  });

  test('of a length that is no power of two is refused', () => {
    expect(() => fourier(new Float64Array(12), new Float64Array(12))).toThrow(RangeError);
  });
});

/** Points like those of a screen: 240 from 20 Hz to 20 kHz. */
function pointsOf(transfer: (hz: number) => readonly [number, number]) {
  const hz = Array.from({ length: 240 }, (_, index) => 20 * 1000 ** (index / 239));
  const all = hz.map(transfer);
  return {
    hz,
    db: all.map(([re, im]) => 20 * Math.log10(Math.hypot(re, im))),
    deg: all.map(([re, im]) => (Math.atan2(im, re) * 180) / Math.PI),
  };
}

describe('the impulse response', () => {
  test.each([44_100, 48_000])('of a wire is one sample but for the band’s end, at %i Hz', (rate) => {
    const samples = impulseResponse(
      pointsOf(() => [1, 0]),
      rate,
    );
    expect(samples).toHaveLength(responseLength(rate));
    expect(samples.reduce((best, value, n) => (value > samples[best]! ? n : best), 0)).toBe(128);
    for (const hz of [0, 1, 20, 100, 1000, 10_000]) expect(Math.abs(levelAt(samples, hz, rate))).toBeLessThan(0.01);
    expect(levelAt(samples, rate / 2, rate)).toBeLessThan(-60);
  });

  test('of a resonant low-pass has its level and its phase, not another', () => {
    // H = 1 / (1 + jx/Q − x²) with x = f / 3 kHz and Q = 4: the series RLC of any textbook.
    const exact = (hz: number): readonly [number, number] => {
      const x = hz / 3000;
      const [a, b] = [1 - x * x, x / 4];
      return [a / (a * a + b * b), -b / (a * a + b * b)];
    };
    const samples = impulseResponse(pointsOf(exact), 48_000);
    for (const hz of [30, 82, 440, 1500, 2900, 3000, 3100, 4700, 10_000]) {
      const [re, im] = exact(hz);
      expect(Math.abs(levelAt(samples, hz, 48_000) - 20 * Math.log10(Math.hypot(re, im))), String(hz)).toBeLessThan(0.02);
      // The lead of 128 samples taken off.
      const [x, y] = at(samples, hz, 48_000);
      const turn = Math.atan2(y, x) + (2 * Math.PI * hz * 128) / 48_000 - Math.atan2(im, re);
      expect(Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) * (180 / Math.PI), String(hz)).toBeLessThan(0.3);
    }
  });

  test('of a first-order high-pass is real at 0 Hz and follows its slope', () => {
    // H = jx / (1 + jx), x = f / 150 Hz.
    const samples = impulseResponse(
      pointsOf((hz) => {
        const x = hz / 150;
        return [(x * x) / (1 + x * x), x / (1 + x * x)];
      }),
      44_100,
    );
    for (const hz of [40, 82, 150, 1000, 10_000]) {
      const x = hz / 150;
      expect(Math.abs(levelAt(samples, hz, 44_100) - 20 * Math.log10(x / Math.hypot(1, x))), String(hz)).toBeLessThan(0.1);
    }
  });

  test.each([
    ['examples/three-single-coils-lever-5.lug', 'selector "bridge and middle", volume 7'],
    ['examples/phase-switch.lug', 'phase 2'],
    ['examples/bass-two-circuits-four-cavities.lug', 'bass-cut 2'],
    ['examples/four-pole-lever-split-and-capacitors.lug', 'selector 3'],
  ])('of %s with %s is within 0.1 dB of the command’s response up to 10 kHz', (file, set) => {
    const sweep = (points: number) => {
      const { code, out, err } = inProcess(['response', file, '--set', set, '--format', 'json', '--points', String(points)]);
      if (code !== 0) throw new Error(err);
      const { points: list } = JSON.parse(out) as { points: { hz: number; db: number; deg: number }[] };
      return list;
    };
    const shown = sweep(240);
    const curve = { hz: shown.map(({ hz }) => hz), db: shown.map(({ db }) => db), deg: shown.map(({ deg }) => deg) };
    const samples = impulseResponse(curve, 48_000);
    // Other frequencies than those that it was made of.
    for (const { hz, db } of sweep(97).filter(({ hz }) => hz > 30 && hz <= 10_000))
      expect(Math.abs(levelAt(samples, hz, 48_000) - db), `${hz} Hz`).toBeLessThan(0.1);
  });

  test('of silence is silence', () => {
    const samples = impulseResponse({ hz: [20, 20_000], db: [-300, -300], deg: [0, 0] }, 48_000);
    expect(Math.max(...samples.map(Math.abs))).toBeLessThan(1e-12);
  });
});

describe('a string', () => {
  test.each([82.41, 110, 329.63])(
    'of %f Hz has that pitch, within 2 cents',
    (hz) => {
      const rate = 48_000;
      const samples = pluckedString(hz, rate, 2 * rate);
      const cents = Array.from({ length: 161 }, (_, index) => index / 4 - 20);
      const found = cents.reduce((best, one) =>
        levelAt(samples, hz * 2 ** (one / 1200), rate) > levelAt(samples, hz * 2 ** (best / 1200), rate) ? one : best,
      );
      expect(Math.abs(found)).toBeLessThanOrEqual(2);
    },
    60_000,
  );

  test('dies away, its high partials first, without a constant part', () => {
    const rate = 48_000;
    const samples = pluckedString(110, rate, 3 * rate);
    const [early, late] = [samples.subarray(0, rate / 2), samples.subarray(2 * rate, 2.5 * rate)];
    const fall = (hz: number): number => levelAt(early, hz, rate) - levelAt(late, hz, rate);
    // 60 dB in 5 s: 24 dB in 2 s.
    expect(fall(110)).toBeGreaterThan(20);
    expect(fall(110)).toBeLessThan(28);
    expect(fall(110 * 30)).toBeGreaterThan(fall(110) + 10);
    expect(Math.abs(at(samples, 0, rate)[0] / samples.length)).toBeLessThan(0.001);
  });

  test('is the same each time, and another with another seed', () => {
    expect(pluckedString(110, 48_000, 500)).toEqual(pluckedString(110, 48_000, 500));
    expect(pluckedString(110, 48_000, 500, 2)).not.toEqual(pluckedString(110, 48_000, 500));
  });

  test('a strum leaves headroom and begins and ends in silence', () => {
    for (const tuning of ['guitar', 'bass'] as const) {
      const samples = strum(tuning, 44_100);
      expect(samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0)).toBeCloseTo(0.3, 6);
      expect(samples.at(-1)).toBe(0);
      expect(samples).toHaveLength(4 * 44_100);
    }
  });
});
