/** Which coils are heard, for a search that asks thousands of nets and needs neither signs nor hum: one small solution, and no circuit is made. */
import {
  type AnalysedCircuit,
  type Coil,
  type Element,
  elementById,
  type ElementId,
  type Gain,
  type LugId,
} from '../../circuit/model.js';
import { getOrCreate } from '../../collections.js';
import { createForest, createRows, createSmallSystem, join, rootOf } from '../../numerics/index.js';
import { type Branch, branchesOf, outside } from '../network/branches.js';
import { shapeAt } from '../network/sections.js';
import { isAlive } from '../network/supply.js';
import { windingAdmittance } from '../network/curves.js';
import { outputOf } from '../solver/solver.js';
import { isAudible, listeningHz } from './audible.js';

/**
 * The coils that `describeSound` hears where lugs are on these nets; tip and sleeve are on two. A wiper at the end of its travel and that end may be one
 * net already where no stage is in the circuit. Undefined where the equations have to be solved in another way.
 */
export type Listener = (netOf: (lug: LugId) => number) => readonly ElementId[] | undefined;

/** Unknowns, at most: beyond that the planned elimination of the solver is faster. */
const mostUnknowns = 32;

/** Undefined for what resistances, capacitances, inductances and stages don't describe: parts without any impedance, no load at the jack. */
export function createListener(circuit: AnalysedCircuit, rotations: readonly number[]): Listener | undefined {
  const all = branchesOf(circuit, rotations);
  if (circuit.output === undefined || !isPlain(circuit, all)) return undefined;
  const places = new Map<LugId, number>();
  const placeOf = (lug: LugId): number => getOrCreate(places, lug, () => places.size);
  const ends = { ground: placeOf(circuit.output.sleeve), tip: placeOf(circuit.output.tip) };
  const links = all.filter(isLink).map(({ a, b }): Link => [placeOf(a), placeOf(b)]);
  const conductors = all.filter((branch) => !isLink(branch)).map((branch) => conductorOf(circuit, branch, placeOf));
  const stages = circuit.elements.filter((element) => element.kind === 'gain').map((gain) => stageOf(gain, placeOf));
  const isFed = createSupplies(circuit);
  const nodes = createNodes([...places.keys()], { links, ...ends }, circuit.lugs.length);
  const { nodeAt, unknownAt } = nodes;
  const system = createSmallSystem(mostUnknowns);
  return (netOf) => {
    circuit.analysis.work?.charge('listen', conductors.length + stages.length * circuit.elements.length);
    const fed = stages.length === 0 ? stages : isFed(stages, netOf);
    const present =
      stages.length === 0 ? conductors : conductors.filter(({ stage }) => fed.every(({ gain }) => gain.id !== stage));
    const size = nodes.fold(netOf, present, fed);
    const within = present.filter(nodes.carries);
    const sources = within.flatMap((one) => (one.coil === undefined ? [] : [{ ...one, coil: one.coil }]));
    if (sources.length === 0 || nodeAt(ends.tip) === nodeAt(ends.ground)) return [];
    if (size > mostUnknowns || !nodes.isGrounded()) return undefined;
    system.clear(size);
    for (const { from, to, re, im } of within) system.add(unknownAt(from), unknownAt(to), re, im);
    for (const { input, output, minus, siemens, gain } of fed) {
      // The output resistance of a stage at work hangs on its minus.
      if (nodeAt(output) !== nodeAt(minus)) system.add(unknownAt(output), unknownAt(minus), siemens, 0);
      system.addStage(unknownAt(input), unknownAt(output), unknownAt(minus), gain.gain * siemens);
    }
    if (!system.solve(unknownAt(ends.tip))) return undefined;
    return audible(
      sources.map(({ coil, left, from, to, re, im }) => ({
        coil,
        level: left * system.current(unknownAt(from), unknownAt(to), re, im),
      })),
    );
  };
}

function isPlain({ elements }: AnalysedCircuit, all: readonly Branch[]): boolean {
  const hasImpedance = ({ kind, ohm, henry, element, of }: Branch): boolean => {
    switch (kind) {
      case 'join':
        return elements[element]?.kind === 'track';
      case 'piezo':
      case 'diode':
        return false;
      case 'winding':
        return ohm > 0 || henry > 0;
      case 'battery':
        return true;
      default:
        return kind === 'capacitor' || (ohm > 0 && (of !== 'output' || ohm < Infinity));
    }
  };
  const isLoaded = all.some(({ element }) => element === outside);
  const isPlainStage = (element: Element): boolean =>
    element.kind !== 'gain' ||
    (element.inverting === undefined && element.bands === undefined && element.transistor === undefined);
  return isLoaded && all.every(hasImpedance) && elements.every(isPlainStage);
}

/** Two places that nothing but a wiper at the end of its travel, or a battery, lies between: for signals they are one. */
type Link = readonly [number, number];

function isLink({ kind }: Branch): boolean {
  return kind === 'join' || kind === 'battery';
}

/** A branch between two places, numbers of lugs that matter, with its admittance at the listening frequency. */
interface Conductor {
  readonly from: number;
  readonly to: number;
  readonly re: number;
  readonly im: number;
  /** The coil whose voltage is in it, and what its cover leaves of that. */
  readonly coil: Coil | undefined;
  readonly left: number;
  /** The stage of which it is the output resistance. */
  readonly stage: ElementId | undefined;
}

