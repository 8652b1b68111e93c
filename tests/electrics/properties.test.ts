/** What must hold for every circuit: reciprocity, passivity, superposition, scaling, limits, and that words change nothing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  altered,
  analysed,
  elementId,
  type AnalysedCircuit,
  type Circuit,
  type Coil,
  type Element,
  type LugId,
  type Quantity,
} from '../../language/circuit/model.js';
import {
  createSolver,
  describeSound,
  meter,
  nets,
  positionTable,
  readAtJack,
  response,
  transferImpedance,
  type Setting,
} from '../../language/electrics/index.js';
import { circuit } from './builder.js';
import { createDice, randomInstrument, randomNetwork, type RandomCase } from './random-circuit.js';

const runs = { numRuns: 60, seed: 20251125 };

/** A circuit by its seed; a failing property shows the seed, which is enough to make it again. */
function seeded(
  make: (seed: number, isInstrument: boolean) => RandomCase,
): fc.Arbitrary<RandomCase & { readonly seed: number; [fc.toStringMethod](): string }> {
  return fc.tuple(fc.integer({ min: 1, max: 1e6 }), fc.boolean()).map(([seed, isInstrument]) => ({
    seed,
    ...make(seed, isInstrument),
    [fc.toStringMethod]: () => `${isInstrument ? 'instrument' : 'network'} ${seed}`,
  }));
}
const cases = seeded((seed, isInstrument) => (isInstrument ? randomInstrument(seed) : randomNetwork(seed)));
/** Without amplifier stages: what follows holds for passive networks. */
const passive = seeded((seed, isInstrument) => {
  const one = isInstrument ? randomInstrument(seed) : randomNetwork(seed);
  return { ...one, circuit: withoutStages(one.circuit) };
});
const hertz = fc.integer({ min: 0, max: 60 }).map((step) => 20 * 10 ** (step / 20));

function withoutStages(made: Circuit): AnalysedCircuit {
  return analysed({
    ...made,
    elements: made.elements.map((element): Element =>
      element.kind === 'battery' ? { ...element, kind: 'resistor', resistance: ohm(1e6) } : element,
    ),
  });
}

function ohm(value: number): Quantity {
  return { value, unit: 'ohm', tolerance: 0, known: true };
}

function transfers({ circuit: made, setting }: RandomCase, hz: number): readonly (readonly [number, number])[] {
  const { re, im } = createSolver(made, nets(made, setting.positions), setting).transfers(hz);
  return Array.from(re, (x, i) => [x, im[i]!] as const);
}

/** Alike within a share of themselves, or within so little that it is nothing. */
function close(
  a: readonly (readonly [number, number])[],
  b: readonly (readonly [number, number])[],
  within: number,
  nothing: number,
): void {
  expect(a.length).toBe(b.length);
  a.forEach(([x, y], i) =>
    expect(Math.hypot(x - b[i]![0], y - b[i]![1])).toBeLessThanOrEqual(within * Math.hypot(x, y) + nothing),
  );
}

const lugPair = (made: Circuit, seed: number): [LugId, LugId] => {
  const dice = createDice(seed);
  return [dice.pick(made.lugs).id, dice.pick(made.lugs).id];
};

