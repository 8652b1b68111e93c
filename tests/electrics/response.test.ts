/** Peak, corner and level between the points, and the deck as text. */
import { describe, expect, it } from 'vitest';
import { altered, shaftId, type AnalysedCircuit } from '../../language/circuit/model.js';
import {
  netNames,
  nets,
  response,
  responseSummary,
  restingSetting,
  spiceDeck,
  withRotation,
  type Setting,
} from '../../language/electrics/index.js';
import { circuit } from './builder.js';
import { randomInstrument } from './random-circuit.js';

const one = (cable = 500e-12, input = 250e3): AnalysedCircuit =>
  circuit().single('coil').wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').rigged(cable, input).build();
const none: Setting = { positions: [], rotations: [] };

describe('points', () => {
  it('logarithmic, ends as asked for', () => {
    const { points } = response(one(), none, { from: 100, to: 10_000, points: 3 });
    expect(points.map(({ hz }) => Number(hz.toFixed(9)))).toEqual([100, 1000, 10_000]);
    expect(response(one(), none).points).toHaveLength(200);
    expect(response(one(), none, { points: 1 }).points).toHaveLength(1);
    expect(response(one(), none, { points: 0 }).points).toHaveLength(0);
  });

  it('levels and phases are those of the closed form', () => {
    const [l, c, rs, rl] = [3, 500e-12, 7500, 250e3];
    for (const { hz, db, deg } of response(one(), none, { points: 50 }).points) {
      const w = 2 * Math.PI * hz;
      const [re, im] = [1 + rs / rl - w * w * l * c, w * (l / rl + rs * c)];
      expect(db).toBeCloseTo(-20 * Math.log10(Math.hypot(re, im)), 9);
      expect(deg).toBeCloseTo((-Math.atan2(im, re) * 180) / Math.PI, 9);
    }
  });

  it('peak, corner and level do not depend on the points asked for', () => {
    const summary = responseSummary(one(), none);
    expect(response(one(), none)).toMatchObject(summary);
    expect(response(one(), none, { from: 1000, to: 2000, points: 7 })).toMatchObject(summary);
  });
});

describe('peak and corner', () => {
  it('the corner of a resistor and a capacitor', () => {
    // C: f = 1/2πRC with the pickup's resistance alone, R = 7.5 k ∥ 1 M.
    const made = circuit()
      .single('coil', { henry: 0 })
      .wire('coil.hot', 'output.tip')
      .wire('coil.ground', 'output.sleeve')
      .rigged(22e-9, 1e6)
      .build();
    const { peak, cutoffHz } = responseSummary(made, none);
    expect(peak).toBeNull();
    // The reference is the level at the middle of the band, where a falling level has its median; 3.01 dB below it the square of f/corner has doubled and one more.
    const corner = 1 / (2 * Math.PI * (7.5e9 / 1_007_500) * 22e-9);
    const middle = (80 * 1300) / corner ** 2;
    expect(cutoffHz! / corner).toBeCloseTo(Math.sqrt(2 * (1 + middle) - 1), 4);
  });

  it('a corner beyond the range is none', () => {
    const made = circuit()
      .single('coil', { henry: 0 })
      .wire('coil.hot', 'output.tip')
      .wire('coil.ground', 'output.sleeve')
      .rigged(100e-12, 1e6)
      .build();
    expect(responseSummary(made, none)).toMatchObject({ peak: null, cutoffHz: null });
  });

  it('a heavy load leaves no peak', () => {
    expect(responseSummary(one(500e-12, 47e3), none).peak).toBeNull();
  });

  it('where the level only rises its median is the level at the geometric mean of the band', () => {
    const b = circuit()
      .single('coil')
      .wire('coil.ground', 'output.sleeve')
      .capacitor('cut', 1e-9, 'coil.hot', 'output.tip')
      .resistor('load', 250e3, 'output.tip', 'output.sleeve');
    const made = b.build();
    const { levelDb } = responseSummary(made, none);
    const mean = Math.sqrt(80 * 1300);
    expect(levelDb).toBeCloseTo(response(made, none, { from: mean, to: mean, points: 1 }).points[0]!.db, 6);
  });

  it('a silent setting has neither', () => {
    const made = circuit()
      .single('coil')
      .pot('volume')
      .wire('coil.hot', 'volume.3')
      .wire('coil.ground', 'volume.1', 'output.sleeve')
      .wire('volume.2', 'output.tip')
      .build();
    expect(responseSummary(made, withRotation(restingSetting(made), shaftId(0), 0))).toMatchObject({
      peak: null,
      cutoffHz: null,
      levelDb: -300,
    });
  });

  it('no point of a fine sweep stands above the peak, and the corner stands where it says', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { circuit: made, setting } = randomInstrument(seed);
      const { points, peak, cutoffHz, levelDb } = response(made, setting, { points: 2000 });
      const highest = points.reduce((most, point) => (point.db > most.db ? point : most));
      if (levelDb === null) continue;
      if (peak !== null) {
        expect(highest.db, `seed ${seed}`).toBeLessThanOrEqual(levelDb + peak.db + 1e-7);
        expect(Math.abs(highest.hz / peak.hz - 1), `seed ${seed}`).toBeLessThan(0.01);
      }
      if (cutoffHz !== null) {
        const at = (hz: number): number => response(made, setting, { from: hz, to: hz, points: 1 }).points[0]!.db;
        expect(at(cutoffHz) - levelDb, `seed ${seed}`).toBeCloseTo(-3.0103, 3);
        expect(at(cutoffHz * 1.001), `seed ${seed}`).toBeLessThan(levelDb - 3.0103);
      }
    }
  });
});

