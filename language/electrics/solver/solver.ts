/** The signal path of one setting: from every coil to the amplifier, at any frequency. */
import type { Circuit, Coil, ElementId, LugId } from '../../circuit/model.js';
import { filled } from '../../numerics/index.js';
import { finished, type Steps } from '../../steps.js';
import type { Nets, Setting } from '../model.js';
import { netLabel, nets } from '../network/nets.js';
import { createNetwork, type Network } from '../network/network.js';
import { createSystem, type System } from '../network/system.js';
import { createAdjoint } from './adjoint.js';
import type { Solution } from './solution.js';

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
 * `coupling: false` leaves the mutual inductance of coupled coils out.
 */
export function createSolver(
  circuit: Circuit,
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
  const coils = circuit.elements.filter((element): element is Coil => element.kind === 'coil');
  const ids = coils.map((coil) => coil.id);
  const without = noSignal(network);
  if (without !== undefined) return silentSolver(network, ids, without);
  const system = createSystem(network, [network.ground, network.tip], { coupling, beyond: false });
  const sources = sourcesOf(system, coils);
  if (sources.every((source) => source.winding < 0 && source.current < 0)) return silentSolver(network, ids, unreached(network));
  const adjoint = createAdjoint(system, system.unknownOf[network.tip]!, -1);
  const weights = coils.map((coil) => outputOf(coil) * coil.winding * coil.magnet);
  const transfersAt = (hz: ArrayLike<number>): Transfers => {
    const omega = Float64Array.from(hz, angular);
    const solution = adjoint.solve(omega);
    const re = new Float64Array(coils.length * omega.length);
    const im = new Float64Array(coils.length * omega.length);
    sources.forEach((source, i) => addTransfer(system, source, 1, solution, re, im, i * omega.length));
    return { re, im, ...(solution.problem === undefined ? {} : { problem: solution.problem }) };
  };
  function* sweepSteps(hz: ArrayLike<number>): Steps<Sweep> {
    const re = new Float64Array(hz.length);
    const im = new Float64Array(hz.length);
    let problem: string | undefined;
    // Blocks of equal length, so that the last one needs no separate memory.
    const length = Math.ceil(hz.length / Math.ceil(hz.length / adjoint.blockSize));
    for (let start = 0; start < hz.length; start += length) {
      const omega = new Float64Array(Math.min(length, hz.length - start));
      for (let f = 0; f < omega.length; f++) omega[f] = angular(hz[start + f]!);
      const solution = adjoint.solve(omega);
      problem ??= solution.problem;
      // The solution's arrays are used again by whatever is solved next, so there is no step before they are read.
      sources.forEach((source, i) => addTransfer(system, source, weights[i]!, solution, re, im, start));
      if (start + length < hz.length) yield;
    }
    return { re, im, ...(problem === undefined ? {} : { problem }) };
  }
  return {
    coils: ids,
    within: system.within,
    transfers: (hz) => transfersAt([hz]),
    transfersAt,
    sweep: (hz) => finished(sweepSteps(hz)),
    sweepSteps,
  };
}

/**
 * Voltage between two lugs per ampere driven through two others, in ohms, with the lead and the amplifier connected; with the same
 * pair twice, the impedance that a bridge would read there. `null` where no network joins the two pairs.
 */
export function transferImpedance(
  circuit: Circuit,
  setting: Setting,
  through: readonly [LugId, LugId],
  across: readonly [LugId, LugId],
  hz: number,
): { readonly re: number; readonly im: number } | null {
  const folded = nets(circuit, setting.positions);
  const network = createNetwork(circuit, folded, setting);
  const node = (lug: LugId): number => network.nodeOf[folded.of[lug]!]!;
  const [a, b, c, d] = [node(across[0]), node(across[1]), node(through[0]), node(through[1])] as const;
  if (a === b || c === d) return { re: 0, im: 0 };
  const system = createSystem(network, [b], { keep: [a, c, d] });
  if ([a, c, d].some((at) => system.within[at] === 0)) return null;
  const unknown = (at: number): number => system.unknownOf[at]!;
  const solution = createAdjoint(system, unknown(a), unknown(b)).solve(Float64Array.of(angular(hz)));
  if (solution.problem !== undefined) return null;
  const value = (part: Float64Array, at: number): number => (unknown(at) < 0 ? 0 : part[unknown(at)]!);
  return { re: value(solution.re, c) - value(solution.re, d), im: value(solution.im, c) - value(solution.im, d) };
}