describe('network theory', () => {
  it('reciprocity: what one pair of lugs does to another, the other does to it', () => {
    fc.assert(
      fc.property(passive, hertz, ({ circuit: made, setting, seed }, hz) => {
        const [p, q] = [lugPair(made, seed), lugPair(made, seed + 1)];
        const there = transferImpedance(made, setting, p, q, hz);
        const back = transferImpedance(made, setting, q, p, hz);
        expect(there === null).toBe(back === null);
        if (there !== null && back !== null) close([[there.re, there.im]], [[back.re, back.im]], 1e-7, 1e-6);
      }),
      runs,
    );
  });

  it('passivity: no pair of lugs gives back power', () => {
    fc.assert(
      fc.property(passive, hertz, ({ circuit: made, setting, seed }, hz) => {
        const p = lugPair(made, seed);
        const z = transferImpedance(made, setting, p, p, hz);
        if (z !== null) expect(z.re).toBeGreaterThanOrEqual(-1e-9 * Math.abs(z.im));
      }),
      runs,
    );
  });

  it('superposition: all coils together are the sum of each alone', () => {
    fc.assert(
      fc.property(cases, hertz, ({ circuit: made, setting }, hz) => {
        const folded = nets(made, setting.positions);
        const alone = (id: number | undefined): [number, number] => {
          const elements = made.elements.map((element) =>
            element.kind === 'coil' && id !== undefined && element.id !== id ? { ...element, output: 0 } : element,
          );
          const { re, im } = createSolver(altered(made, { elements }), folded, setting).sweep([hz]);
          return [re[0]!, im[0]!];
        };
        const coils = made.elements.filter((element): element is Coil => element.kind === 'coil').map((coil) => alone(coil.id));
        const sum: [number, number] = [coils.reduce((all, [x]) => all + x, 0), coils.reduce((all, [, y]) => all + y, 0)];
        const scale = coils.reduce((all, [x, y]) => all + Math.hypot(x, y), 1e-9);
        const together = alone(undefined);
        expect(Math.hypot(together[0] - sum[0], together[1] - sum[1]) / scale).toBeLessThan(1e-9);
      }),
      runs,
    );
  });

  it('scaling every impedance leaves the transfer as it was', () => {
    fc.assert(
      fc.property(passive, hertz, fc.constantFrom(0.1, 3, 20), (one, hz, factor) => {
        const scaled = (quantity: Quantity, by: number): Quantity => ({ ...quantity, value: quantity.value * by });
        const elements = one.circuit.elements.map((element): Element => {
          const e = { ...element } as Record<string, unknown> & Element;
          for (const [key, by] of [
            ['resistance', factor],
            ['inductance', factor],
            ['loss', factor],
            ['eddyResistance', factor],
            ['inputResistance', factor],
            ['outputResistance', factor],
            ['capacitance', 1 / factor],
          ] as const) {
            if (e[key] !== undefined) (e as Record<string, unknown>)[key] = scaled(e[key] as Quantity, by);
          }
          if (e.kind === 'track') return { ...e, end: e.end * factor };
          return e;
        });
        const { cable, input } = one.circuit.rig;
        close(
          transfers(
            { ...one, circuit: altered(one.circuit, { elements, rig: { cable: cable / factor, input: input * factor } }) },
            hz,
          ),
          transfers(one, hz),
          1e-7,
          1e-12,
        );
      }),
      runs,
    );
  });

  it('towards nothing the response is that of the resistors, towards everything only capacitors count', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const one = randomInstrument(seed);
        const low = transfers(one, 1e-3);
        const lower = transfers(one, 1e-5);
        // A bass cut still falls there, in proportion; everything else stands still.
        low.forEach(([x, y], i) => {
          const ratio = Math.hypot(...lower[i]!) / Math.hypot(x, y);
          if (Math.hypot(x, y) > 1e-7) expect(Math.abs(ratio - 1) < 1e-3 || ratio < 0.02).toBe(true);
        });
        for (const [x, y] of transfers(withoutGain(one), 1e9)) expect(Math.hypot(x, y)).toBeLessThan(1e-3);
      }),
      runs,
    );
  });

  it('DC: the meter agrees with the impedance at no frequency, lead and amplifier apart', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const { circuit: made, setting } = randomInstrument(seed);
        const bare = withoutStages(
          altered(made, {
            rig: { cable: 0, input: Infinity },
            elements: made.elements
              .filter((element) => element.kind !== 'battery')
              .map((element, id) => ({ ...element, id: elementId(id) })),
          }),
        );
        const ends = [bare.output!.tip, bare.output!.sleeve] as [LugId, LugId];
        const { ohm: read } = meter(bare, setting, ...ends);
        const z = transferImpedance(bare, setting, ends, ends, 1e-6);
        if (read !== null && z !== null) expect(Math.abs(z.re - read)).toBeLessThanOrEqual(1e-5 * read);
      }),
      runs,
    );
  });

  it('resistance rises with each resistor', () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 1.01, max: 5, noNaN: true }), ({ circuit: made, setting, seed }, factor) => {
        const before = readAtJack(made, setting);
        const resistive = made.elements.filter((element) => 'resistance' in element && element.resistance !== undefined);
        const chosen = createDice(seed).pick(resistive);
        const elements = made.elements.map((element) =>
          element === chosen
            ? { ...element, resistance: { ...(chosen as Coil).resistance, value: (chosen as Coil).resistance.value * factor } }
            : element,
        );
        const after = readAtJack(altered(made, { elements }), setting);
        if (before.ohm !== null) expect(after.ohm!).toBeGreaterThanOrEqual(before.ohm * (1 - 1e-12));
        else expect(after.ohm).toBeNull();
      }),
      { ...runs, numRuns: 150 },
    );
  });

  it('the tolerances hold every reading between them', () => {
    fc.assert(
      fc.property(
        cases,
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 40, maxLength: 40 }),
        ({ circuit: made, setting }, off) => {
          const tolerant = altered(made, {
            elements: made.elements.map((element) =>
              'resistance' in element && element.resistance !== undefined
                ? { ...element, resistance: { ...element.resistance, tolerance: 0.2 } }
                : element,
            ),
          });
          const { low, high } = readAtJack(tolerant, setting);
          const shifted = made.elements.map((element, i) =>
            'resistance' in element && element.resistance !== undefined
              ? { ...element, resistance: { ...element.resistance, value: element.resistance.value * (1 + 0.2 * off[i % 40]!) } }
              : element,
          ) as readonly Element[];
          const { ohm: read } = readAtJack(altered(made, { elements: shifted }), setting);
          if (low === null || high === null || read === null) return;
          expect(read).toBeGreaterThanOrEqual(low * (1 - 1e-9));
          expect(read).toBeLessThanOrEqual(high * (1 + 1e-9));
        },
      ),
      runs,
    );
  });
});

