/** Resonances from text to answer, against the closed form of coil, load and capacitance. */
import { expect, it } from 'vitest';
import { responseSummary } from '../../language/electrics/index.js';
import { circuitOf, createBench, examplesUri, settingOf } from './harness.js';

/** Textbook (check-values.md, grade C): peak at f0·√(1 − 1/2Q²), Q/√(1 − 1/4Q²) above the level at 0 Hz; `db` is above the median from 80 Hz to 1.3 kHz. */
function worked(henry: number, ohm: number, load: number, farad: number): { readonly hz: number; readonly db: number } {
  const loss = 1 + ohm / load;
  const q = Math.sqrt(henry * farad * loss) / (henry / load + ohm * farad);
  const hz = (Math.sqrt(loss / (henry * farad)) / (2 * Math.PI)) * Math.sqrt(1 - 1 / (2 * q * q));
  const level = (at: number): number => {
    const w = 2 * Math.PI * at;
    return -20 * Math.log10(Math.hypot(1 - (w * w * henry * farad) / loss, (w * (henry / load + ohm * farad)) / loss));
  };
  const levels = Array.from({ length: 2001 }, (_, i) => level(80 * (1300 / 80) ** (i / 2000))).sort((a, b) => a - b);
  return { hz, db: 20 * Math.log10(q / Math.sqrt(1 - 1 / (4 * q * q))) - levels[1000]! };
}

/** One pickup, a volume at 10, and a tone that at 0 lays its capacitor straight across. */
const text = (henry: string, ohm: string, pot: string, tone: string): string => `
instrument "Small circuit"
part p : single-coil ${ohm} ${henry} 100pF
part volume : pot ${pot} audio
part tone : pot ${pot} audio
part tone-cap : capacitor ${tone} from tone.1 to p.ground
part output : jack
wire p.hot to volume.3 to tone.2
wire volume.2 to output.tip
wire volume.1 to p.ground to output.sleeve`;

it('3 H, 7.5k, 500 pF in all, into 250k and nothing else: 3999.6 Hz, 8.122 dB over 0 Hz (C)', () => {
  const { circuit } = circuitOf(`
instrument "Small circuit"
part p : single-coil 7.5k 3H 100pF
part output : jack
rig { cable 400pF, input 250k }
wire p.hot to output.tip
wire p.ground to output.sleeve`);
  const { peak } = responseSummary(circuit, settingOf(circuit, 'all at 10'));
  expect(peak!.hz / 3999.6).toBeCloseTo(1, 4);
  expect(peak!.db).toBeCloseTo(worked(3, 7500, 250e3, 500e-12).db, 3);
  expect(peak!.db).toBeCloseTo(8.07, 2);
});

it.each([
  ['4.5H', '8k', '500k', '22nF', worked(4.5, 8e3, 500e3 / 1.5, 22e-9 + 600e-12)],
  ['2.4H', '6.2k', '250k', '10nF', worked(2.4, 6.2e3, 200e3, 10e-9 + 600e-12)],
  ['5H', '9k', '1M', '4.7nF', worked(5, 9e3, 500e3, 4.7e-9 + 600e-12)],
])('%s, %s, %s pots, %s with the tone at 0', (henry, ohm, pot, tone, { hz, db }) => {
  const { circuit } = circuitOf(text(henry, ohm, pot, tone));
  const { peak } = responseSummary(circuit, settingOf(circuit, 'tone 0'));
  expect(peak!.hz / hz).toBeCloseTo(1, 3);
  expect(Math.abs(peak!.db - db)).toBeLessThan(0.02);
});

it('a covered humbucker with the resonance that was measured peaks at its jack where the closed form of its core does', () => {
  type Complex = readonly [re: number, im: number];
  const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
  const over = ([a, b]: Complex, [c, d]: Complex): Complex => [
    (a * c + b * d) / (c * c + d * d),
    (b * c - a * d) / (c * c + d * d),
  ];
  const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];
  const [n, share, eddy, shading] = [0.95, 0.2, 40e3, 0.3];
  /** Level of K (jω)^n + (jωLe ∥ Re) with 8.2k into an admittance, the source shaded by 1 − κ jω / (jω + Re/Le), in dB; K = L (2π 120)^(1−n) / sin(nπ/2). */
  const level = (henry: number, hz: number, load: (omega: number) => Complex): number => {
    const omega = 2 * Math.PI * hz;
    const size = (henry * (1 - share) * (2 * Math.PI * 120) ** (1 - n) * omega ** n) / Math.sin((n * Math.PI) / 2);
    const path: Complex = [0, omega * share * henry];
    const core = plus(
      [size * Math.cos((n * Math.PI) / 2), size * Math.sin((n * Math.PI) / 2)],
      over(times(path, [eddy, 0]), plus(path, [eddy, 0])),
    );
    const shaded = plus([1, 0], over([0, -shading * omega], [eddy / (share * henry), omega]));
    const [x, y] = over(shaded, plus([1, 0], times(plus([8200, 0], core), load(omega))));
    return 20 * Math.log10(Math.hypot(x, y));
  };
  /** The place of the highest level on a fine logarithmic grid, hertz. */
  const top = (henry: number, load: (omega: number) => Complex): number => {
    const grid = Array.from({ length: 4001 }, (_, i) => 1500 * 4 ** (i / 4000));
    return grid.reduce((most, hz) => (level(henry, hz, load) > level(henry, most, load) ? hz : most));
  };
  // Halved until the peak with 110 + 520 pF lies at 2.9 kHz.
  let [low, high] = [1, 20];
  for (let i = 0; i < 25; i++) {
    const middle = Math.sqrt(low * high);
    if (top(middle, (omega) => [0, omega * 630e-12]) > 2900) low = middle;
    else high = middle;
  }
  // Volume 500k, tone 500k and 22 nF in a row, amplifier 1M, winding and lead.
  const jack = (omega: number): Complex =>
    plus([1 / 500e3 + 1 / 1e6, omega * 610e-12], over([1, 0], [500e3, -1 / (omega * 22e-9)]));
  const name = 'covered-humbucker-measured-peak.lug';
  const { peak } = responseSummary(createBench().circuit(examplesUri + name), { positions: [], rotations: [10, 10] });
  expect(peak!.hz / top(low, jack)).toBeCloseTo(1, 2);
  expect(Math.abs(top(low, jack) / 2680 - 1)).toBeLessThan(0.01);
});
