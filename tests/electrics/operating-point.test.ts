/** Direct currents through diodes, beside the general solver, whose diodes are exponential where ours have a corner. */
import { describe, expect, test } from 'vitest';
import { nets, operatingPoint, restingSetting } from '../../language/electrics/index.js';
import { elementsOf, soundCircuit } from '../circuit/harness.js';
import { directReference } from './general-solver.js';

/** A silicon diode of about 0.6 V at 1 mA, and a red LED of about 1.8 V: Shockley's law with made-up saturation currents that fit. */
const models = '.model si D(is=9e-14)\n.model red D(is=3e-19 n=2)';

const cases: readonly (readonly [name: string, text: string, deck: string, diode: string, at: (volts: number) => number])[] = [
  [
    'an LED behind its resistor',
    'part r : resistor 4.7k from cell.plus to d.anode\npart d : led\nwire d.cathode to cell.minus',
    'R1 p x 4700\nD1 x 0 red',
    'd',
    (x) => (9 - x) / 4701,
  ],
  [
    'a diode in series with a stage of 1 mA',
    'part s : buffer\npart d : diode from cell.plus to s.plus\nwire s.minus to cell.minus',
    'D1 p x si\nR1 x 0 9000',
    'd',
    (x) => x / 9000,
  ],
  [
    'a diode from the middle of a divider',
    'part a : resistor 10k from cell.plus to m.point\npart m : junction\npart b : resistor 10k from m to cell.minus\npart d : diode from m to cell.minus',
    'R1 p x 10000\nR2 x 0 10000\nD1 x 0 si',
    'd',
    (x) => (9 - x) / 10001 - x / 10e3,
  ],
  [
    'the other way round',
    'part a : resistor 10k from cell.plus to m.point\npart m : junction\npart b : resistor 10k from m to cell.minus\npart d : diode from cell.minus to m',
    'R1 p x 10000\nR2 x 0 10000\nD1 0 x si',
    'd',
    () => 0,
  ],
  [
    'one of two in a bridge',
    'part a : resistor 1k from cell.plus to m.point\npart m : junction\npart b : resistor 10k from m to cell.minus\npart c : resistor 10k from cell.plus to n.point\npart n : junction\npart e : resistor 1k from n to cell.minus\npart d : diode from m to n\npart back : diode from n to m',
    'R1 p x 1000\nR2 x 0 10000\nR3 p y 10000\nR4 y 0 1000\nD1 x y si\nD2 y x si',
    'd',
    (x) => (9 - x) / 1001 - x / 10e3,
  ],
];

describe('a direct current', () => {
  test.each(cases)('through %s', async (_, text, deck, name, at) => {
    const circuit = soundCircuit(`part cell : battery 9V\n${text}`);
    const point = operatingPoint(circuit, nets(circuit, restingSetting(circuit).positions));
    const [diode] = elementsOf(circuit, name);
    const volts = await directReference(`* ${name}\n${models}\nV1 q 0 9\nRi q p 1\n${deck}\n.op\n.end`, 'x');
    const reference = at(volts);
    // The forward voltage of a diode with a corner is off by a tenth of a volt at most, of nine.
    expect(Math.abs(point.current(diode!.id) - reference)).toBeLessThanOrEqual(0.03 * Math.abs(reference) + 1e-6);
    expect(point.conducting.has(diode!.id)).toBe(Math.abs(reference) > 1e-6);
  });

  test('through a Zener diode holds its voltage', () => {
    const circuit = soundCircuit(
      'part cell : battery 9V\npart r : resistor 390R from cell.plus to z.cathode\npart z : zener 5.1V\nwire z.anode to cell.minus',
    );
    const point = operatingPoint(circuit, nets(circuit, restingSetting(circuit).positions));
    const [zener] = elementsOf(circuit, 'z');
    // By hand: (9 − 5.1) V over 390 Ω, the battery's 1 Ω and the diode's 26 Ω, from cathode to anode.
    expect(point.current(zener!.id)).toBeCloseTo(-3.9 / 417, 9);
  });

  test('is none without a battery, and voltages are those of a divider', () => {
    const circuit = soundCircuit(
      'part cell : battery 9V\npart a : resistor 2k from cell.plus to m.point\npart m : junction\npart b : resistor 1k from m to cell.minus',
    );
    const point = operatingPoint(circuit, nets(circuit, restingSetting(circuit).positions));
    const lug = circuit.lugs.find(({ label }) => label === 'm')!;
    expect(point.voltage(lug.id)).toBeCloseTo((9 * 1000) / 3001, 6);
    const flat = soundCircuit('part d : diode\npart r : resistor 1k from d.anode to d.cathode');
    const none = operatingPoint(flat, nets(flat, restingSetting(flat).positions));
    expect([none.span, none.conducting.size]).toEqual([0, 0]);
  });
});