describe('the deck', () => {
  const made = circuit()
    .single('bridge', { farad: 120e-12, loss: 1e6, winding: -1 })
    .humbucker('neck', { coupling: 0.4 })
    .selector('selector', 2)
    .pot('volume')
    .wire('bridge.hot', 'selector.A1')
    .wire('neck.hot', 'selector.A2')
    .wire('selector.A0', 'volume.3')
    .wire('volume.2', 'output.tip')
    .wire('volume.1', 'bridge.ground', 'neck.ground', 'output.sleeve')
    .build();
  const deck = spiceDeck(made, withRotation({ positions: [0], rotations: [10] }, shaftId(0), 5));

  it('names nets by their lugs, ground 0', () => {
    const folded = nets(made, [0]);
    const names = netNames(made, folded);
    expect(names[folded.ground]).toBe('0');
    expect(names[folded.tip]).toBe('output_tip');
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    expect(deck).toContain('* bridge_hot: bridge.hot selector.A0 selector.A1 volume.3');
  });

  it.each([
    ['a source with its sign', 'V_bridge_main n_bridge_main_1 0 DC 0 AC 1 180'],
    [
      'resistance and inductance in series, the loss across the inductance',
      'R_bridge_main n_bridge_main_1 n_bridge_main_2 7500\nL_bridge_main n_bridge_main_2 bridge_hot 3\nR_bridge_main_loss n_bridge_main_2 bridge_hot 1000000',
    ],
    ["the winding's capacitance across both", 'C_bridge_main 0 bridge_hot 1.2e-10'],
    ['coupling', 'K_neck L_neck_north L_neck_south -0.4'],
    ['both halves of a track', 'R_volume_lower 0 output_tip 125000\nR_volume_upper output_tip bridge_hot 125000'],
    ['lead and amplifier', 'C_lead output_tip 0 5e-10\nR_amplifier output_tip 0 1000000'],
    ['the sweep and what to print', '.ac dec 66 20 20000\n.print ac vdb(output_tip) vp(output_tip)\n.end\n'],
  ])('%s', (_, text) => {
    expect(deck).toContain(text);
  });

  it('says what is wrong in a comment', () => {
    expect(spiceDeck(altered(made, { output: undefined }), { positions: [0], rotations: [10] })).toContain(
      '* no jack, so the instrument has no output',
    );
  });
});
