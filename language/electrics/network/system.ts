/** The equations of one network: which unknowns there are, and what each branch stamps into the matrix. */
import type { ElementId } from '../../circuit/model.js';
import { filled, rootOf } from '../../numerics/index.js';
import { coupledPairs } from './coupling.js';
import type { Network } from './network.js';
import { connected, dropDeadEnds, keptNodes, linesOf } from './reach.js';
import { type BranchCurrent, createStamps, type Entries, type Winding } from './stamps.js';

/**
 * Modified nodal equations A·x = b, stored transposed: solving for a unit at the output gives what each place contributes to it
 * (the adjoint network), so that one solution answers for every coil at once. Unknowns are node voltages first, then branch currents.
 */
export interface System {
  readonly network: Network;
  readonly size: number;
  /** Unknown of each node; −1 for a reference or a node outside the system. */
  readonly unknownOf: readonly number[];
  /** Nodes of the unknowns, −1 for inner nodes and branch currents. */
  readonly nodeOf: readonly number[];
  /** True for the nodes that belong to the system, references included. */
  readonly within: readonly number[];
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
 * Dead ends carry no current and are left out too, but for the roots and for what `keep` names. Elements `apart` are not stamped, so that
 * their values can be put in later; the nodes at their ends stay unknowns.
 */
export function createSystem(
  network: Network,
  roots: readonly number[],
  options: {
    readonly coupling?: boolean;
    readonly beyond?: boolean;
    readonly keep?: readonly number[];
    readonly apart?: ReadonlySet<ElementId>;
  } = {},
): System {
  network.circuit.work?.charge('equation', network.count + network.branches.length);
  const pairs = (options.coupling ?? true) ? coupledPairs(network.circuit) : [];
  const within = connected(network, roots, pairs, options.beyond ?? true);
  const keep = keptNodes(network, [...roots, ...(options.keep ?? [])], pairs);
  dropDeadEnds(network, within.inside, keep);
  const { apart } = options;
  if (apart !== undefined) {
    network.branches.forEach(({ element }, i) => {
      if (apart.has(element)) keep[network.from[i]!] = keep[network.to[i]!] = 1;
    });
  }
  const { lines, passed } = linesOf(network, within.inside, keep);
  const unknownOf = filled(network.count, -1);
  const nodeOf: number[] = [];
  const pieces = within.pieces;
  const referenced = new Set<number>();
  for (const root of roots) if (!referenced.has(rootOf(pieces, root))) unknownOf[root] = claim(referenced, rootOf(pieces, root));
  for (let node = 0; node < network.count; node++) {
    if (within.inside[node] === 0 || passed[node] === 1 || unknownOf[node] === reference) continue;
    const piece = rootOf(pieces, node);
    if (!referenced.has(piece)) unknownOf[node] = claim(referenced, piece);
    else {
      unknownOf[node] = nodeOf.length;
      nodeOf.push(node);
    }
  }
  const stamps = createStamps(network.circuit, nodeOf.length, pairs);
  for (const { from, to, branch, ohm, elastance } of lines) {
    if (branch !== undefined && apart?.has(branch.element) === true) continue;
    const [a, b] = [unknownOf[from]!, unknownOf[to]!];
    if (branch?.kind === 'winding') stamps.winding(branch, a, b);
    else stamps.passive(a, b, ohm, elastance);
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
