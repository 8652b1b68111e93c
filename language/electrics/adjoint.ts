/** Solves a system for a unit at its output, at one frequency or many, and checks what it found. */
import { solveDense } from './dense.js';
import { createPlan, factor, substitute, type Plan } from './elimination.js';
import { netLabel } from './nets.js';
import type { System } from './system.js';

/** Frequencies worked on at a time: enough to make each step a long run, few enough to stay in the processor's cache. */
const block = 64;
/** Systems up to this size are solved directly when only a frequency or two is asked for; planning would cost more. */
const directly = 24;
/** Largest backward error that passes: each equation may be off by this share of its own terms. */
const tolerance = 1e-10;

/** x by unknown: `re[u * count + f]` at frequency `f` of the block that was asked for. */
export interface Solution {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly count: number;
  /** What could not be solved at some frequency, naming the net; x is nothing there. */
  readonly problem?: string;
}

export interface Adjoint {
  /** At up to `blockSize` angular frequencies; the arrays are used again by the next call. */
  solve(omega: ArrayLike<number>): Solution;
  readonly blockSize: number;
}

/** The adjoint solution for one volt read between two unknowns (−1 is the reference). */
export function createAdjoint(system: System, plus: number, minus: number): Adjoint {
  let plan: Plan | undefined;
  const works = new Map<number, Work>();
  let asked = 0;
  return {
    blockSize: block,
    solve(omega) {
      asked += omega.length;
      if (plan === undefined && system.size <= directly && asked <= 2) return solveEach(system, plus, minus, omega);
      plan ??= createPlan(system, plus >= 0 ? plus : minus);
      let work = works.get(omega.length);
      if (work === undefined) works.set(omega.length, (work = createWork(system, plan, omega.length)));
      return solvePlanned(system, plan, work, plus, minus, omega);
    },
  };
}

interface Work {
  readonly count: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly keptRe: Float64Array;
  readonly keptIm: Float64Array;
  readonly inverse: { readonly re: Float64Array; readonly im: Float64Array };
  readonly x: { readonly re: Float64Array; readonly im: Float64Array };
  readonly off: {
    readonly re: Float64Array;
    readonly im: Float64Array;
    readonly terms: Float64Array;
    readonly worst: Float64Array;
  };
  /** Per value: its real part, and the part that is multiplied by jω. */
  readonly real: Float64Array;
  readonly slope: Float64Array;
}

function createWork(system: System, plan: Plan, count: number): Work {
  const array = (length: number): Float64Array => new Float64Array(length * count);
  const pair = (length: number): { re: Float64Array; im: Float64Array } => ({ re: array(length), im: array(length) });
  const real = new Float64Array(plan.values);
  const slope = new Float64Array(plan.values);
  for (let i = 0; i < plan.entry.length; i++) {
    const at = plan.entry[i]!;
    real[at] = real[at]! + system.entries.real[i]!;
    slope[at] = slope[at]! + system.entries.slope[i]!;
  }
  const kept = pair(plan.own);
  return {
    count,
    ...pair(plan.values),
    keptRe: kept.re,
    keptIm: kept.im,
    inverse: pair(plan.size),
    x: pair(plan.size),
    off: { ...pair(1), terms: array(1), worst: array(1) },
    real,
    slope,
  };
}

function solvePlanned(system: System, plan: Plan, work: Work, plus: number, minus: number, omega: ArrayLike<number>): Solution {
  const { count, re, im, x, inverse } = work;
  stamp(system, plan, work, omega);
  work.keptRe.set(re.subarray(0, work.keptRe.length));
  work.keptIm.set(im.subarray(0, work.keptIm.length));
  factor(plan, re, im, inverse, count);
  x.re.fill(0);
  x.im.fill(0);
  let from = plan.size;
  if (plus >= 0) x.re.fill(1, plus * count, (plus + 1) * count);
  if (minus >= 0) x.re.fill(-1, minus * count, (minus + 1) * count);
  for (const unknown of [plus, minus]) if (unknown >= 0) from = Math.min(from, plan.order.indexOf(unknown));
  substitute(plan, re, im, inverse, x, from, count);
  checkResidual(plan, work, plus, minus);
  let problem: string | undefined;
  for (let f = 0; f < count; f++) {
    if (work.off.worst[f]! <= tolerance) continue;
    const one = solveEach(system, plus, minus, [omega[f]!]);
    problem ??= one.problem;
    for (let u = 0; u < plan.size; u++) {
      x.re[u * count + f] = one.re[u]!;
      x.im[u * count + f] = one.im[u]!;
    }
  }
  return { re: x.re, im: x.im, count, ...(problem === undefined ? {} : { problem }) };
}

function stamp(system: System, plan: Plan, work: Work, omega: ArrayLike<number>): void {
  const { count, re, im } = work;
  for (let v = 0; v < plan.values; v++) {
    re.fill(work.real[v]!, v * count, (v + 1) * count);
    const slope = work.slope[v]!;
    if (slope === 0) im.fill(0, v * count, (v + 1) * count);
    else for (let f = 0; f < count; f++) im[v * count + f] = slope * omega[f]!;
  }
  for (let w = 0; w < system.windings.length; w++) {
    const { ohm, henry, loss } = system.windings[w]!;
    const [a, b, ab, ba] = plan.winding.subarray(w * 4, w * 4 + 4) as unknown as [number, number, number, number];
    for (let f = 0; f < count; f++) {
      let r = ohm;
      let x = omega[f]! * henry;
      if (loss !== Infinity) {
        // jX ∥ loss = (X²·loss + jX·loss²) / (loss² + X²)
        const share = (x * loss) / (loss * loss + x * x);
        r += share * x;
        x = share * loss;
      }
      const size = 1 / (r * r + x * x);
      const g = r * size;
      const y = -x * size;
      if (a >= 0) add(re, im, a * count + f, g, y);
      if (b >= 0) add(re, im, b * count + f, g, y);
      if (ab >= 0) add(re, im, ab * count + f, -g, -y);
      if (ba >= 0) add(re, im, ba * count + f, -g, -y);
    }
  }
}

