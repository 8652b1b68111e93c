/** Which coils are heard, for a search that asks thousands of nets and needs neither signs nor hum: one small solution, and no circuit is made. */
import { type AnalysedCircuit, type Coil, elementById, type ElementId, type LugId } from '../../circuit/model.js';
import { getOrCreate } from '../../collections.js';
import { createRows, createSmallSystem, join, rootOf } from '../../numerics/index.js';
import { type Branch, branchesOf } from '../network/branches.js';
import { windingAdmittance } from '../network/stamps.js';
import { outputOf } from '../solver/solver.js';
import { isAudible, listeningHz } from './audible.js';

/**
 * The coils that `describeSound` hears where lugs are on these nets, those of a wiper at the end of its travel and of that end one net; tip and
 * sleeve are on two. Undefined where the equations have to be solved in another way.
 */
export type Listener = (netOf: (lug: LugId) => number) => readonly ElementId[] | undefined;

/** Unknowns, at most: beyond that the planned elimination of the solver is faster. */
const mostUnknowns = 32;

/** Undefined for what resistances, capacitances and inductances alone don't describe: amplifier stages, batteries, parts without any impedance, no load at the jack. */
export function createListener(circuit: AnalysedCircuit, rotations: readonly number[]): Listener | undefined {
  const all = branchesOf(circuit, rotations);
  if (circuit.output === undefined || !isPlain(circuit, all)) return undefined;
  const places = new Map<LugId, number>();
  const placeOf = (lug: LugId): number => getOrCreate(places, lug, () => places.size);
  const ends = { ground: placeOf(circuit.output.sleeve), tip: placeOf(circuit.output.tip) };
  const conductors = all.filter(({ kind }) => kind !== 'join').map((branch) => conductorOf(circuit, branch, placeOf));
  const nodes = createNodes([...places.keys()], conductors, ends, circuit.lugs.length);
  const { unknownAt } = nodes;
  const system = createSmallSystem(mostUnknowns);
  return (netOf) => {
    circuit.analysis.work?.charge('listen', conductors.length);
    const size = nodes.fold(netOf);
    const within = conductors.filter(nodes.carries);
    const sources = within.flatMap((one) => (one.coil === undefined ? [] : [{ ...one, coil: one.coil }]));
    if (sources.length === 0) return [];
    if (size > mostUnknowns) return undefined;
    system.clear(size);
    for (const { from, to, re, im } of within) system.add(unknownAt(from), unknownAt(to), re, im);
    if (!system.solve(unknownAt(ends.tip))) return undefined;
    return audible(
      sources.map(({ coil, from, to, re, im }) => ({ coil, level: system.current(unknownAt(from), unknownAt(to), re, im) })),
    );
  };
}

function isPlain({ elements }: AnalysedCircuit, all: readonly Branch[]): boolean {
  const hasImpedance = ({ kind, ohm, henry, element }: Branch): boolean => {
    switch (kind) {
      case 'join':
        return elements[element]?.kind === 'track';
      case 'winding':
        return ohm > 0 || henry > 0;
      case 'battery':
        return false;
      default:
        return kind === 'capacitor' || ohm > 0;
    }
  };
  const isLoaded = all.some(({ element }) => element < 0);
  return isLoaded && all.every(hasImpedance) && !elements.some(({ kind }) => kind === 'gain');
}

/** A branch between two places, numbers of lugs that matter, with its admittance at the listening frequency. */
interface Conductor {
  readonly from: number;
  readonly to: number;
  readonly re: number;
  readonly im: number;
  /** The coil whose voltage is in it. */
  readonly coil: Coil | undefined;
}

function conductorOf(circuit: AnalysedCircuit, branch: Branch, placeOf: (lug: LugId) => number): Conductor {
  const { kind, element, ohm, henry, farad, loss, a, b } = branch;
  const omega = 2 * Math.PI * listeningHz;
  const ends = { from: placeOf(a), to: placeOf(b) };
  if (kind === 'capacitor') return { ...ends, re: 0, im: omega * farad, coil: undefined };
  const rows = createRows(1, 1);
  windingAdmittance({ ...ends, ohm, henry, loss, elastance: 0, coil: -1 }, Float64Array.of(omega), rows, 0);
  const own = kind === 'winding' ? elementById(circuit, element) : undefined;
  return { ...ends, re: rows.re[0] ?? 0, im: rows.im[0] ?? 0, coil: own?.kind === 'coil' ? own : undefined };
}

interface Nodes {
  /** Puts places on nodes and numbers the unknowns, which are those that reach the tip without passing ground; how many there are. */
  fold(netOf: (lug: LugId) => number): number;
  /** −1 for ground, and for what doesn't reach the tip. */
  unknownAt(place: number): number;
  carries(conductor: Conductor): boolean;
}

function createNodes(
  lugs: readonly LugId[],
  conductors: readonly Conductor[],
  { ground, tip }: { readonly ground: number; readonly tip: number },
  nets: number,
): Nodes {
  /** The first place on each net represents the net. */
  const firstOn = new Int32Array(nets);
  const nodes = new Int32Array(lugs.length);
  const reach = new Int32Array(lugs.length);
  const unknowns = new Int32Array(lugs.length);
  const nodeAt = (place: number): number => nodes[place] ?? place;
  const unknownAt = (place: number): number => unknowns[nodeAt(place)] ?? -1;
  return {
    fold(netOf) {
      firstOn.fill(-1);
      for (const [place, lug] of lugs.entries()) {
        const net = netOf(lug);
        if ((firstOn[net] ?? -1) < 0) firstOn[net] = place;
        nodes[place] = firstOn[net] ?? place;
        reach[place] = place;
      }
      const cut = nodeAt(ground);
      for (const { from, to } of conductors) {
        const [a, b] = [nodeAt(from), nodeAt(to)];
        if (a !== cut && b !== cut) join(reach, a, b);
      }
      const live = rootOf(reach, nodeAt(tip));
      let count = 0;
      for (let place = 0; place < lugs.length; place++) {
        const isUnknown = nodes[place] === place && place !== cut && rootOf(reach, place) === live;
        unknowns[place] = isUnknown ? count++ : -1;
      }
      return count;
    },
    unknownAt,
    carries: ({ from, to }) => nodeAt(from) !== nodeAt(to) && (unknownAt(from) >= 0 || unknownAt(to) >= 0),
  };
}

function audible(levels: readonly { readonly coil: Coil; readonly level: number }[]): readonly ElementId[] {
  const loudest = levels.reduce((most, { coil, level }) => Math.max(most, level * outputOf(coil)), 0);
  return levels.flatMap(({ coil, level }) => (isAudible(level, level * outputOf(coil), loudest) ? [coil.id] : []));
}
