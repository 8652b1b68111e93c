/** The equations of one network: which unknowns there are, and what each branch stamps into the matrix. */
import type { Coil } from '../circuit/model.js';
import { coupledPairs, type Pair } from './coupling.js';
import { createForest, join, rootOf } from './disjoint.js';
import type { Network } from './network.js';
import { createStamps, type BranchCurrent, type Entries, type Winding } from './stamps.js';

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
  /** True where the matrix is symmetric: no amplifier stage is in it. */
  readonly isReciprocal: boolean;
  readonly entries: Entries;
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
  const pairs = (options.coupling ?? true) ? coupledPairs(network.circuit) : [];
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
  const stamps = createStamps(network.circuit, nodeOf.length, pairs);
  for (let i = 0; i < network.branches.length; i++) {
    const branch = network.branches[i]!;
    const a = unknownOf[network.from[i]!]!;
    const b = unknownOf[network.to[i]!]!;
    const isInside = within.inside[network.from[i]!] === 1 && within.inside[network.to[i]!] === 1;
    if (!isInside || (a === b && branch.kind !== 'winding')) continue;
    if (branch.kind === 'capacitor') stamps.admittance(a, b, 0, branch.farad);
    else if (branch.kind === 'resistor') stamps.admittance(a, b, 1 / branch.ohm, 0);
    else stamps.winding(branch, a, b);
  }
  stamps.couple();
  let isReciprocal = true;
  for (const stage of network.stages) {
    if (within.inside[stage.output] === 0 && within.inside[stage.input] === 0) continue;
    const [input, output, minus] = [stage.input, stage.output, stage.minus].map((node) => unknownOf[node]!) as [
      number,
      number,
      number,
    ];
    isReciprocal = false;
    stamps.stage(input, output, minus, stage.gain.gain, stage.gain.outputResistance.value);
  }
  while (nodeOf.length < stamps.size()) nodeOf.push(-1);
  for (let node = 0; node < network.count; node++) if (unknownOf[node] === reference) unknownOf[node] = -1;
  return { network, size: nodeOf.length, unknownOf, nodeOf, within: within.inside, isReciprocal, ...stamps.made };
}

/** Marks a reference while unknowns are numbered; outside nodes are −1 already. */
const reference = -2;

function claim(referenced: Set<number>, piece: number): number {
  referenced.add(piece);
  return reference;
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
