/** Resonances from text to answer, against the closed form of coil, load and capacitance. */
import { expect, it } from 'vitest';
import { responseSummary } from '../../language/electrics/index.js';
import { circuitOf, settingOf } from './harness.js';

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
