/** The equations of one network: which unknowns there are, and what each branch stamps into the matrix. */
import type { Coil } from '../circuit/model.js';
import { createForest, join, rootOf } from './disjoint.js';
import type { Network } from './network.js';

/** What stands in the matrix at every frequency: a real value (siemens or ohm), and one that is multiplied by jω (farad or henry). */
export interface Entry {
  readonly row: number;
  readonly column: number;
  readonly real: number;
  readonly slope: number;
}

/** A resistance and inductance in series whose admittance is stamped anew at each frequency; −1 is the reference. */
export interface Winding {
  readonly from: number;
  readonly to: number;
  readonly ohm: number;
  readonly henry: number;
  readonly loss: number;
  /** The coil whose EMF it holds, by element id; −1 for a plain inductor. */
  readonly coil: number;
}

/** A coil that has a branch current of its own among the unknowns, because its impedance is nothing or is shared with another. */
export interface BranchCurrent {
  readonly unknown: number;
  readonly coil: number;
}

/**
 * Modified nodal equations A·x = b, stored transposed: solving for a unit at the output gives what each place contributes to it
 * (the adjoint network), so that one solution answers for every coil at once. Unknowns are node voltages first, then branch currents.
 */
export interface System {
  readonly network: Network;
  readonly size: number;
  /** Unknown of each node; −1 for a reference or a node outside the system. */
  readonly unknownOf: Int32Array;
  /** Nodes of the unknowns, −1 for inner nodes and branch currents. */
  readonly nodeOf: readonly number[];
  /** True for the nodes that belong to the system, references included. */
  readonly within: Uint8Array;
  readonly entries: readonly Entry[];
  readonly windings: readonly Winding[];
  readonly currents: readonly BranchCurrent[];
}

/**
 * Equations of everything that is connected to one of `roots` (nodes; the first is the reference where it belongs to a piece).
 * Each separate piece gets a reference of its own, so that nothing floats. `coupling` false leaves the mutual inductance out.
 * `beyond` false leaves out what only hangs on the first root: a pickup that is not chosen hangs on ground and matters to nobody.
 */
export function createSystem(
  network: Network,
  roots: readonly number[],
  options: { readonly coupling?: boolean; readonly beyond?: boolean } = {},
): System {
  const pairs = (options.coupling ?? true) ? coupledPairs(network) : [];
  const within = connected(network, roots, pairs, options.beyond ?? true);
  const unknownOf = new Int32Array(network.count).fill(-1);
  const nodeOf: number[] = [];
  const pieces = within.pieces;
  const referenced = new Set<number>();
  for (const root of roots) if (!referenced.has(rootOf(pieces, root))) unknownOf[root] = claim(referenced, rootOf(pieces, root));
  for (let node = 0; node < network.count; node++) {
    if (within.inside[node] === 0 || unknownOf[node] === reference) continue;
    const piece = rootOf(pieces, node);
    if (!referenced.has(piece)) unknownOf[node] = claim(referenced, piece);
    else {
      unknownOf[node] = nodeOf.length;
      nodeOf.push(node);
    }
  }
  const stamps = createStamps(nodeOf.length);
  for (let i = 0; i < network.branches.length; i++) {
    const branch = network.branches[i]!;
    const a = unknownOf[network.from[i]!]!;
    const b = unknownOf[network.to[i]!]!;
    const isInside = within.inside[network.from[i]!] === 1 && within.inside[network.to[i]!] === 1;
    if (!isInside || (a === b && branch.kind !== 'winding')) continue;
    if (branch.kind === 'capacitor') stamps.admittance(a, b, 0, branch.farad);
    else if (branch.kind === 'resistor') stamps.admittance(a, b, 1 / branch.ohm, 0);
    else stamps.winding(network, branch, a, b, pairs);
  }
  stamps.couple(network, pairs);
  for (const stage of network.stages) {
    if (within.inside[stage.output] === 0 && within.inside[stage.input] === 0) continue;
    const [input, output, minus] = [stage.input, stage.output, stage.minus].map((node) => unknownOf[node]!) as [
      number,
      number,
      number,
    ];
    stamps.stage(input, output, minus, stage.gain.gain, stage.gain.outputResistance.value);
  }
  while (nodeOf.length < stamps.size()) nodeOf.push(-1);
  for (let node = 0; node < network.count; node++) if (unknownOf[node] === reference) unknownOf[node] = -1;
  return { network, size: nodeOf.length, unknownOf, nodeOf, within: within.inside, ...stamps.made };
}

/** Marks a reference while unknowns are numbered; outside nodes are −1 already. */
const reference = -2;

function claim(referenced: Set<number>, piece: number): number {
  referenced.add(piece);
  return reference;
}

interface Pair {
  readonly first: Coil;
  readonly second: Coil;
  readonly factor: number;
}

/** Coils of one pickup that both say they are coupled. */
function coupledPairs(network: Network): readonly Pair[] {
  const pairs: Pair[] = [];
  const { elements, parts } = network.circuit;
  const coupled = elements.filter((element): element is Coil => element.kind === 'coil' && (element.coupling ?? 0) !== 0);
  const seen = new Set<number>();
  for (const first of coupled) {
    if (seen.has(first.id)) continue;
    const second = coupled.find((other) => other.part === first.part && other.id > first.id && !seen.has(other.id));
    if (second === undefined || parts[first.part] === undefined) continue;
    seen.add(first.id).add(second.id);
    pairs.push({ first, second, factor: Math.min(Math.max(first.coupling!, -1), 1) });
  }
  return pairs;
}

