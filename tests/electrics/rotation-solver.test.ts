/** Turning a shaft in a network that is factored already gives what solving that setting from the start gives: two ways to the same figures. */
import { describe, expect, it } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/model.js';
import { levelsIn, type Levels } from '../../language/electrics/controls/control-levels.js';
import { controlEffects, nets, type Setting } from '../../language/electrics/index.js';
import { createRotationSolver } from '../../language/electrics/controls/rotation-solver.js';
import { circuit } from './builder.js';
import { randomInstrument, randomNetwork } from './random-circuit.js';

const seeds = Array.from({ length: 150 }, (_, seed) => seed + 1);

/** Figures that must agree, everything at or below −100 dB as that. */
const figures = ({ db, total }: Levels): readonly number[] => [...db, ...total];

function compare(made: AnalysedCircuit, setting: Setting): number {
  const folded = nets(made, setting.positions);
  const solver = createRotationSolver(made, folded, setting);
  if (solver === undefined) return 0;
  let compared = 0;
  const same = (found: Levels | undefined, rotations: readonly number[]): void => {
    expect(found).toBeDefined();
    const wanted = figures(levelsIn(made, folded, { positions: setting.positions, rotations }));
    figures(found!).forEach((db, i) => expect(Math.abs(db - wanted[i]!)).toBeLessThan(1e-7));
    compared++;
  };
  same(solver.levels(), setting.rotations);
  for (const { id } of made.shafts.filter((shaft) => solver.canTurn(shaft.id))) {
    for (const rotation of [0, 3, 5, 10]) {
      const rotations = setting.rotations.map((at, other) => (other === id ? rotation : at));
      same(solver.levels(id, rotation), rotations);
    }
  }
  // What was turned stands where it stood.
  same(solver.levels(), setting.rotations);
  return compared;
}

describe('levels with one shaft turned', () => {
  it.each([
    ['instruments', randomInstrument],
    ['networks', randomNetwork],
  ])('%s', (_, random) => {
    const compared = seeds.map(random).reduce((sum, { circuit: made, setting }) => sum + compare(made, setting), 0);
    expect(compared).toBeGreaterThan(500);
  });

  it('a hundred volumes and tones on one net, whatever the others are turned to', () => {
    const b = circuit().pot('master').wire('master.2', 'output.tip').wire('master.1', 'output.sleeve');
    for (let i = 1; i <= 50; i++) {
      b.single(`p${i}`, { ohm: 6000 + 20 * i, farad: 110e-12 })
        .pot(`v${i}`, { taper: 'audio' })
        .pot(`t${i}`);
      b.capacitor(`c${i}`, 22e-9, `t${i}.1`, 'output.sleeve').wire(`p${i}.hot`, `v${i}.2`, `t${i}.2`);
      b.wire(`p${i}.ground`, `v${i}.1`, 'output.sleeve').wire(`v${i}.3`, 'master.3');
    }
    const made = b.build();
    for (const turn of [() => 10, (i: number) => (i * 7) % 11])
      expect(compare(made, { positions: [], rotations: made.shafts.map((_, i) => turn(i)) })).toBe(406);
  });

  it('two wipers on each other’s end lugs, and a track with its wiper joined to one end', () => {
    const b = circuit().single('coil', { farad: 100e-12 }).pot('one').pot('two').pot('third');
    b.wire('coil.hot', 'one.3', 'two.2', 'third.3').wire('one.2', 'two.3', 'output.tip').wire('third.2', 'third.1');
    const made = b.wire('coil.ground', 'one.1', 'two.1', 'third.2', 'output.sleeve').build();
    expect(compare(made, { positions: [], rotations: [10, 10, 10] })).toBeGreaterThan(10);
    expect(compare(made, { positions: [], rotations: [0, 10, 5] })).toBeGreaterThan(10);
  });
});

/** 250 coils of 6.5 kΩ, 2.7 H and 110 pF in parallel are 26 Ω, 10.8 mH and 27.5 nF: 22 nF more move their resonance from 9.2 to 6.9 kHz, which lifts 8 kHz and still darkens. */
it('a tone on very many pickups in parallel is not backwards', () => {
  const b = circuit();
  for (let i = 1; i <= 250; i++) {
    b.single(`p${i}`, { ohm: 6500, henry: 2.7, farad: 110e-12 })
      .wire(`p${i}.hot`, 'output.tip')
      .wire(`p${i}.ground`, 'output.sleeve');
  }
  b.pot('tone', { taper: 'audio' }).wire('tone.2', 'output.tip').capacitor('cap', 22e-9, 'tone.1', 'output.sleeve');
  expect(controlEffects(b.build())[0]).toMatchObject({ role: 'tone', backwards: false });
});
