/** Circuits that make no sense at a bench: no exception, no NaN, and a message of their own. */
import { altered } from '../../language/circuit/model.js';
import { describe, expect, it } from 'vitest';
import type { AnalysedCircuit, LugId } from '../../language/circuit/model.js';
import {
  capacitorAnswer,
  controlEffects,
  createSolver,
  describeSound,
  groundNetwork,
  meter,
  netAnswer,
  nets,
  pickupAnswer,
  positionTable,
  potLoad,
  response,
  restingSetting,
  spiceDeck,
  withRotation,
  type Setting,
} from '../../language/electrics/index.js';
import { circuit, CircuitBuilder } from './builder.js';
import { randomInstrument, randomNetwork } from './random-circuit.js';

/** Runs everything that can be asked; finds no NaN anywhere in the answers. */
function askAll(made: AnalysedCircuit, setting: Setting = restingSetting(made)): void {
  const folded = nets(made, setting.positions);
  const answers: unknown[] = [
    describeSound(made, setting),
    positionTable(made, { response: true, limit: 64 }),
    response(made, setting, { points: 40 }),
    controlEffects(made),
    groundNetwork(made),
    createSolver(made, folded, setting).transfers(1000),
    made.shafts.map((shaft) => potLoad(made, shaft.id)),
    made.elements.map((element) => capacitorAnswer(made, element.id)),
    made.parts.map((part) => pickupAnswer(made, part.id)),
    made.lugs
      .slice(0, 6)
      .flatMap((a) => made.lugs.slice(-6).map((b) => [meter(made, setting, a.id, b.id), netAnswer(made, setting, a.id)])),
  ];
  expect(findNaN(answers, 'answer')).toEqual([]);
  expect(spiceDeck(made, setting)).not.toMatch(/NaN|Infinity|undefined/);
}

function findNaN(value: unknown, path: string): readonly string[] {
  if (typeof value === 'number') return Number.isNaN(value) ? [path] : [];
  if (typeof value !== 'object' || value === null) return [];
  if (value instanceof Float64Array) return value.some(Number.isNaN) ? [path] : [];
  return Object.entries(value).flatMap(([key, inner]) => findNaN(inner, `${path}.${key}`));
}

const one = (): CircuitBuilder => circuit().single('coil').pot('volume').pot('tone').wire('coil.ground', 'output.sleeve');
const wired = (): CircuitBuilder =>
  one()
    .wire('coil.hot', 'volume.3', 'tone.2')
    .wire('volume.2', 'output.tip')
    .wire('volume.1', 'output.sleeve')
    .capacitor('cap', 22e-9, 'tone.1', 'output.sleeve');
const problemOf = (made: AnalysedCircuit, setting = restingSetting(made)): string | undefined => response(made, setting).problem;

it('all pots at 0', () => {
  const made = wired().build();
  const down = made.shafts.reduce((setting, shaft) => withRotation(setting, shaft.id, 0), restingSetting(made));
  askAll(made, down);
  expect(problemOf(made, down)).toBe('the output is shorted: only a part without resistance is between tip and sleeve');
  expect(describeSound(made, down).text).toBe('silent');
});

