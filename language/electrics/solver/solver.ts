/** The signal path of one setting: from every coil to the amplifier, at any frequency. */
import {
  type AnalysedCircuit,
  type Coil,
  derivation,
  derive,
  type Element,
  type ElementId,
  type LugId,
  partById,
} from '../../circuit/model.js';
import { addScaled, createRows, currentThrough, filled, rowOf, type Rows } from '../../numerics/index.js';
import { finished, type Steps } from '../../steps.js';
import type { Nets, Setting } from '../model.js';
import { netLabel, nets } from '../network/nets.js';
import { createNetwork, type Network, nodeOfLug } from '../network/network.js';
import type { CoilSource } from '../network/placed-curves.js';
import { createSystem, type System, unknownAt } from '../network/system.js';
import { createAdjoint, type Solution } from './adjoint.js';

/** Voltage at the amplifier for one volt of each coil, by index into `Solver.coils`. */
export interface Transfers {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly problem?: string;
}

/** Voltage at the amplifier at each frequency, all coils together. */
export interface Sweep {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly problem?: string;
}

export interface Solver {
  /** The circuit's coils, element ids. */
  readonly coils: readonly ElementId[];
  /** What each coil gives to `sweep`: its `output`, with winding × magnet as its sign. */
  readonly weights: readonly number[];
  /** Parts in the signal path with a value that was rejected, by name: with a wrong value put in its place, no figure would mean anything. */
  readonly rejected: readonly string[];
  /** Why nothing reaches the amplifier, with the lugs of the net by name; all transfers are 0 then. Absent where a coil stands in the signal path. */
  readonly problem?: string;
  /** At one frequency in hertz: per coil, for one volt that drives its finish positive against its start. */
  transfers(hz: number): Transfers;
  /** At each of a few frequencies, as `transfers`; the value of coil `i` at frequency `f` lies at `i * hz.length + f`. */
  transfersAt(hz: ArrayLike<number>): Transfers;
  /** At each frequency: all coils together, each with its `output` and with winding × magnet as its sign. */
  sweep(hz: ArrayLike<number>): Sweep;
  /** The same in steps of a block of frequencies each. */
  sweepSteps(hz: ArrayLike<number>): Steps<Sweep>;
}

/**
 * Prepares the signal path of one setting. Modified nodal analysis (Ho, Ruehli and Brennan, 1975) of the adjoint network: one
 * elimination per frequency, planned once, answers for all coils. Every solution is checked by its residual; one that fails is solved
 * again with partial pivoting, and where that finds no pivot the result carries a problem that names the net. Never throws.
 * `coupling: false` leaves the mutual inductance of a pickup's coils out.
 */
export function createSolver(
  circuit: AnalysedCircuit,
  folded: Nets,
  setting: Setting,
  options: { readonly coupling?: boolean } = {},
): Solver {
  return solveNetwork(createNetwork(circuit, folded, setting), options.coupling ?? true);
}

/** A solver that also knows which nodes carry signal. */
export interface NetworkSolver extends Solver {
  /** 1 for each node of the network from which something can reach the output. */
  readonly within: readonly number[];
}