function conductorOf(circuit: AnalysedCircuit, branch: Branch, placeOf: (lug: LugId) => number): Conductor {
  const { kind, element, of, ohm, henry, core, farad, loss, sections, a, b } = branch;
  const omega = 2 * Math.PI * listeningHz;
  const ends = { from: placeOf(a), to: placeOf(b) };
  if (kind === 'capacitor') return { ...ends, re: 0, im: omega * farad, coil: undefined, left: 1, stage: undefined };
  const rows = createRows(1, 1);
  windingAdmittance({ ohm, henry, core, loss, elastance: 0 }, Float64Array.of(omega), rows, 0);
  const own = kind === 'winding' ? elementById(circuit, element) : undefined;
  const coil = own?.kind === 'coil' ? own : undefined;
  const shape = coil === undefined ? undefined : shapeAt(sections, listeningHz);
  const left = shape === undefined ? 1 : Math.hypot(shape.re, shape.im);
  return { ...ends, re: rows.re[0] ?? 0, im: rows.im[0] ?? 0, coil, left, stage: of === 'output' ? element : undefined };
}

/** A stage by places, with the conductance of its output. */
interface PlacedStage {
  readonly gain: Gain;
  readonly input: number;
  readonly output: number;
  readonly minus: number;
  readonly siemens: number;
}

function stageOf(gain: Gain, placeOf: (lug: LugId) => number): PlacedStage {
  const siemens = 1 / gain.outputResistance.value;
  return { gain, input: placeOf(gain.a), output: placeOf(gain.b), minus: placeOf(gain.minus), siemens };
}

/** Those of some stages that have a supply, as wires and contacts alone decide it. */
function createSupplies(
  circuit: AnalysedCircuit,
): (stages: readonly PlacedStage[], netOf: (lug: LugId) => number) => readonly PlacedStage[] {
  const lugs = circuit.elements.flatMap((element) => {
    if (element.kind === 'gain') return [element.plus, element.minus];
    return element.kind === 'battery' || element.kind === 'resistor' ? [element.a, element.b] : [];
  });
  const of = new Int32Array(circuit.lugs.length);
  return (stages, netOf) => {
    for (const lug of lugs) of[lug] = netOf(lug);
    return stages.filter(({ gain }) => isAlive(circuit, { of }, gain));
  };
}

interface Nodes {
  /** Puts places on nodes and numbers the unknowns, which are those that reach the tip without passing ground; how many there are. */
  fold(netOf: (lug: LugId) => number, conductors: readonly Conductor[], stages: readonly PlacedStage[]): number;
  nodeAt(place: number): number;
  /** −1 for ground, and for what doesn't reach the tip. */
  unknownAt(place: number): number;
  carries(conductor: Conductor): boolean;
  /** False where an unknown is tied to ground by a stage's signal alone, so that its own voltage is nothing that ground decides. */
  isGrounded(): boolean;
}

function createNodes(
  lugs: readonly LugId[],
  { links, ground, tip }: { readonly links: readonly Link[]; readonly ground: number; readonly tip: number },
  nets: number,
): Nodes {
  /** The first place on each net represents the net. */
  const firstOn = new Int32Array(nets);
  const nodes = new Int32Array(lugs.length);
  const reach = new Int32Array(lugs.length);
  const pieces = createForest(lugs.length);
  const unknowns = new Int32Array(lugs.length);
  const nodeAt = (place: number): number => nodes[place] ?? place;
  const unknownAt = (place: number): number => unknowns[nodeAt(place)] ?? -1;
  let isStaged = false;
  const setNodes = (netOf: (lug: LugId) => number): void => {
    firstOn.fill(-1);
    for (const [place, lug] of lugs.entries()) {
      const net = netOf(lug);
      if ((firstOn[net] ?? -1) < 0) firstOn[net] = place;
      nodes[place] = firstOn[net] ?? place;
      reach[place] = pieces[place] = place;
    }
    if (links.length === 0) return;
    for (const [a, b] of links) join(nodes, a, b);
    for (let place = 0; place < lugs.length; place++) nodes[place] = rootOf(nodes, place);
  };
  return {
    fold(netOf, conductors, stages) {
      setNodes(netOf);
      const cut = nodeAt(ground);
      const reaches = (a: number, b: number): void => {
        if (a !== cut && b !== cut) join(reach, a, b);
      };
      for (const { from, to } of conductors) reaches(nodeAt(from), nodeAt(to));
      isStaged = stages.length > 0;
      if (isStaged) for (const { from, to } of conductors) join(pieces, nodeAt(from), nodeAt(to));
      for (const { input, output, minus } of stages) {
        join(pieces, nodeAt(output), nodeAt(minus));
        reaches(nodeAt(output), nodeAt(minus));
        reaches(nodeAt(output), nodeAt(input));
      }
      const live = rootOf(reach, nodeAt(tip));
      let count = 0;
      for (let place = 0; place < lugs.length; place++) {
        const isUnknown = nodes[place] === place && place !== cut && rootOf(reach, place) === live;
        unknowns[place] = isUnknown ? count++ : -1;
      }
      return count;
    },
    nodeAt,
    unknownAt,
    carries: ({ from, to }) => nodeAt(from) !== nodeAt(to) && (unknownAt(from) >= 0 || unknownAt(to) >= 0),
    isGrounded() {
      if (!isStaged) return true;
      const grounded = rootOf(pieces, nodeAt(ground));
      return lugs.every((_, place) => unknownAt(place) < 0 || rootOf(pieces, nodeAt(place)) === grounded);
    },
  };
}

function audible(levels: readonly { readonly coil: Coil; readonly level: number }[]): readonly ElementId[] {
  const loudest = levels.reduce((most, { coil, level }) => Math.max(most, level * outputOf(coil)), 0);
  return levels.flatMap(({ coil, level }) => (isAudible(level, level * outputOf(coil), loudest) ? [coil.id] : []));
}
