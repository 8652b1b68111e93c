/** The reference level: continuous in every value, and no figures where the coils cancel or a value was rejected. */
import { describe, expect, it } from 'vitest';
import type { AnalysedCircuit } from '../../language/circuit/index.js';
import { altered } from '../../language/circuit/model.js';
import { positionTable, response, responseSummary, restingSetting } from '../../language/electrics/index.js';
import { circuitOf, soundCircuit } from '../circuit/harness.js';
import { randomInstrument } from './random-circuit.js';

/** The circuit with the main value of one element changed by a share. */
function changed(circuit: AnalysedCircuit, index: number, share: number): AnalysedCircuit | undefined {
  const element = circuit.elements[index]!;
  const key = ['capacitance', 'inductance', 'resistance'].find((name) => name in element);
  if (key === undefined) return undefined;
  const quantity = (element as unknown as Record<string, { readonly value: number }>)[key]!;
  const other = { ...element, [key]: { ...quantity, value: quantity.value * (1 + share) } };
  return altered(circuit, { elements: circuit.elements.map((one, i) => (i === index ? other : one)) });
}

it('moves by hundredths of a decibel where a value changes by 0.1 %, in generated instruments', () => {
  let compared = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const { circuit, setting } = randomInstrument(seed);
    const { levelDb } = responseSummary(circuit, setting);
    if (levelDb === null || levelDb < -60) continue;
    for (const index of circuit.elements.keys()) {
      const other = changed(circuit, index, 0.001);
      const now = other === undefined ? null : responseSummary(other, setting).levelDb;
      if (now === null) continue;
      compared++;
      expect(Math.abs(now - levelDb), `seed ${seed}, element ${index}`).toBeLessThan(0.05);
    }
  }
  expect(compared).toBeGreaterThan(200);
});

it('a capacitor in series moves it steadily through 7 nF, where the earlier count jumped by 3.4 dB', () => {
  const levels = Array.from({ length: 41 }, (_, i) => {
    const circuit = soundCircuit(`
part p : single-coil 6.5k 2.6H
part c : capacitor ${5 + i / 10}nF from p.hot to v.3
part v : pot 250k audio
part output : jack
wire v.2 to output.tip
wire v.1 to p.ground to output.sleeve`);
    return responseSummary(circuit, restingSetting(circuit)).levelDb!;
  });
  for (let i = 1; i < levels.length; i++) expect(levels[i]! - levels[i - 1]!).toBeGreaterThan(0);
  for (let i = 1; i < levels.length; i++) expect(levels[i]! - levels[i - 1]!).toBeLessThan(0.1);
});

describe('coils that cancel', () => {
  const against = (second: string): AnalysedCircuit =>
    soundCircuit(`
part a : single-coil 6k 2.4H
part b : single-coil ${second} { magnet south }
part output : jack
wire a.hot to b.hot to output.tip
wire a.ground to b.ground to output.sleeve`);

  it('have no peak, no corner and no level, and keep their arrangement', () => {
    const circuit = against('6k 2.4H');
    const [row] = positionTable(circuit, { response: true }).rows;
    expect(row!.sound).toMatchObject({ text: 'parallel(a, reversed b)', silent: false });
    expect(row!.response).toMatchObject({ peak: null, cutoffHz: null, levelDb: null, cancels: true });
  });

  it('leave figures where they differ by more than a twentieth', () => {
    // 6 k against 8 k in parallel: (8 − 6) / (8 + 6) is 14 % of each.
    const summary = responseSummary(against('8k 3.2H'), restingSetting(against('8k 3.2H')));
    expect(summary.cancels).toBeUndefined();
    expect(summary.levelDb).toBeCloseTo(20 * Math.log10(2 / 14), 0);
  });
});

describe('a value that can’t be right', () => {
  const circuit = circuitOf(`
part a : single-coil 0R 2.4H
part b : single-coil 6k 2.4H
part s : toggle-3
part output : jack
wire a.hot to s.A
wire b.hot to s.B
wire s.out to output.tip
wire a.ground to b.ground to output.sleeve`);

  it('computes nothing in its place, and leaves the rest alone', () => {
    expect(circuit.problems.map(({ message }) => message)).toEqual([
      'resistance of a must be greater than zero: a resistance such as 250k',
    ]);
    const [up, middle, down] = positionTable(circuit, { response: true }).rows;
    for (const row of [up!, middle!]) {
      expect(row.reads).toMatchObject({ ohm: null, unknown: true });
      expect(row.response).toMatchObject({ peak: null, cutoffHz: null, levelDb: null });
    }
    expect(up!.response!.problem).toBe('a has a value that can’t be right, so there are no figures');
    expect(response(circuit, up!.setting).points).toEqual([]);
    expect(down!.reads.ohm).toBe(6000);
    expect(down!.response!.peak).not.toBeNull();
  });

  it('coupling of 100 % and loss under 1 Ω are such', () => {
    const messages = (text: string): string[] => circuitOf(text).problems.map(({ message }) => message);
    expect(messages('part h : humbucker { coupling 100% }')).toEqual([
      'coupling of h must be between -100% and 100%, both excluded',
    ]);
    expect(messages('part h : humbucker { coupling -100% }')).toEqual([
      'coupling of h must be between -100% and 100%, both excluded',
    ]);
    expect(messages('part h : humbucker { coupling 99% }')).toEqual([]);
    expect(messages('part h : single-coil { loss 0.9R }')).toEqual(['loss of h must be at least 1 Ω']);
    expect(messages('part h : single-coil { loss 1R }')).toEqual([]);
  });
});

describe('approximate figures', () => {
  const wired = (wires: string, coupling = ''): boolean => {
    const circuit = soundCircuit(`
part h : humbucker-4 8k 4.4H ${coupling}
part output : jack
${wires}`);
    return positionTable(circuit).rows[0]!.approximate;
  };
  const whole = 'wire h.north-finish to h.south-finish\nwire h.north-start to output.tip\nwire h.south-start to output.sleeve';
  const split = `${whole}\nwire h.north-finish to output.sleeve`;
  const parallel = 'wire h.north-start to h.south-finish to output.tip\nwire h.north-finish to h.south-start to output.sleeve';
  const reversed = 'wire h.north-finish to h.south-start\nwire h.north-start to output.tip\nwire h.south-finish to output.sleeve';

  it('are those of one coil, and of a reversed pair, where the coupling is not given', () => {
    expect([whole, split, parallel, reversed].map((wires) => wired(wires))).toEqual([false, true, false, true]);
    expect([whole, split, parallel, reversed].map((wires) => wired(wires, '{ coupling 15% }'))).toEqual([
      false,
      false,
      false,
      false,
    ]);
  });

  it('and those with a value written `?`', () => {
    const circuit = soundCircuit(
      'part p : single-coil 6k ?\npart output : jack\nwire p.hot to output.tip\nwire p.ground to output.sleeve',
    );
    expect(positionTable(circuit).rows[0]!.approximate).toBe(true);
  });
});