/** As `createSolver`, on a network that is there already. */
export function solveNetwork(network: Network, coupling = true): NetworkSolver {
  const { circuit } = network;
  const { coils, ids, weights } = derive(circuit, sources);
  const without = noSignal(network);
  if (without !== undefined) return silentSolver(network, ids, without);
  const system = createSystem(network, [network.ground, network.tip], { coupling, beyond: false });
  const placed = sourcesOf(system, coils);
  if (placed.every((source) => source === undefined)) return silentSolver(network, ids, unreached(network));
  const adjoint = createAdjoint(system, { plus: unknownAt(system, network.tip), minus: -1 });
  let rejected: readonly string[] | undefined;
  const transfersAt = (hz: ArrayLike<number>): Transfers => {
    const out = createRows(coils.length, hz.length);
    return adjoint.solve(angular(hz), (solution) => {
      for (const [i, source] of placed.entries()) addTransfer(source, 1, solution, out, i);
      return { re: out.re, im: out.im, ...problemOf(solution) };
    });
  };
  function* sweepSteps(hz: ArrayLike<number>): Steps<Sweep> {
    const re = new Float64Array(hz.length);
    const im = new Float64Array(hz.length);
    let problem: string | undefined;
    // Blocks of equal length, so that the last one needs no separate memory.
    const length = Math.ceil(hz.length / Math.ceil(hz.length / adjoint.blockSize));
    const all = angular(hz);
    for (let start = 0; start < hz.length; start += length) {
      const omega = all.subarray(start, start + length);
      const out = createRows(1, omega.length);
      const found = adjoint.solve(omega, (solution) => {
        for (const [i, weight] of weights.entries()) addTransfer(placed[i], weight, solution, out, 0);
        return solution.problem;
      });
      problem ??= found;
      re.set(out.re, start);
      im.set(out.im, start);
      if (start + length < hz.length) yield;
    }
    return { re, im, ...problemOf({ problem }) };
  }
  return {
    coils: ids,
    weights,
    // Few who ask what is heard ask for figures, too.
    get rejected() {
      return (rejected ??= rejectedIn(network, system.within));
    },
    within: system.within,
    transfers: (hz) => transfersAt([hz]),
    transfersAt,
    sweep: (hz) => finished(sweepSteps(hz)),
    sweepSteps,
  };
}

/** The coils, and what each gives; the same for every setting. */
const sources = derivation(['elements', 'values'], ({ elements }) => {
  const coils = elements.filter((element): element is Coil => element.kind === 'coil');
  return {
    coils,
    ids: coils.map(({ id }) => id),
    weights: coils.map((coil) => outputOf(coil) * coil.winding * coil.magnet),
  };
});

/** Two lugs between which a current is driven, or a voltage read. */
type Pair = readonly [LugId, LugId];

/**
 * Voltage between two lugs per ampere driven through two others, in ohms, with the lead and the amplifier connected; with the same
 * pair twice, the impedance that a bridge would read there. `null` where no network joins the two pairs.
 */
export function transferImpedance(
  circuit: AnalysedCircuit,
  setting: Setting,
  through: Pair,
  across: Pair,
  hz: number,
): { readonly re: number; readonly im: number } | null {
  const found = transferImpedances(circuit, setting, through, across, [hz]);
  if (found === null) return null;
  const [re = 0, im = 0] = [found.re[0], found.im[0]];
  return { re, im };
}

/** The same at several frequencies; `null` also where one of them has no solution. */
export function transferImpedances(
  circuit: AnalysedCircuit,
  setting: Setting,
  through: Pair,
  across: Pair,
  hz: ArrayLike<number>,
): { readonly re: Float64Array; readonly im: Float64Array } | null {
  const folded = nets(circuit, setting.positions);
  const network = createNetwork(circuit, folded, setting);
  const [a, b] = [nodeOfLug(network, across[0]), nodeOfLug(network, across[1])];
  const [c, d] = [nodeOfLug(network, through[0]), nodeOfLug(network, through[1])];
  const between = createRows(1, hz.length);
  if (a === b || c === d) return { re: between.re, im: between.im };
  const system = createSystem(network, [b], { keep: [a, c, d] });
  if ([a, c, d].some((at) => system.within[at] === 0)) return null;
  const adjoint = createAdjoint(system, { plus: unknownAt(system, a), minus: unknownAt(system, b) });
  return adjoint.solve(angular(hz), (solution) => {
    if (solution.problem !== undefined) return null;
    addScaled(between, 0, solution.rows, rowOf(solution, unknownAt(system, c)), 1);
    addScaled(between, 0, solution.rows, rowOf(solution, unknownAt(system, d)), -1);
    return { re: between.re, im: between.im };
  });
}

/** A coil's output; an impossible one counts as nothing. */
export function outputOf(coil: Coil): number {
  return coil.output > 0 && coil.output < Infinity ? coil.output : 0;
}

