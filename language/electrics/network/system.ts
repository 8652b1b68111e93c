/** The equations of one network: which unknowns there are, and what each branch stamps into the matrix. */
import type { ElementId } from '../../circuit/model.js';
import { type Admittance, type Entries, type Equations, filled, rootOf } from '../../numerics/index.js';
import { coupledPairs } from './coupling.js';
import type { Network } from './network.js';
import { connected, dropDeadEnds, hasOwnCurve, keptNodes, seriesBranches } from './reach.js';
import type { Curve } from './curves.js';
import type { CoilSource } from './placed-curves.js';
import { type BranchCurrent, createStamps } from './stamps.js';

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
  readonly admittances: readonly Admittance[];
  readonly curves: readonly Curve[];
  /** Where the EMF of each coil acts that is no branch current. */
  readonly sources: readonly CoilSource[];
  readonly currents: readonly BranchCurrent[];
}

/** The unknown of a node; −1 for a reference or a node outside the system. */
export function unknownAt({ unknownOf }: Pick<System, 'unknownOf'>, node: number): number {
  return unknownOf[node] ?? -1;
}

/** The system as numbers alone, without the circuit that it comes from. */
export function equationsOf({ size, isReciprocal, entries, admittances, curves, currents }: System): Equations {
  return {
    size,
    isSymmetric: isReciprocal,
    entries,
    admittances,
    late: new Set(currents.map(({ unknown }) => unknown)),
    evaluate(omega, rows, row) {
      let at = row;
      for (const curve of curves) {
        curve.evaluate(omega, rows, at, row);
        at += curve.rows;
      }
    },
  };
}

/**
 * Equations of everything that is connected to one of `roots` (nodes; the first is the reference where it belongs to a piece).
 * Each separate piece gets a separate reference, so that nothing floats. `coupling` false leaves the mutual inductance of pickups out.
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
  network.circuit.analysis.work?.charge('equation', network.count + network.branches.length);
  const { apart } = options;
  const coupled = coupledPairs(network.circuit);
  const pairs = (options.coupling ?? true) ? coupled : coupled.filter(({ first }) => first.kind !== 'coil');
  const within = connected(network, roots, pairs, options.beyond ?? true);
  const keep = keptNodes(network, [...roots, ...(options.keep ?? [])], pairs);
  dropDeadEnds(network, within.inside, keep);
  for (const { branch, from, to } of network.branches) if (apart?.has(branch.element) === true) keep[from] = keep[to] = 1;
  const { series, passed } = seriesBranches(network, within.inside, keep);
  const { unknownOf, nodeOf } = numberUnknowns(network.count, roots, within, passed);
  const stamps = createStamps(network.circuit, nodeOf.length, pairs);
  const unknown = (node: number): number => unknownOf[node] ?? -1;
  for (const { from, to, branch, ohm, elastance } of series) {
    if (branch !== undefined && apart?.has(branch.element) === true) continue;
    if (branch !== undefined && hasOwnCurve(branch)) stamps.winding(branch, unknown(from), unknown(to));
    else stamps.passive(unknown(from), unknown(to), ohm, elastance);
  }
  stamps.couple();
  const stages = network.stages.filter(({ output, input }) => within.inside[output] === 1 || within.inside[input] === 1);
  for (const { gain, input, reference, output, minus, sections } of stages) {
    stamps.stage({
      input: unknown(input),
      reference: unknown(reference),
      output: unknown(output),
      minus: unknown(minus),
      gain: gain.gain,
      ohm: gain.outputResistance.value,
      sections,
    });
  }
  while (nodeOf.length < stamps.size()) nodeOf.push(-1);
  const { entries, admittances, curves, sources, currents } = stamps;
  const isReciprocal = stages.length === 0;
  return {
    network,
    size: nodeOf.length,
    unknownOf,
    nodeOf,
    within: within.inside,
    isReciprocal,
    entries,
    admittances,
    curves,
    sources,
    currents,
  };
}

/** Numbers the nodes that are unknown; the first root of each piece, or else its first node, is its reference. */
function numberUnknowns(
  count: number,
  roots: readonly number[],
  { pieces, inside }: ReturnType<typeof connected>,
  passed: readonly number[],
): { readonly unknownOf: readonly number[]; readonly nodeOf: number[] } {
  const unknownOf = filled(count, -1);
  const nodeOf: number[] = [];
  const references = new Set<number>();
  const referenced = new Set<number>();
  const claim = (node: number): void => {
    const piece = rootOf(pieces, node);
    if (referenced.has(piece)) return;
    referenced.add(piece);
    references.add(node);
  };
  for (const root of roots) claim(root);
  for (let node = 0; node < count; node++) {
    if (inside[node] === 0 || passed[node] === 1) continue;
    claim(node);
    if (references.has(node)) continue;
    unknownOf[node] = nodeOf.length;
    nodeOf.push(node);
  }
  return { unknownOf, nodeOf };
}
