/** What can be observed of a circuit from outside, so that two can be held against each other. */
import { analysed, type AnalysedCircuit, type Circuit, type Element, type LugId } from '../../../language/circuit/model.js';
import {
  createSolver,
  enumerate,
  groundNetwork,
  heardAt,
  nets,
  readAtJack,
  restingSetting,
  type Setting,
} from '../../../language/electrics/index.js';

export interface Behaviour {
  /** Which nets the ends of the elements, tip and sleeve fall into in each setting, and which metal is grounded. */
  readonly nets: string;
  /** Metal that hangs free, with the settings. */
  readonly metal: string;
  /** What each coil delivers to the amplifier, and what the meter reads, setting by setting and turn by turn. */
  readonly numbers: () => readonly number[];
}

/** How two circuits compare: `nets` where even the nets are the same, `outside` where no reading, level or touch tells them apart. */
export type Likeness = 'nets' | 'outside' | 'different';

const hertz = [100, 1000, 4000];

export function behaviourOf(circuit: AnalysedCircuit): Behaviour {
  const { settings } = enumerate(circuit);
  const asked = askedLugs(circuit);
  let kept: readonly number[] | undefined;
  return {
    nets: settings.map((setting) => netsIn(circuit, asked, setting)).join(' '),
    metal: groundNetwork(circuit)
      .ungrounded.map(
        ({ lug, settings: free }) => `${circuit.lugs[lug]!.label}:${free.map(({ positions }) => positions.join()).join('/')}`,
      )
      .sort()
      .join(' '),
    numbers: () => (kept ??= tipsOf(circuit).flatMap((tip) => numbersAt(heardAt(circuit, tip)))),
  };
}

export function likeness(one: Behaviour, other: Behaviour): Likeness {
  if (one.metal !== other.metal) return 'different';
  if (one.nets === other.nets) return 'nets';
  const [x, y] = [one.numbers(), other.numbers()];
  if (x.length !== y.length) return 'different';
  return x.every((value, i) => isLike(value, y[i]!)) ? 'outside' : 'different';
}

/** A thousandth part, or 100 dB below a pickup's own voltage. */
function isLike(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) <= Math.max(1e-5, 1e-3 * Math.max(Math.abs(a), Math.abs(b)));
}

/**
 * The circuit without the two-lead parts and tracks of which a value is written `?`: where two are alike then, all that tells them apart hangs on
 * values that nobody knows yet.
 */
export function withoutUnknown(circuit: Circuit): AnalysedCircuit {
  const elements = circuit.elements.map((element): Element => {
    if (element.kind === 'track' && !element.resistance.known)
      return { ...element, resistance: { ...element.resistance, value: 1e15 } };
    if (element.kind === 'resistor' && !element.resistance.known)
      return { ...element, resistance: { ...element.resistance, value: 1e15 } };
    if (element.kind === 'capacitor' && !element.capacitance.known)
      return { ...element, capacitance: { ...element.capacitance, value: 0 } };
    return element;
  });
  return analysed({ ...circuit, elements });
}

/** The tip of each jack: what a second one gives is heard as well. */
function tipsOf(circuit: Circuit): readonly LugId[] {
  return circuit.jacks.flatMap((part) => circuit.parts[part]!.lugs.filter((lug) => circuit.lugs[lug]!.name === 'tip'));
}

function numbersAt(circuit: AnalysedCircuit): readonly number[] {
  const { settings } = enumerate(circuit);
  return turns(circuit, settings).flatMap((setting) => numbersIn(circuit, setting));
}

function askedLugs(circuit: Circuit): readonly LugId[] {
  const ends = circuit.elements.flatMap((element) => [
    element.a,
    element.b,
    ...(element.kind === 'track' ? [element.wiper] : element.kind === 'gain' ? [element.plus, element.minus] : []),
  ]);
  const jack = circuit.output === undefined ? [] : [circuit.output.tip, circuit.output.sleeve];
  return [...new Set([...ends, ...jack, ...tipsOf(circuit)])].sort((a, b) =>
    labelOf(circuit, a) < labelOf(circuit, b) ? -1 : 1,
  );
}

function labelOf(circuit: Circuit, lug: LugId): string {
  return circuit.lugs[lug]!.label;
}

function netsIn(circuit: AnalysedCircuit, asked: readonly LugId[], { positions }: Setting): string {
  const folded = nets(circuit, positions);
  const numbers = new Map<number, number>();
  return asked
    .map((lug) => {
      const net = folded.of[lug]!;
      if (!numbers.has(net)) numbers.set(net, numbers.size);
      return numbers.get(net)!;
    })
    .join('.');
}

/** Every setting with the pots at rest, all part way, and each at its ends and in the middle. */
function turns(circuit: AnalysedCircuit, settings: readonly Setting[]): readonly Setting[] {
  const { rotations } = restingSetting(circuit);
  const orders = [
    rotations,
    rotations.map(() => 6),
    ...circuit.shafts.flatMap(({ id }) => [0, 5, 10].map((at) => rotations.map((rest, other) => (other === id ? at : rest)))),
  ];
  const pressed = circuit.switches
    .filter((device) => device.rest !== undefined)
    .flatMap((device) =>
      device.positions.map((_, index) => ({
        positions: settings[0]!.positions.map((at, id) => (id === device.id ? index : at)),
        rotations,
      })),
    );
  return [...settings.flatMap(({ positions }) => orders.map((order) => ({ positions, rotations: order }))), ...pressed];
}

function numbersIn(circuit: AnalysedCircuit, setting: Setting): readonly number[] {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  const levels = new Map<number, number[]>();
  for (const hz of hertz) {
    const { re, im } = solver.transfers(hz);
    solver.coils.forEach((id, i) => levels.set(id, [...(levels.get(id) ?? []), re[i]!, im[i]!]));
  }
  const silent = hertz.flatMap(() => [0, 0]);
  const coils = circuit.elements.flatMap((element) => (element.kind === 'coil' ? [levels.get(element.id) ?? silent] : []));
  // The sign of the whole is heard by nobody.
  const first = coils.flat().find((value) => Math.abs(value) > 1e-4) ?? 1;
  const { ohm } = readAtJack(circuit, setting);
  return [...coils.flat().map((value) => (first < 0 ? -value : value)), ohm === null ? 1e12 : ohm];
}