/** Radians a second. A network has no frequency of zero; the limit is taken close to it. */
function angular(hz: ArrayLike<number>): Float64Array {
  const omega = new Float64Array(hz.length);
  for (let f = 0; f < omega.length; f++) {
    const one = hz[f] ?? 0;
    omega[f] = 2 * Math.PI * (one > 1e-6 ? one : 1e-6);
  }
  return omega;
}

function problemOf({ problem }: { readonly problem?: string | undefined }): { readonly problem?: string } {
  return problem === undefined ? {} : { problem };
}

function noSignal(network: Network): string | undefined {
  const { circuit, nets: folded } = network;
  if (circuit.output === undefined) return 'there is no jack, so the instrument has no output';
  if (folded.tip === folded.ground)
    return `the output is shorted: tip and sleeve are one net (${netLabel(circuit, folded, folded.tip)})`;
  if (network.tip === network.ground) return 'the output is shorted: only a part without resistance is between tip and sleeve';
  return undefined;
}

function rejectedIn({ circuit, branches }: Network, within: readonly number[]): readonly string[] {
  const names = branches.flatMap(({ branch, from, to }) => {
    const element = within[from] === 1 && within[to] === 1 ? circuit.elements[branch.element] : undefined;
    return element !== undefined && isRejected(element) ? [partById(circuit, element.part).name] : [];
  });
  return [...new Set(names)];
}

function isRejected(element: Element): boolean {
  return Object.values(element).some((value: unknown) => typeof value === 'object' && value !== null && 'rejected' in value);
}

function unreached({ circuit, nets: folded }: Network): string {
  return `no coil reaches the output: the net of ${netLabel(circuit, folded, folded.tip)} has none`;
}

function silentSolver(network: Network, coils: readonly ElementId[], problem: string): NetworkSolver {
  const nothing = (hz: ArrayLike<number>): Sweep => ({
    re: new Float64Array(hz.length),
    im: new Float64Array(hz.length),
    problem,
  });
  return {
    coils,
    weights: filled(coils.length, 0),
    rejected: [],
    within: filled(network.count, 0),
    problem,
    transfers: () => ({ re: new Float64Array(coils.length), im: new Float64Array(coils.length), problem }),
    transfersAt: (hz) => ({
      re: new Float64Array(coils.length * hz.length),
      im: new Float64Array(coils.length * hz.length),
      problem,
    }),
    sweep: nothing,
    // eslint-disable-next-line require-yield -- there is nothing to solve
    *sweepSteps(hz) {
      return nothing(hz);
    },
  };
}

/** Where a coil's EMF enters the equations: at a branch current, or at admittances between two unknowns each (−1 is the reference). */
type Source = { readonly current: number } | { readonly driven: readonly Omit<CoilSource, 'coil'>[] };

/** By coil; undefined where it is in none of the equations. */
function sourcesOf({ sources, currents }: System, coils: readonly Coil[]): readonly (Source | undefined)[] {
  const found = new Map<number, { readonly driven: CoilSource[] } | { readonly current: number }>();
  for (const source of sources) {
    const before = found.get(source.coil);
    if (before !== undefined && 'driven' in before) before.driven.push(source);
    else found.set(source.coil, { driven: [source] });
  }
  for (const { coil, unknown } of currents) found.set(coil, { current: unknown });
  return coils.map(({ id }) => found.get(id));
}

/** Adds one coil's contribution, times `weight`, to a row of the results. */
function addTransfer(source: Source | undefined, weight: number, solution: Solution, out: Rows, row: number): void {
  if (source === undefined) return;
  if ('current' in source) addScaled(out, row, solution.rows, rowOf(solution, source.current), -weight);
  else {
    // The EMF drives the current y·e into the finish and out of the start; the adjoint says what each ampere brings at the output.
    for (const { admittance, from, to } of source.driven) {
      addScaled(out, row, solution.rows, currentThrough(solution, admittance, from, to), weight);
    }
  }
}
