/** The ohmmeter: what it reads between two lugs, its spread, and what it is that it reads. */
import { type AnalysedCircuit, type Circuit, elementById, type LugId, partOfElement } from '../circuit/model.js';
import { type Conductors, createSets, filled, join, number, resistanceBetween, rootOf } from '../numerics/index.js';
import { finished, type Steps } from '../steps.js';
import type { MeterReading, Nets, Setting } from './model.js';
import { type Branch, branchesOf, directBranchesOf } from './network/branches.js';
import { netOf, nets } from './network/nets.js';

/** A branch that carries less than this share of the meter's current is not read. */
const carried = 1e-6;

/**
 * DC resistance between two lugs in one setting, batteries and lead out, amplifier stages without supply. `low` and `high` are exact: a
 * resistance between two points rises with each resistor in it (Rayleigh's monotonicity law), so all-low and all-high give the ends.
 */
export function meter(circuit: AnalysedCircuit, setting: Setting, a: LugId, b: LugId): MeterReading {
  return finished(readBetween(circuit, nets(circuit, setting.positions), setting, a, b));
}

/** DC resistance between tip and sleeve of the output; open, with a note, where there is no jack. */
export function readAtJack(circuit: AnalysedCircuit, setting: Setting): MeterReading {
  return finished(readAtJackSteps(circuit, setting));
}

/** The same in steps: the nets, the reading and each end of its spread are one each. */
export function* readAtJackSteps(circuit: AnalysedCircuit, setting: Setting): Steps<MeterReading> {
  const folded = nets(circuit, setting.positions);
  yield;
  return yield* readJackSteps(circuit, folded, setting);
}

/** As `readAtJack`, on nets that are there already. */
export function readJack(circuit: AnalysedCircuit, folded: Nets, setting: Setting): MeterReading {
  return finished(readJackSteps(circuit, folded, setting));
}

function* readJackSteps(circuit: AnalysedCircuit, folded: Nets, setting: Setting): Steps<MeterReading> {
  const { output } = circuit;
  if (output === undefined)
    return { ohm: null, low: null, high: null, unknown: false, note: 'there is no jack to measure at', through: [] };
  return yield* readBetween(circuit, folded, setting, output.tip, output.sleeve);
}

function* readBetween(circuit: AnalysedCircuit, folded: Nets, setting: Setting, a: LugId, b: LugId): Steps<MeterReading> {
  const { conductors, elements, nodes, nodeOf } = createDirect(circuit, folded, setting);
  yield;
  const [from, to] = [nodeOf(a), nodeOf(b)];
  circuit.analysis.work?.charge('equation', 3 * (nodes + elements.length));
  const nominal = resistanceBetween(nodes, conductors, from, to);
  yield;
  if (nominal.ohm === Infinity)
    return {
      ohm: null,
      low: null,
      high: null,
      unknown: false,
      through: [],
      ...noted('there is no connection between the two probes'),
    };
  const read = elements.filter((_, i) => (nominal.shares[i] ?? 0) > carried);
  const through = [...new Set(read.map((branch) => branch.element))];
  const isShort = from === to || nominal.ohm < 1e-3;
  const note = noted(isShort ? 'a short: the two probes are on one net' : whatIsRead(circuit, folded, setting, read));
  if (read.some((branch) => !branch.known)) return { ohm: null, low: null, high: null, unknown: true, through, ...note };
  const spread = read.some((branch) => branch.tolerance > 0);
  const end = (sign: 1 | -1): number => {
    if (!spread) return nominal.ohm;
    const siemens = conductors.siemens.map((value, i) => value / (1 + sign * (elements[i]?.tolerance ?? 0)));
    const shifted = { ...conductors, siemens };
    return resistanceBetween(nodes, shifted, from, to).ohm;
  };
  const low = end(-1);
  yield;
  return { ohm: nominal.ohm, low, high: end(1), unknown: false, through, ...note };
}

interface Direct {
  readonly nodes: number;
  readonly nodeOf: (lug: LugId) => number;
  readonly conductors: Conductors;
  /** The branch of each conductor. */
  readonly elements: readonly Branch[];
}

