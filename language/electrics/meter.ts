/** The ohmmeter: what it reads between two lugs, its spread, and what it is that it reads. */
import { type AnalysedCircuit, type Circuit, elementById, type LugId, partOfElement } from '../circuit/model.js';
import { type Conductors, createSets, filled, join, number, resistanceBetween, rootOf } from '../numerics/index.js';
import { finished, type Steps } from '../steps.js';
import type { MeterReading, Nets, Setting } from './model.js';
import { type Branch, branchesOf, directBranchesOf } from './network/branches.js';
import { netOf, nets } from './network/nets.js';
import { restingRelays } from './settings/driven.js';

/** A branch that carries less than this share of the meter's current is not read. */
const carried = 1e-6;
/** A stage without output resistance is no joint for an ohmmeter; this finds out that one is in the reading, ohm. */
const leastStage = 1e-3;
/** A tolerance of 100 % leaves this share. */
const leastShare = 1e-6;
/** Ends that come out whole are not moved by the last bit. */
const rounding = 1e-6;
/** A stage beside what is read may change the reading by this share: an input resistance in the megohms across a pickup. */
const besideShare = 0.02;

/** Copper, per kelvin: IEC 60028:1925. */
const copperPerKelvin = 0.00393;
/** What the workshop's meter and the air in it may do to a reading where `build` doesn't say: 1 % and 5 K about 20 °C (common practice). */
const usualMeter = 0.01;
const usualTemperature = 5;

/**
 * DC resistance between two lugs in one setting, batteries and lead out, amplifier stages without supply, relays at rest. `low` and `high` are what a meter may show on a
 * good instrument: a resistance between two points rises with each resistor in it (Rayleigh's monotonicity law), so all-low and all-high give the ends,
 * windings colder and warmer; the meter adds its share and one in the third digit, and the ends are rounded outwards to that digit. What an
 * ohmmeter makes of a semiconductor depends on the meter, so there is no reading through one; where one is only in parallel with what is read, the
 * reading is that without it, and the low end that with it.
 */
export function meter(circuit: AnalysedCircuit, setting: Setting, a: LugId, b: LugId): MeterReading {
  return finished(readBetween(circuit, nets(circuit, restingRelays(circuit, setting.positions)), setting, a, b));
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
  if (output === undefined) return { ...noReading, note: 'there is no jack to measure at' };
  const positions = restingRelays(circuit, setting.positions);
  const unpowered = positions === setting.positions ? folded : nets(circuit, positions);
  return yield* readBetween(circuit, unpowered, setting, output.tip, output.sleeve);
}

function* readBetween(circuit: AnalysedCircuit, folded: Nets, setting: Setting, a: LugId, b: LugId): Steps<MeterReading> {
  const { conductors, elements, nodes, nodeOf } = createDirect(circuit, folded, setting);
  yield;
  const [from, to] = [nodeOf(a), nodeOf(b)];
  circuit.analysis.work?.charge('equation', 3 * (nodes + elements.length));
  const all = resistanceBetween(nodes, conductors, from, to);
  yield;
  const stages = elements.map((branch, i) => (all.shares[i] ?? 0) > carried && isSemiconductor(circuit, branch));
  const hasStages = stages.includes(true);
  const withoutStages = { ...conductors, siemens: conductors.siemens.map((value, i) => (stages[i] ? 0 : value)) };
  const nominal = hasStages ? resistanceBetween(nodes, withoutStages, from, to) : all;
  if (hasStages && !(Math.abs(nominal.ohm / all.ohm - 1) <= besideShare))
    return notMetered(
      circuit,
      elements.filter((_, i) => stages[i]),
    );
  if (nominal.ohm === Infinity) return { ...noReading, ...noted('there is no connection between the two probes') };
  const read = elements.filter((_, i) => (nominal.shares[i] ?? 0) > carried);
  const through = [...new Set(read.map((branch) => branch.element))];
  const isShort = from === to || nominal.ohm < 1e-3;
  const note = noted(isShort ? 'a short: the two probes are on one net' : whatIsRead(circuit, folded, setting, read));
  if (read.some((branch) => !branch.known)) return { ...noReading, unknown: true, through, ...note };
  if (isShort) return { ...noReading, ohm: nominal.ohm, low: nominal.ohm, high: nominal.ohm, through, ...note };
  const warmth = copperPerKelvin * (circuit.build?.temperature ?? usualTemperature);
  const end = (sign: 1 | -1): number => {
    const of = sign === 1 ? withoutStages : conductors;
    const siemens = of.siemens.map((value, i) => {
      const branch = elements[i];
      if (branch === undefined) return value;
      const change = isCopper(circuit, branch) ? 1 + sign * warmth : 1;
      return value / Math.max((1 + sign * branch.tolerance) * change, leastShare);
    });
    return resistanceBetween(nodes, { ...conductors, siemens }, from, to).ohm;
  };
  const low = end(-1);
  yield;
  return {
    ...noReading,
    ohm: nominal.ohm,
    ...shown(low, end(1), circuit.build?.meter ?? usualMeter),
    through,
    ...note,
    ...(read.some(({ assumed }) => assumed) ? { assumed: true } : {}),
    ...(read.some((branch) => isPartWay(circuit, branch)) ? { indicative: true } : {}),
  };
}