function add(re: Float64Array, im: Float64Array, at: number, x: number, y: number): void {
  re[at] = re[at]! + x;
  im[at] = im[at]! + y;
}

/** Componentwise backward error (Oettli and Prager, 1964): the largest |A·x − b| against |A|·|x| + |b|, row by row, into `off.worst`. */
function checkResidual(plan: Plan, work: Work, plus: number, minus: number): void {
  const { count, keptRe, keptIm, x, off } = work;
  off.worst.fill(0);
  for (let row = 0; row < plan.size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    off.re.fill(-b);
    off.im.fill(0);
    off.terms.fill(Math.abs(b));
    for (const v of plan.valuesOfRow[row]!) {
      const at = v * count;
      const column = plan.columns[v]! * count;
      for (let f = 0; f < count; f++) {
        const p = keptRe[at + f]!;
        const q = keptIm[at + f]!;
        const u = x.re[column + f]!;
        const w = x.im[column + f]!;
        off.re[f] = off.re[f]! + p * u - q * w;
        off.im[f] = off.im[f]! + p * w + q * u;
        off.terms[f] = off.terms[f]! + (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
      }
    }
    for (let f = 0; f < count; f++) {
      const error = (Math.abs(off.re[f]!) + Math.abs(off.im[f]!)) / off.terms[f]!;
      // Written so that NaN counts as the worst of all; a row of nothing is right as it stands.
      if (off.terms[f] !== 0 && !(error <= off.worst[f]!)) off.worst[f] = error;
    }
  }
}

/** Frequency by frequency with full pivoting by rows. */
function solveEach(system: System, plus: number, minus: number, omega: ArrayLike<number>): Solution {
  const { size } = system;
  const count = omega.length;
  const outRe = new Float64Array(size * count);
  const outIm = new Float64Array(size * count);
  let problem: string | undefined;
  for (let f = 0; f < count; f++) {
    const re = new Float64Array(size * size);
    const im = new Float64Array(size * size);
    assemble(system, omega[f]!, re, im);
    const bRe = new Float64Array(size);
    const bIm = new Float64Array(size);
    if (plus >= 0) bRe[plus] = 1;
    if (minus >= 0) bRe[minus] = -1;
    const result = solveDense(size, re.slice(), im.slice(), bRe, bIm);
    if (!result.ok) {
      problem ??= unsolvable(system, result.unknown);
      continue;
    }
    const inexact = worstRow(size, re, im, bRe, bIm, plus, minus);
    if (inexact >= 0) {
      problem ??= unsolvable(system, inexact);
      continue;
    }
    for (let u = 0; u < size; u++) {
      outRe[u * count + f] = bRe[u]!;
      outIm[u * count + f] = bIm[u]!;
    }
  }
  return { re: outRe, im: outIm, count, ...(problem === undefined ? {} : { problem }) };
}

function assemble(system: System, omega: number, re: Float64Array, im: Float64Array): void {
  const { size } = system;
  const { rows, columns, real, slope } = system.entries;
  for (let i = 0; i < rows.length; i++) add(re, im, rows[i]! * size + columns[i]!, real[i]!, slope[i]! * omega);
  for (const { from, to, ohm, henry, loss } of system.windings) {
    let r = ohm;
    let x = omega * henry;
    if (loss !== Infinity) {
      const share = (x * loss) / (loss * loss + x * x);
      r += share * x;
      x = share * loss;
    }
    const scale = 1 / (r * r + x * x);
    const g = r * scale;
    const y = -x * scale;
    if (from >= 0) add(re, im, from * size + from, g, y);
    if (to >= 0) add(re, im, to * size + to, g, y);
    if (from < 0 || to < 0) continue;
    add(re, im, from * size + to, -g, -y);
    add(re, im, to * size + from, -g, -y);
  }
}

/** A row whose equation is not met within the tolerance, or −1. */
function worstRow(
  size: number,
  re: Float64Array,
  im: Float64Array,
  xRe: Float64Array,
  xIm: Float64Array,
  plus: number,
  minus: number,
): number {
  for (let row = 0; row < size; row++) {
    const b = row === plus ? 1 : row === minus ? -1 : 0;
    let [offRe, offIm, terms] = [-b, 0, Math.abs(b)];
    for (let column = 0; column < size; column++) {
      const p = re[row * size + column]!;
      const q = im[row * size + column]!;
      const u = xRe[column]!;
      const w = xIm[column]!;
      offRe += p * u - q * w;
      offIm += p * w + q * u;
      terms += (Math.abs(p) + Math.abs(q)) * (Math.abs(u) + Math.abs(w));
    }
    if (!(Math.abs(offRe) + Math.abs(offIm) <= tolerance * terms)) return row;
  }
  return -1;
}

function unsolvable(system: System, unknown: number): string {
  const { network, nodeOf } = system;
  const node = nodeOf[unknown]!;
  if (node < 0) return 'a coil or an amplifier stage without any resistance is shorted, or two of them fight: no solution';
  const names = [...network.nodeOf].flatMap((at, net) => (at === node ? [netLabel(network.circuit, network.nets, net)] : []));
  return `the net of ${names.join(', ')} floats: nothing decides its voltage`;
}