/** The network for direct current: capacitors and batteries open, inductance gone. */
function createDirect(circuit: AnalysedCircuit, folded: Nets, setting: Setting): Direct {
  circuit.analysis.work?.charge('branch', circuit.elements.length + folded.count);
  const parent = createSets(folded.count);
  const all = directBranchesOf(circuit, setting.rotations);
  for (const branch of all) if (branch.ohm === 0) join(parent, netOf(folded, branch.a), netOf(folded, branch.b));
  const nodeOfNet = filled(folded.count, 0);
  const nodes = number(parent, nodeOfNet);
  const nodeOf = (lug: LugId): number => nodeOfNet[netOf(folded, lug)] ?? -1;
  const elements: Branch[] = [];
  const conductors = { from: [] as number[], to: [] as number[], siemens: [] as number[] };
  for (const branch of all) {
    const [from, to] = [nodeOf(branch.a), nodeOf(branch.b)];
    if (branch.ohm === 0 || from === to) continue;
    elements.push(branch);
    conductors.from.push(from);
    conductors.to.push(to);
    conductors.siemens.push(1 / branch.ohm);
  }
  return { nodes, nodeOf, conductors, elements };
}

function noted(note: string | undefined): { readonly note?: string } {
  return note === undefined ? {} : { note };
}

/** In trade words, what stands in the reading where it is not simply the pickups. */
function whatIsRead(circuit: AnalysedCircuit, folded: Nets, setting: Setting, read: readonly Branch[]): string | undefined {
  const kinds = new Set(read.map((branch) => elementById(circuit, branch.element).kind));
  if (kinds.has('coil')) return undefined;
  const names = partNames(circuit, read);
  if (kinds.has('gain')) return `only the amplifier stage (${names}): it hides the pickups`;
  const what = [...kinds].every((kind) => kind === 'track') ? `only the track of ${names}` : `only ${names}`;
  const hidden = capacitorBefore(circuit, folded, setting, read);
  return hidden === undefined
    ? `${what}: no pickup is read`
    : `${what}: the capacitor ${hidden.capacitor} blocks the ${hidden.before}`;
}

function partNames(circuit: Circuit, read: readonly Branch[]): string {
  return [...new Set(read.map((branch) => partOfElement(circuit, branch.element).name))].join(', ');
}

/** A capacitor that leads from what is read to a coil, or to the amplifier stage that one is heard through. */
function capacitorBefore(
  circuit: AnalysedCircuit,
  folded: Nets,
  setting: Setting,
  read: readonly Branch[],
): { readonly capacitor: string; readonly before: string } | undefined {
  const parent = createSets(folded.count);
  const branches = branchesOf(circuit, setting.rotations).filter((branch) => branch.element >= 0);
  const ends = (branch: Branch): readonly [number, number] => [netOf(folded, branch.a), netOf(folded, branch.b)];
  // What direct current joins away from ground, so that the far side of a capacitor can be asked what stands there.
  for (const branch of branches) {
    const [a, b] = ends(branch);
    if (branch.kind !== 'capacitor' && a !== folded.ground && b !== folded.ground) join(parent, a, b);
  }
  const side = (net: number): number => (net === folded.ground ? -1 : rootOf(parent, net));
  const near = new Set(read.flatMap((branch) => ends(branch).map(side)));
  near.delete(-1);
  const kindOf = (branch: Branch): string => elementById(circuit, branch.element).kind;
  for (const [kind, before] of [
    ['coil', 'pickups'],
    ['gain', 'amplifier stage'],
  ] as const) {
    const behind = new Set(
      branches.filter((branch) => kindOf(branch) === kind && branch.of !== 'input').flatMap((branch) => ends(branch).map(side)),
    );
    behind.delete(-1);
    const found = branches.find((branch) => {
      const [a, b] = ends(branch).map(side) as [number, number];
      return kindOf(branch) === 'capacitor' && ((near.has(a) && behind.has(b)) || (near.has(b) && behind.has(a)));
    });
    if (found !== undefined) return { capacitor: partOfElement(circuit, found.element).name, before };
  }
  return undefined;
}