describe('what changes nothing', () => {
  const readingsOf = (made: AnalysedCircuit, setting: Setting): unknown => {
    const { text, hum } = describeSound(made, setting);
    return {
      text,
      hum,
      reads: readAtJack(made, setting).ohm?.toPrecision(9),
      level: response(made, setting, { points: 2 }).levelDb?.toFixed(6),
    };
  };

  it('a wire within a net', () => {
    fc.assert(
      fc.property(cases, ({ circuit: made, setting, seed }) => {
        const folded = nets(made, []);
        const dice = createDice(seed);
        const a = dice.pick(made.lugs);
        const b = dice.pick(made.lugs.filter((lug) => folded.of[lug.id] === folded.of[a.id]));
        const joint = { ...made.joints[0]!, id: made.joints.length, a: a.id, b: b.id };
        expect(readingsOf(altered(made, { joints: [...made.joints, joint] }), setting)).toEqual(readingsOf(made, setting));
      }),
      runs,
    );
  });

  it('the order of wires, and which end of a wire comes first', () => {
    fc.assert(
      fc.property(cases, ({ circuit: made, setting }) => {
        const joints = [...made.joints].reverse().map((joint) => ({ ...joint, a: joint.b, b: joint.a }));
        expect(readingsOf(altered(made, { joints }), setting)).toEqual(readingsOf(made, setting));
      }),
      runs,
    );
  });

  it('exchanging the leads of a resistor, a capacitor or an inductor', () => {
    fc.assert(
      fc.property(cases, ({ circuit: made, setting }) => {
        const elements = made.elements.map((element): Element =>
          ['resistor', 'capacitor', 'inductor'].includes(element.kind) ? { ...element, a: element.b, b: element.a } : element,
        );
        expect(readingsOf(altered(made, { elements }), setting)).toEqual(readingsOf(made, setting));
      }),
      runs,
    );
  });

  it('names, but for the names in the answer', () => {
    fc.assert(
      fc.property(cases, ({ circuit: made, setting }) => {
        const renamed = altered(made, { parts: made.parts.map((part) => ({ ...part, name: `z${part.name}` })) });
        const plain = readingsOf(made, setting) as { text: string };
        const other = readingsOf(renamed, setting) as { text: string };
        expect({ ...other, text: other.text.replace(/\bz([chp]\d)/g, '$1') }).toEqual(plain);
      }),
      runs,
    );
  });

  it('the group of a setting: equal groups, equal sound and reading', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const { circuit: made } = randomNetwork(seed);
        for (const { setting, sound, reads } of positionTable(made, { limit: 64 }).rows) {
          expect(describeSound(made, setting).text).toBe(sound.text);
          const { ohm: read } = readAtJack(made, setting);
          if (read === null) expect(reads.ohm).toBeNull();
          else expect(Math.abs(reads.ohm! - read)).toBeLessThanOrEqual(1e-9 * read);
        }
      }),
      { ...runs, numRuns: 40 },
    );
  });
});

function withoutGain(one: RandomCase): RandomCase {
  return {
    ...one,
    circuit: withoutStages(one.circuit),
  };
}

it('a circuit that is turned upside down sounds the same: the sign of the whole is free', () => {
  const upright = circuit()
    .single('a')
    .single('b', { winding: -1 })
    .wire('a.hot', 'b.hot', 'output.tip')
    .wire('a.ground', 'b.ground', 'output.sleeve')
    .build();
  const turned = circuit()
    .single('a')
    .single('b', { winding: -1 })
    .wire('a.ground', 'b.ground', 'output.tip')
    .wire('a.hot', 'b.hot', 'output.sleeve')
    .build();
  const setting = { positions: [], rotations: [] };
  expect(describeSound(turned, setting).text).toBe(describeSound(upright, setting).text);
});