it('a dead short across the output', () => {
  const made = wired().wire('output.tip', 'output.sleeve').build();
  askAll(made);
  expect(problemOf(made)).toMatch(/^the output is shorted: tip and sleeve are one net \(output\.tip, output\.sleeve, /);
});

it('a dead short across a coil', () => {
  const made = wired().wire('coil.hot', 'coil.ground').build();
  askAll(made);
  expect(describeSound(made, restingSetting(made)).silent).toBe(true);
});

it('open leads: the net of the tip joins no coil', () => {
  const made = one().build();
  askAll(made);
  expect(problemOf(made)).toBe('no coil reaches the output: the net of output.tip has none');
});

it('a coil that hangs by one end', () => {
  const made = circuit().single('coil').wire('coil.hot', 'output.tip').build();
  askAll(made);
  expect(describeSound(made, restingSetting(made)).silent).toBe(true);
});

it('no jack', () => {
  const made = altered(wired().build(), { output: undefined, jacks: [] });
  askAll(made);
  expect(problemOf(made)).toBe('there is no jack, so the instrument has no output');
});

it('two jacks: the output is the one that the circuit names', () => {
  const made = wired().jack('second').wire('second.tip', 'volume.2').wire('second.sleeve', 'output.sleeve').build();
  askAll(made);
  expect(describeSound(made, restingSetting(made)).text).toBe('coil');
  const other = wired().jack('second').wire('second.sleeve', 'output.sleeve').build();
  const lug = (label: string): LugId => other.lugs.find((one) => one.label === label)!.id;
  const output = { part: other.jacks[1]!, tip: lug('second.tip'), sleeve: lug('second.sleeve') };
  expect(problemOf(altered(other, { output }))).toBe('no coil reaches the output: the net of second.tip has none');
});

it('nothing at all, and parts without a joint', () => {
  askAll(circuit().build());
  askAll(new CircuitBuilder().build());
  askAll(new CircuitBuilder().single('coil').pot('volume').selector('s', 3).build());
});

it('resistors, coils and pots of nothing', () => {
  askAll(wired().resistor('zero', 0, 'output.tip', 'coil.hot').build());
  askAll(
    circuit().single('coil', { ohm: 0, henry: 0 }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build(),
  );
  askAll(
    circuit()
      .single('coil')
      .pot('volume', { ohm: 0 })
      .wire('coil.hot', 'volume.3')
      .wire('volume.2', 'output.tip')
      .wire('volume.1', 'output.sleeve')
      .build(),
  );
});

it('a coil without impedance drives the output with its whole voltage', () => {
  const made = circuit()
    .single('coil', { ohm: 0, henry: 0 })
    .wire('coil.hot', 'output.tip')
    .wire('coil.ground', 'output.sleeve')
    .build();
  expect(response(made, restingSetting(made), { points: 5 }).points.map(({ db }) => Math.abs(db) < 1e-9)).toEqual(
    Array(5).fill(true),
  );
});

it('two coils without impedance that fight: no solution, and that is said', () => {
  const ideal = { ohm: 0, henry: 0 };
  const made = circuit()
    .single('a', ideal)
    .single('b', ideal)
    .wire('a.hot', 'b.hot', 'output.tip')
    .wire('a.ground', 'b.ground', 'output.sleeve')
    .build();
  askAll(made);
  expect(problemOf(made)).toBe(
    'a coil or an amplifier stage without resistance is shorted, or two of them conflict: no solution',
  );
});

describe('reactances without loss', () => {
  const ideal = circuit()
    .single('coil', { ohm: 0, henry: 1, farad: 1 / (2 * Math.PI * 1000) ** 2 })
    .wire('coil.hot', 'output.tip')
    .wire('coil.ground', 'output.sleeve')
    .rigged(0, Infinity)
    .build();

  it('a loop of inductance and capacitance', () => {
    askAll(ideal);
    // At the resonance itself the height is bounded by rounding alone.
    const solver = createSolver(ideal, nets(ideal, []), restingSetting(ideal));
    const { re, im } = solver.sweep([1000]);
    expect(Number.isNaN(re[0]! + im[0]!)).toBe(false);
  });

  it('its peak is found between the points', () => {
    expect(response(ideal, restingSetting(ideal)).peak!.hz).toBeCloseTo(1000, 2);
  });

  it('a series resonance across the output', () => {
    askAll(
      circuit()
        .single('coil')
        .wire('coil.hot', 'output.tip')
        .wire('coil.ground', 'output.sleeve')
        .metal('m')
        .inductor('l', 1, 'output.tip', 'm')
        .capacitor('c', 2.533e-8, 'm', 'output.sleeve')
        .build(),
    );
  });
});

it('capacitors only: nets that no direct current reaches', () => {
  const b = circuit()
    .single('coil')
    .metal('m')
    .wire('coil.ground', 'output.sleeve')
    .capacitor('c1', 1e-9, 'coil.hot', 'm')
    .capacitor('c2', 1e-9, 'm', 'output.tip');
  askAll(b.rigged(0, Infinity).build());
  // No lead, no amplifier: no current flows, so all of the voltage arrives.
  const made = b.build();
  expect(response(made, restingSetting(made)).levelDb).toBeCloseTo(0, 6);
});

it('values that are not known, not numbers or not possible', () => {
  askAll(circuit().single('coil', { known: false }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build());
  for (const value of [NaN, -1, Infinity]) {
    askAll(circuit().single('coil', { ohm: value }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build());
    askAll(
      circuit().single('coil', { henry: value }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build(),
    );
    askAll(
      circuit().single('coil', { farad: value }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build(),
    );
    askAll(
      circuit().single('coil', { output: value }).wire('coil.hot', 'output.tip').wire('coil.ground', 'output.sleeve').build(),
    );
    askAll(
      wired()
        .resistor('r', value, 'output.tip', 'coil.hot')
        .capacitor('k', value, 'output.tip', 'output.sleeve')
        .inductor('l', value, 'output.tip', 'output.sleeve')
        .build(),
    );
    askAll(
      circuit()
        .single('coil')
        .pot('volume', { ohm: value })
        .wire('coil.hot', 'volume.3')
        .wire('volume.2', 'output.tip')
        .wire('volume.1', 'output.sleeve')
        .build(),
    );
  }
});

it('a stage whose output feeds its input', () => {
  const b = circuit()
    .single('coil')
    .buffer('buffer', { gain: 1, output: 0 })
    .wire('coil.hot', 'buffer.in')
    .wire('coil.ground', 'buffer.minus', 'output.sleeve');
  askAll(
    b.battery('cell', 'buffer.plus', 'buffer.minus').wire('buffer.out', 'output.tip').wire('buffer.out', 'buffer.in').build(),
  );
});

it('coupled coils of factor one, one of them shorted', () => {
  askAll(
    circuit()
      .humbucker('neck', { coupling: 1, loss: 1e6 })
      .wire('neck.hot', 'output.tip')
      .wire('neck.ground', 'output.sleeve')
      .build(),
  );
  askAll(
    circuit()
      .humbucker('neck', { coupling: 1, ohm: 0 })
      .wire('neck.hot', 'output.tip')
      .wire('neck.ground', 'neck.north-finish', 'output.sleeve')
      .build(),
  );
});

it('settings that the circuit does not have', () => {
  const made = wired().selector('s', 3).build();
  askAll(made, { positions: [7], rotations: [NaN, -3] });
  askAll(made, { positions: [], rotations: [] });
});

it('random circuits of every kind', () => {
  for (let seed = 1; seed <= 25; seed++) {
    for (const { circuit: made, setting } of [randomInstrument(seed), randomNetwork(seed)]) askAll(made, setting);
  }
});
