/** The direct voltages that batteries make, without any signal: resistors, windings and diodes, each diode open or at its forward voltage. */
import type { Battery, Circuit, Diode, Element, ElementId, Gain, LugId } from '../../circuit/model.js';
import { firstOf } from '../../collections.js';
import { createForest, join, rootOf, solveDense } from '../../numerics/index.js';
import type { Nets } from '../model.js';
import { netOf } from './nets.js';

export interface OperatingPoint {
  /** Volts at a lug against one minus pole of the batteries; 0 where none reaches. */
  voltage(lug: LugId): number;
  /** Amperes through a diode from anode to cathode; 0 where it is off. */
  current(diode: ElementId): number;
  /** Amperes that a battery gives to all that is no amplifier stage: lamps, relays, dividers. */
  drawnBesideStages(battery: Battery): number;
  /** Diodes that conduct. */
  readonly conducting: ReadonlySet<ElementId>;
  /** Volts between the highest and the lowest net. */
  readonly span: number;
}

/** Inside a battery, and of a conducting diode, ohm; common practice and the slope at 1 mA. */
const batteryOhm = 1;
const diodeOhm = 26;
/** What a stage draws where nothing is said, ampere at nine volts; what a biased transistor is between its ends, ohm. */
const stageCurrent = 1e-3;
const transistorOhm = 10e3;
/** A winding without resistance and a reference, and what ties a net that nothing else does, ohm. */
const leastOhm = 1e-3;
const leakOhm = 1e12;
/** A diode that carries less is taken as open, ampere. */
const leastCurrent = 1e-6;
/** Each turn opens or closes one diode; a circuit that has not settled after so many never does. */
const mostTurns = 40;

/** A conductance between two lugs, with a source in series that drives current from `a` to `b` where it is positive. */
interface Link {
  readonly a: LugId;
  readonly b: LugId;
  readonly ohm: number;
  readonly volt: number;
}

/** Each diode is off, conducts forwards, or breaks down. */
type State = 'off' | 'on' | 'broken';

/**
 * The operating point of the piecewise linear circuit: in each turn the diode that is furthest from its state changes it, until all are in theirs
 * (J. Katzenelson, "An algorithm for solving nonlinear resistor networks", Bell System Technical Journal 44, 1965, for the idea).
 */
export function operatingPoint(circuit: Circuit, folded: Pick<Nets, 'of'>): OperatingPoint {
  const links = circuit.elements.flatMap(linksOf);
  const diodes = circuit.elements.filter((element): element is Diode => element.kind === 'diode');
  const nodes = createNodes(circuit, folded, [...links, ...diodes]);
  const states = new Map<ElementId, State>(diodes.map(({ id }) => [id, 'off']));
  if (nodes.count === 0)
    return { voltage: () => 0, current: () => 0, drawnBesideStages: () => 0, conducting: new Set(), span: 0 };
  let volts = solve(nodes, links);
  const across = ({ a, b }: Diode): number => (volts[nodes.of(a)] ?? 0) - (volts[nodes.of(b)] ?? 0);
  for (let turn = 0; turn < mostTurns; turn++) {
    const wrong = diodes.flatMap((diode) => {
      const change = changeOf(diode, states.get(diode.id) ?? 'off', across(diode));
      return change === undefined ? [] : [{ diode, ...change }];
    });
    if (wrong.length === 0) break;
    const { diode, to } = wrong.reduce((most, one) => (one.by > most.by ? one : most), firstOf(wrong));
    states.set(diode.id, to);
    volts = solve(nodes, [...links, ...diodes.flatMap((one) => diodeLinks(one, states.get(one.id) ?? 'off'))]);
  }
  const voltage = (lug: LugId): number => volts[nodes.of(lug)] ?? 0;
  return {
    voltage,
    drawnBesideStages({ a, b, voltage: given }) {
      const drawn = (given.value - voltage(a) + voltage(b)) / batteryOhm;
      const stages = circuit.elements.filter((element): element is Gain => element.kind === 'gain');
      return stages.reduce((sum, stage) => sum - (voltage(stage.plus) - voltage(stage.minus)) / supplyOhm(stage), drawn);
    },
    current(id) {
      const diode = diodes.find((one) => one.id === id);
      const [link] = diode === undefined ? [] : diodeLinks(diode, states.get(id) ?? 'off');
      return diode === undefined || link === undefined ? 0 : (across(diode) + link.volt) / diodeOhm;
    },
    conducting: new Set(diodes.filter(({ id }) => states.get(id) !== 'off').map(({ id }) => id)),
    span: Math.max(0, ...volts) - Math.min(0, ...volts),
  };
}