/** A coil's output; an impossible one counts as nothing. */
export function outputOf(coil: Coil): number {
  return coil.output > 0 && coil.output < Infinity ? coil.output : 0;
}

/** A network has no frequency of nothing; the limit is taken close to it. */
function angular(hz: number): number {
  return 2 * Math.PI * (hz > 1e-6 ? hz : 1e-6);
}

function noSignal(network: Network): string | undefined {
  const { circuit, nets: folded } = network;
  if (circuit.output === undefined) return 'there is no jack: nothing leads out of the instrument';
  if (folded.tip === folded.ground)
    return `the output is shorted: tip and sleeve are one net (${netLabel(circuit, folded, folded.tip)})`;
  if (network.tip === network.ground)
    return 'the output is shorted: nothing but a part without resistance lies between tip and sleeve';
  return undefined;
}

function unreached({ circuit, nets: folded }: Network): string {
  return `no coil reaches the output: the net of ${netLabel(circuit, folded, folded.tip)} joins none`;
}

function silentSolver(network: Network, coils: readonly ElementId[], problem: string): NetworkSolver {
  const nothing = (hz: ArrayLike<number>): Sweep => ({
    re: new Float64Array(hz.length),
    im: new Float64Array(hz.length),
    problem,
  });
  return {
    coils,
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

/** Where a coil's EMF stands in the equations: an index into the windings or the branch currents, −1 where it is in neither. */
interface Source {
  readonly winding: number;
  readonly current: number;
}

function sourcesOf(system: System, coils: readonly Coil[]): readonly Source[] {
  const windingOf = new Map(system.windings.map((winding, i) => [winding.coil, i]));
  const currentOf = new Map(system.currents.map((current, i) => [current.coil, i]));
  return coils.map((coil) => ({ winding: windingOf.get(coil.id) ?? -1, current: currentOf.get(coil.id) ?? -1 }));
}

/** Adds one coil's contribution, times `weight`, to the results from index `at` on. */
function addTransfer(
  system: System,
  source: Source,
  weight: number,
  x: Solution,
  re: Float64Array,
  im: Float64Array,
  at: number,
): void {
  const { count } = x;
  if (source.current >= 0) {
    const from = system.currents[source.current]!.unknown * count;
    for (let f = 0; f < count; f++) {
      re[at + f] = re[at + f]! - weight * x.re[from + f]!;
      im[at + f] = im[at + f]! - weight * x.im[from + f]!;
    }
    return;
  }
  if (source.winding < 0) return;
  const { from, to } = system.windings[source.winding]!;
  const y = source.winding * count;
  // The EMF drives the current y·e into the finish and out of the start; the adjoint says what each ampere brings at the output.
  if (to >= 0 && from >= 0) addDifference(weight, x, y, to * count, from * count, re, im, at);
  else if (to >= 0) addProduct(weight, x, y, to * count, re, im, at);
  else if (from >= 0) addProduct(-weight, x, y, from * count, re, im, at);
}

function addProduct(
  weight: number,
  x: Solution,
  y: number,
  unknown: number,
  re: Float64Array,
  im: Float64Array,
  at: number,
): void {
  const { re: xRe, im: xIm, count } = x;
  const { re: yRe, im: yIm } = x.admittance;
  for (let f = 0; f < count; f++) {
    const p = weight * yRe[y + f]!;
    const q = weight * yIm[y + f]!;
    const u = xRe[unknown + f]!;
    const w = xIm[unknown + f]!;
    re[at + f] = re[at + f]! + (p * u - q * w);
    im[at + f] = im[at + f]! + (p * w + q * u);
  }
}

/** The ends of a coil that floats far from ground are nearly alike, so they are subtracted first. */
function addDifference(
  weight: number,
  x: Solution,
  y: number,
  plus: number,
  minus: number,
  re: Float64Array,
  im: Float64Array,
  at: number,
): void {
  const { re: xRe, im: xIm, count } = x;
  const { re: yRe, im: yIm } = x.admittance;
  for (let f = 0; f < count; f++) {
    const p = weight * yRe[y + f]!;
    const q = weight * yIm[y + f]!;
    const u = xRe[plus + f]! - xRe[minus + f]!;
    const w = xIm[plus + f]! - xIm[minus + f]!;
    re[at + f] = re[at + f]! + (p * u - q * w);
    im[at + f] = im[at + f]! + (p * w + q * u);
  }
}
