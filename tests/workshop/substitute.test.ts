/** A substitute judged by what it does, against the closed form of one pickup on its load. */
import { describe, expect, test } from 'vitest';
import { substitution } from '../../language/workshop/index.js';
import { soundCircuit } from '../circuit/harness.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

/** One coil of 7.5 kΩ and 3 H into 500 pF and the volume's track; the amplifier's input is out of the way. */
const text = (pot: string): string => `instrument "Alder Lane no. 69"
rig { cable 500pF, input 1000M }
part bridge : single-coil 7.5k 3H 0pF
part volume : pot ${pot} audio
part output : jack
wire bridge.hot to volume.3
wire bridge.ground to output.sleeve
wire volume.1 to output.sleeve
wire volume.2 to output.tip
`;

/** H(s) = 1/(1 + Rs/Rl + s(L/Rl + RsC) + s²LC): the peak and its height over the reference, which is the level at √(80 Hz · 1.3 kHz) where it only rises (check values, C; for 250 k 3999.6 Hz, +8.122 dB over 0 Hz). */
function closedForm(load: number): { hz: number; db: number; levelDb: number } {
  const [rs, l, c] = [7500, 3, 500e-12];
  const one = 1 + rs / load;
  const f0 = Math.sqrt(one / (l * c)) / (2 * Math.PI);
  const q = Math.sqrt(l * c * one) / (l / load + rs * c);
  const w = 2 * Math.PI * Math.sqrt(80 * 1300);
  const levelDb = -20 * Math.log10(Math.hypot(one - w * w * l * c, w * (l / load + rs * c)));
  const top = 20 * Math.log10(q / Math.sqrt(1 - 1 / (4 * q * q))) - 20 * Math.log10(one);
  return { hz: f0 * Math.sqrt(1 - 1 / (2 * q * q)), db: top - levelDb, levelDb };
}

describe('500k for 250k', () => {
  const rows = substitution(soundCircuit(text('250k')), soundCircuit(text('500k')));
  const [full] = rows;

  test('the peak moves as the closed form says', () => {
    expect(closedForm(250e3).hz).toBeCloseTo(3999.6, 1);
    for (const [answer, load] of [
      [full!.before, 250e3],
      [full!.after, 500e3],
    ] as const) {
      const { hz, db, levelDb } = closedForm(load);
      expect(answer.peak!.hz / hz).toBeCloseTo(1, 3);
      expect(answer.peak!.db).toBeCloseTo(db, 1);
      expect(answer.levelDb).toBeCloseTo(levelDb, 1);
    }
  });

  test('the reading moves from 7281.6 to 7389.2 Ω (check values, C)', () => {
    expect([full!.before.ohm, full!.after.ohm].map((ohm) => Math.round(ohm! * 10) / 10)).toEqual([7281.6, 7389.2]);
  });

  test('the volume half way is told, too, and a change that changes nothing is not', () => {
    expect(rows.map(({ setting }) => setting)).toEqual(['default', 'volume 5']);
    expect(substitution(soundCircuit(text('250k')), soundCircuit(text('250k')))).toEqual([]);
  });
});

describe('lugwork substitute', () => {
  const cwd = folderWith({ 'a.lug': text('250k') });

  test('tells reading, level and peak before and after', () => {
    const { code, out } = inProcess(['substitute', 'a.lug', 'volume 500k'], cwd);
    expect(code).toBe(0);
    expect(out).toContain('7.28 kΩ → 7.39 kΩ');
    expect(out).toContain('4 kHz +8.1 dB → 4.0');
    const json = JSON.parse(inProcess(['substitute', 'a.lug', 'volume 500k', '--format', 'json'], cwd).out) as {
      settings: { before: { ohm: number } }[];
    };
    expect(json.settings[0]!.before.ohm).toBeCloseTo(7281.55, 1);
  });

  test.each([
    ['volume 22nF', 'pot takes a resistance'],
    ['volum 500k', 'did you mean volume?'],
    ['volume 500k\nwire volume.1 to volume.3', 'a change must be on one line'],
  ])('%j is refused in the words of the language', (change, message) => {
    const { code, err } = inProcess(['substitute', 'a.lug', change], cwd);
    expect(code).toBe(2);
    expect(err).toContain(message);
  });
});