/** The state that a diode with this voltage across it belongs in, and by how many volts it is off; undefined where it is in it. */
function changeOf(
  { forward, breakdown }: Diode,
  state: State,
  across: number,
): { readonly to: State; readonly by: number } | undefined {
  const least = leastCurrent * diodeOhm;
  const back = -(breakdown?.value ?? Infinity);
  switch (state) {
    case 'on':
      return across < forward.value + least ? { to: 'off', by: forward.value + least - across } : undefined;
    case 'broken':
      return across > back - least ? { to: 'off', by: across - back + least } : undefined;
    case 'off':
      if (across > forward.value + least) return { to: 'on', by: across - forward.value };
      return across < back - least ? { to: 'broken', by: back - across } : undefined;
  }
}

function diodeLinks({ a, b, forward, breakdown }: Diode, state: State): readonly Link[] {
  if (state === 'off') return [];
  return [{ a, b, ohm: diodeOhm, volt: state === 'on' ? -forward.value : (breakdown?.value ?? 0) }];
}

function linksOf(element: Element): readonly Link[] {
  const { a, b } = element;
  const link = (one: LugId, other: LugId, ohm: number): Link => ({ a: one, b: other, ohm: Math.max(ohm, leastOhm), volt: 0 });
  switch (element.kind) {
    case 'battery':
      return [{ a: b, b: a, ohm: batteryOhm, volt: element.voltage.value }];
    case 'resistor':
      return [link(a, b, element.resistance.value)];
    case 'inductor':
      return [link(a, b, element.resistance?.value ?? 0)];
    case 'coil':
      return element.piezo === true ? [] : [link(a, b, element.resistance.value)];
    case 'track': {
      const half = element.resistance.value / 2;
      return [link(a, element.wiper, half), link(element.wiper, element.leavesTo === undefined ? b : a, half)];
    }
    case 'gain':
      return [link(element.plus, element.minus, supplyOhm(element))];
    case 'capacitor':
    case 'diode':
      return [];
  }
}

/** What a stage is to its supply. */
function supplyOhm({ transistor, current }: Gain): number {
  return transistor === undefined ? 9 / (current?.value ?? stageCurrent) : transistorOhm;
}

interface Nodes {
  readonly count: number;
  /** Of each piece that batteries reach, the minus of its first one, against which voltages are counted. */
  readonly references: readonly number[];
  /** Index of the node of a lug; −1 where no battery reaches. */
  of(lug: LugId): number;
}

/** The nets that current from a battery can reach. */
function createNodes(
  circuit: Circuit,
  folded: Pick<Nets, 'of'>,
  ties: readonly { readonly a: LugId; readonly b: LugId }[],
): Nodes {
  const parent = createForest(circuit.lugs.length + 1);
  const net = (lug: LugId): number => netOf(folded, lug);
  for (const { a, b } of ties) join(parent, net(a), net(b));
  const fed = new Map<number, number>();
  for (const { kind, b } of circuit.elements) {
    const root = rootOf(parent, net(b));
    if (kind === 'battery' && !fed.has(root)) fed.set(root, net(b));
  }
  const numbers = new Map<number, number>();
  for (const { a, b } of ties) {
    for (const at of [net(a), net(b)]) {
      if (fed.has(rootOf(parent, at)) && !numbers.has(at)) numbers.set(at, numbers.size);
    }
  }
  const references = [...fed.values()].map((at) => numbers.get(at) ?? -1);
  return { count: numbers.size, references, of: (lug) => numbers.get(net(lug)) ?? -1 };
}

/** Volts of each node: Kirchhoff's current law, each node tied to the references by a leak. */
function solve(nodes: Nodes, links: readonly Link[]): readonly number[] {
  const { count } = nodes;
  const rows = Array.from({ length: count }, () => ({ re: new Float64Array(count + 1), im: new Float64Array(count + 1) }));
  const add = (row: number, column: number, value: number): void => {
    const re = rows[row]?.re;
    if (re !== undefined && column >= 0) re[column] = (re[column] ?? 0) + value;
  };
  for (let node = 0; node < count; node++) add(node, node, 1 / leakOhm);
  for (const node of nodes.references) add(node, node, 1 / leastOhm);
  for (const { a, b, ohm, volt } of links) {
    const [from, to] = [nodes.of(a), nodes.of(b)];
    if (from < 0 || from === to) continue;
    const siemens = 1 / ohm;
    add(from, from, siemens);
    add(to, to, siemens);
    add(from, to, -siemens);
    add(to, from, -siemens);
    add(from, count, -volt * siemens);
    add(to, count, volt * siemens);
  }
  const result = solveDense(rows);
  return result.ok ? result.rows.map(({ re }) => re[count] ?? 0) : Array.from({ length: count }, () => 0);
}