/** The least and the most that a meter shows of a resistance between two limits. */
function shown(low: number, high: number, accuracy: number): { readonly low: number; readonly high: number } {
  const least = low * (1 - accuracy);
  const most = high * (1 + accuracy);
  const [lowDigit, highDigit] = [thirdDigit(least), thirdDigit(most)];
  return {
    low: Math.max(0, roundTo(Math.floor(least / lowDigit - 1 + rounding), lowDigit)),
    high: roundTo(Math.ceil(most / highDigit + 1 - rounding), highDigit),
  };
}

/** What the third digit of a reading counts, ohm. */
function thirdDigit(ohm: number): number {
  return ohm > 0 ? 10 ** (Math.floor(Math.log10(ohm)) - 2) : 1;
}

/** So many digits, without the noise of a product such as 0.01 · 687. */
function roundTo(count: number, digit: number): number {
  return Number((count * digit).toPrecision(12));
}

function isCopper(circuit: Circuit, branch: Branch): boolean {
  const { kind } = elementById(circuit, branch.element);
  return kind === 'coil' || kind === 'inductor';
}

/** True for one half of a track whose wiper is between its ends: how far, the taper of no pot says to a few percent. */
function isPartWay(circuit: Circuit, branch: Branch): boolean {
  const element = elementById(circuit, branch.element);
  return element.kind === 'track' && branch.ohm < element.resistance.value * (1 - 1e-6);
}

/** What a reading and its limits need said of them, a phrase each. */
export function readingNotes({ note, assumed, indicative }: MeterReading): readonly string[] {
  return [
    ...(note === undefined ? [] : [note]),
    ...(indicative ? ['a pot is part way, and tapers vary: the limits are indicative'] : []),
    ...(assumed ? ['the limits rest on usual tolerances, since the text leaves some out'] : []),
  ];
}

const noReading: MeterReading = { ohm: null, low: null, high: null, unknown: false, through: [] };

function notMetered(circuit: Circuit, stages: readonly Branch[]): MeterReading {
  const names = partNames(circuit, stages);
  return {
    ...noReading,
    unknown: true,
    ...noted(
      `${names} is in the path of the meter: an ohmmeter gives no useful reading through ${stages.every((branch) => elementById(circuit, branch.element).kind === 'diode') ? 'a diode' : 'an amplifier stage'}`,
    ),
  };
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
  const isJoint = (branch: Branch): boolean => branch.ohm === 0 && !isSemiconductor(circuit, branch);
  for (const branch of all) if (isJoint(branch)) join(parent, netOf(folded, branch.a), netOf(folded, branch.b));
  const nodeOfNet = filled(folded.count, 0);
  const nodes = number(parent, nodeOfNet);
  const nodeOf = (lug: LugId): number => nodeOfNet[netOf(folded, lug)] ?? -1;
  const elements: Branch[] = [];
  const conductors = { from: [] as number[], to: [] as number[], siemens: [] as number[] };
  for (const branch of all) {
    const [from, to] = [nodeOf(branch.a), nodeOf(branch.b)];
    if (isJoint(branch) || from === to) continue;
    elements.push(branch);
    conductors.from.push(from);
    conductors.to.push(to);
    conductors.siemens.push(1 / Math.max(branch.ohm, leastStage));
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
  const what = [...kinds].every((kind) => kind === 'track') ? `only the track of ${names}` : `only ${names}`;
  const hidden = capacitorBefore(circuit, folded, setting, read);
  return hidden === undefined
    ? `${what}: no pickup is read`
    : `${what}: the capacitor ${hidden.capacitor} blocks the ${hidden.before}`;
}

/** True for an amplifier stage and a diode: what an ohmmeter makes of either depends on the meter. */
function isSemiconductor(circuit: Circuit, branch: Branch): boolean {
  const { kind } = elementById(circuit, branch.element);
  return kind === 'gain' || kind === 'diode';
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