function connected(
  network: Network,
  roots: readonly number[],
  pairs: readonly Pair[],
  beyond: boolean,
): { readonly pieces: Int32Array; readonly inside: Uint8Array } {
  const pieces = createForest(network.count);
  const reach = createForest(network.count);
  const [first] = roots as [number, ...number[]];
  const cut = beyond ? -1 : first;
  const reaches = (a: number, b: number): void => {
    if (a !== cut && b !== cut) join(reach, a, b);
  };
  const { branches, from, to, stages } = network;
  for (let i = 0; i < branches.length; i++) {
    join(pieces, from[i]!, to[i]!);
    reaches(from[i]!, to[i]!);
  }
  // A stage and a pair of coupled coils carry signal between pieces that no current joins.
  for (const { output, input, minus } of stages) {
    join(pieces, output, minus);
    reaches(output, minus);
    reaches(output, input);
  }
  for (const { first: one, second: other } of pairs) {
    const ends = (coil: Coil): readonly number[] =>
      [coil.a, coil.b].map((lug) => network.nodeOf[network.nets.of[lug]!]!).filter((node) => node !== cut);
    for (const a of ends(one)) for (const b of ends(other)) join(reach, a, b);
  }
  const wanted = new Set(roots.filter((root) => root !== cut).map((root) => rootOf(reach, root)));
  const inside = new Uint8Array(network.count);
  for (let node = 0; node < inside.length; node++) if (node === cut || wanted.has(rootOf(reach, node))) inside[node] = 1;
  return { pieces, inside };
}

function createStamps(nodes: number) {
  const entries: Entry[] = [];
  const windings: Winding[] = [];
  const currents: BranchCurrent[] = [];
  let size = nodes;
  const add = (row: number, column: number, real: number, slope = 0): void => {
    if (row >= 0 && column >= 0) entries.push({ row, column, real, slope });
  };
  const admittance = (a: number, b: number, siemens: number, farad: number): void => {
    add(a, a, siemens, farad);
    add(b, b, siemens, farad);
    add(a, b, -siemens, -farad);
    add(b, a, -siemens, -farad);
  };
  const current = (a: number, b: number): number => {
    const unknown = size++;
    add(a, unknown, 1);
    add(b, unknown, -1);
    add(unknown, a, 1);
    add(unknown, b, -1);
    return unknown;
  };
  /** Unknown current of each coil that has one. */
  const unknownOfCoil = new Map<number, number>();
  return {
    made: { entries, windings, currents },
    size: () => size,
    admittance,
    winding(network: Network, branch: Network['branches'][number], a: number, b: number, pairs: readonly Pair[]): void {
      const coil = network.circuit.elements[branch.element]?.kind === 'coil' ? branch.element : -1;
      const isPaired = pairs.some(({ first, second }) => first.id === coil || second.id === coil);
      if (!isPaired && a === b) return;
      if (!isPaired && (branch.ohm > 0 || branch.henry > 0)) {
        windings.push({ from: a, to: b, ohm: branch.ohm, henry: branch.henry, loss: branch.loss, coil });
        return;
      }
      // The loss lies across the inductance alone, so a coupled winding with one needs the node between the two.
      const inner = isPaired && branch.loss !== Infinity ? size++ : b;
      if (inner !== b) {
        const resistance = current(a, inner);
        currents.push({ unknown: resistance, coil });
        add(resistance, resistance, -branch.ohm);
        admittance(inner, b, 1 / branch.loss, 0);
        const inductance = current(inner, b);
        add(inductance, inductance, 0, -branch.henry);
        unknownOfCoil.set(coil, inductance);
        return;
      }
      const unknown = current(a, b);
      currents.push({ unknown, coil });
      add(unknown, unknown, -branch.ohm, -branch.henry);
      unknownOfCoil.set(coil, unknown);
    },
    couple(network: Network, pairs: readonly Pair[]): void {
      for (const { first, second, factor } of pairs) {
        const one = unknownOfCoil.get(first.id);
        const other = unknownOfCoil.get(second.id);
        if (one === undefined || other === undefined) continue;
        const mutual = factor * Math.sqrt(Math.max(first.inductance.value * second.inductance.value, 0));
        add(one, other, 0, -mutual);
        add(other, one, 0, -mutual);
      }
    },
    /** Transposed, as the whole system is: the controlling nodes stand in the rows. */
    stage(input: number, output: number, minus: number, gain: number, ohm: number): void {
      if (ohm > 0) {
        const siemens = 1 / ohm;
        admittance(output, minus, siemens, 0);
        add(input, output, -gain * siemens);
        add(minus, output, gain * siemens);
        add(input, minus, gain * siemens);
        add(minus, minus, -gain * siemens);
        return;
      }
      const unknown = current(output, minus);
      add(input, unknown, -gain);
      add(minus, unknown, gain);
    },
  };
}
