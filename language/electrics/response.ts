/** The frequency response of one setting, with its peak and corner found between the points. */
import type { AnalysedCircuit } from '../circuit/model.js';
import { magnitude } from '../numerics/index.js';
import type { Response, ResponsePoint, ResponseSummary, Setting } from './model.js';
import { nets } from './network/nets.js';
import { createSolver, type Solver } from './solver/solver.js';
import { finished, type Steps } from '../steps.js';

/** What an ear and an amplifier take in, hertz. */
const lowest = 20;
const highest = 20_000;
/** Points on which peak and corner are looked for: about 66 a decade, closer than the flank of any resonance that a pickup has. */
const gridPoints = 200;
/** Levels are not reported below this. */
const floorDb = -300;
/** Below this (−60 dB of one pickup) at every frequency a setting is silent and has neither peak nor corner. */
const silentDb = -60;
/** A rise above the reference level of less than this is no peak. */
const leastPeak = 0.1;
/** The band whose middle level is the reference, hertz, and the points that it is worked out from. */
const referenceBand = { from: 80, to: 1300, points: 33 };
/** Coils that leave less than this of the sum of what each delivers cancel. */
const cancelledShare = 1 / 20;
/** 10·log₁₀ 2: half the power. */
const halfPower = 10 * Math.log10(2);

/**
 * Level and phase at the amplifier at logarithmic points from `from` to `to` hertz (20 to 20,000, 200 points); 0 dB is the unloaded
 * voltage of one pickup of output 100 %. Peak, corner and level are those of the whole range of 20 Hz to 20 kHz whatever is asked for.
 * `levelDb`, the reference, is the median of the level from 80 Hz to 1.3 kHz on a logarithmic axis. `peak` is the highest point above it, null where it
 * rises less than 0.1 dB; `cutoffHz` the upper frequency where the level is 3.01 dB below it. Where the coils cancel each other all three are null:
 * what is left then comes from the small differences between two real coils, which no text gives.
 */
export function response(circuit: AnalysedCircuit, setting: Setting, options: ResponseOptions = {}): Response {
  return finished(responseSteps(circuit, setting, options));
}

export interface ResponseOptions {
  readonly from?: number;
  readonly to?: number;
  readonly points?: number;
}

/** The same in steps of a few frequencies each. */
export function* responseSteps(circuit: AnalysedCircuit, setting: Setting, options: ResponseOptions = {}): Steps<Response> {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  yield;
  if (solver.rejected.length > 0) return { points: [], ...withoutFigures(solver) };
  const hz = logarithmic(options.from ?? lowest, options.to ?? highest, options.points ?? gridPoints);
  const { re, im } = yield* solver.sweepSteps(hz);
  const points = Array.from(hz, (at, i): ResponsePoint => ({
    hz: at,
    db: decibel(re[i], im[i]),
    deg: (Math.atan2(im[i] ?? 0, re[i] ?? 0) * 180) / Math.PI,
  }));
  return { points, ...(yield* summarySteps(solver)) };
}

/** Peak, corner and level alone. */
export function responseSummary(circuit: AnalysedCircuit, setting: Setting): ResponseSummary {
  return finished(responseSummarySteps(circuit, setting));
}

/** The same in steps of a few frequencies each. */
export function* responseSummarySteps(circuit: AnalysedCircuit, setting: Setting): Steps<ResponseSummary> {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  yield;
  return yield* summarySteps(solver);
}

/** The level of one setting at one frequency, dB; where no `hz` is given the reference `levelDb`, null where the coils cancel. Null too where a value was rejected. */
export function levelAt(circuit: AnalysedCircuit, setting: Setting, hz?: number): number | null {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  if (solver.problem !== undefined) return floorDb;
  if (solver.rejected.length > 0) return null;
  if (hz !== undefined) return levelsOf(solver)(Math.max(hz, 1e-3));
  const { levelDb, cancels } = referenceOf(solver);
  return cancels ? null : levelDb;
}

function levelsOf(solver: Solver): (hz: number) => number {
  return (hz) => {
    const { re, im } = solver.sweep([hz]);
    return decibel(re[0], im[0]);
  };
}

/**
 * Level and corner as version 0.1 counted them: from the level at 20 Hz, or at 1 kHz where bass is cut (20 Hz more than 3 dB below 60 Hz). For telling
 * that a claim held by that count; nothing else goes by it.
 */
export function earlierSummary(circuit: AnalysedCircuit, setting: Setting): Pick<ResponseSummary, 'levelDb' | 'cutoffHz'> {
  const solver = createSolver(circuit, nets(circuit, setting.positions), setting);
  if (solver.problem !== undefined) return { levelDb: null, cutoffHz: null };
  const level = levelsOf(solver);
  const low = level(lowest);
  const levelDb = low < level(60) - 3 ? level(1000) : low;
  const grid = logarithmic(lowest, highest, gridPoints);
  const { re, im } = solver.sweep(grid);
  const levels = Float64Array.from(grid, (_, i) => decibel(re[i], im[i]));
  return { levelDb, cutoffHz: finished(findCorner(grid, levels, level, levelDb)) };
}

interface Reference {
  readonly levelDb: number;
  /** True where what the coils deliver together is less than a twentieth of what each delivers. */
  readonly cancels: boolean;
}

function referenceOf(solver: Solver): Reference {
  const hz = logarithmic(referenceBand.from, referenceBand.to, referenceBand.points);
  const { re, im } = solver.transfersAt(hz);
  const levels: number[] = [];
  const apart: number[] = [];
  for (let f = 0; f < hz.length; f++) {
    let [x, y, sum] = [0, 0, 0];
    for (const [i, weight] of solver.weights.entries()) {
      const at = i * hz.length + f;
      const [own, other] = [weight * (re[at] ?? 0), weight * (im[at] ?? 0)];
      x += own;
      y += other;
      sum += magnitude(own, other);
    }
    levels.push(decibel(x, y));
    apart.push(decibel(sum));
  }
  const levelDb = medianLevel(levels);
  return { levelDb, cancels: levelDb < medianLevel(apart) + 20 * Math.log10(cancelledShare) };
}

/**
 * The level that a curve through these, at even steps and straight between them, is below on half of its length. Unlike the middle one of a few points it
 * moves with every part of the curve that passes it.
 */
function medianLevel(levels: readonly number[]): number {
  let [low, high] = [Math.min(...levels), Math.max(...levels)];
  if (!(high > low)) return low;
  const half = (levels.length - 1) / 2;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    let below = 0;
    for (let i = 1; i < levels.length; i++) below += shareBelow(levels[i - 1] ?? 0, levels[i] ?? 0, middle);
    if (below < half) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Share of a straight line from one level to another that lies below `level`. */
function shareBelow(from: number, to: number, level: number): number {
  const [least, most] = [Math.min(from, to), Math.max(from, to)];
  if (level <= least) return 0;
  return level >= most ? 1 : (level - least) / (most - least);
}

/** As `responseSummary`, on a solver that is there already. */
export function summaryOf(solver: Solver): ResponseSummary {
  return finished(summarySteps(solver));
}

function* summarySteps(solver: Solver): Steps<ResponseSummary> {
  if (solver.problem !== undefined) return { peak: null, cutoffHz: null, levelDb: floorDb, problem: solver.problem };
  if (solver.rejected.length > 0) return withoutFigures(solver);
  const grid = logarithmic(lowest, highest, gridPoints);
  const swept = yield* solver.sweepSteps(grid);
  const levels = Float64Array.from(grid, (_, i) => decibel(swept.re[i], swept.im[i]));
  const level = levelsOf(solver);
  const problem = swept.problem === undefined ? {} : { problem: swept.problem };
  yield;
  const { levelDb: reference, cancels } = referenceOf(solver);
  if (cancels) return { peak: null, cutoffHz: null, levelDb: null, cancels: true, ...problem };
  if (levels.every((at) => at < silentDb)) return { peak: null, cutoffHz: null, levelDb: reference, ...problem };
  const peak = yield* findPeak(grid, levels, level, reference);
  yield;
  return {
    peak,
    cutoffHz: yield* findCorner(grid, levels, level, reference),
    levelDb: reference,
    ...problem,
  };
}

function withoutFigures({ rejected }: Solver): ResponseSummary {
  const [what, verb] = rejected.length === 1 ? ['a value', 'has'] : ['values', 'have'];
  return {
    peak: null,
    cutoffHz: null,
    levelDb: null,
    problem: `${rejected.join(' and ')} ${verb} ${what} that can’t be right, so there are no figures`,
  };
}

/** `count` points from `from` to `to`, evenly on a logarithmic axis. */
export function logarithmic(from: number, to: number, count: number): Float64Array {
  const start = Math.log(Math.max(from, 1e-3));
  const step = count < 2 ? 0 : (Math.log(Math.max(to, 1e-3)) - start) / (count - 1);
  const hz = Float64Array.from({ length: Math.max(0, Math.floor(count)) }, (_, i) => Math.exp(start + i * step));
  // The ends are asked for in round numbers and should be reported so.
  if (count > 0) hz[0] = Math.max(from, 1e-3);
  if (count > 1) hz[hz.length - 1] = Math.max(to, 1e-3);
  return hz;
}

/** Level of a complex voltage in dB. */
export function decibel(re = 0, im = 0): number {
  return Math.max(floorDb, 10 * Math.log10(re * re + im * im));
}

function* findPeak(
  grid: Float64Array,
  levels: Float64Array,
  level: (hz: number) => number,
  reference: number,
): Steps<ResponseSummary['peak']> {
  let top = 0;
  let most = -Infinity;
  for (const [i, own] of levels.entries()) if (own > most) [top, most] = [i, own];
  // A level that still rises at the edge of the range has no peak in it.
  if (top === 0 || top === levels.length - 1) return null;
  const [before = lowest, , after = highest] = grid.subarray(top - 1, top + 2);
  const hz = Math.exp(yield* highestBetween(Math.log(before), Math.log(after), (x) => level(Math.exp(x))));
  const db = level(hz) - reference;
  return db < leastPeak ? null : { hz, db };
}

/** Golden section; a peak is flat at its top, so 1e-6 in the logarithm is as fine as the level can tell. */
function* highestBetween(from: number, to: number, value: (x: number) => number): Steps<number> {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)];
  let [atC, atD] = [value(c), value(d)];
  while (b - a > 1e-6) {
    yield;
    if (atC > atD) {
      [b, d, atD] = [d, c, atC];
      c = b - golden * (b - a);
      atC = value(c);
    } else {
      [a, c, atC] = [c, d, atD];
      d = a + golden * (b - a);
      atD = value(d);
    }
  }
  return (a + b) / 2;
}

/** From above, the first stretch of the grid that crosses half power, halved until it is a millionth wide. */
function* findCorner(
  grid: Float64Array,
  levels: Float64Array,
  level: (hz: number) => number,
  reference: number,
): Steps<number | null> {
  const limit = reference - halfPower;
  // A level that is not a number is on neither side.
  let above = -1;
  for (const [i, own] of levels.entries()) if (!(own < limit)) above = i;
  if (above < 0 || above === levels.length - 1) return null;
  let [a = lowest, b = highest] = grid.subarray(above, above + 2);
  while (b / a - 1 > 1e-6) {
    yield;
    const middle = Math.sqrt(a * b);
    if (level(middle) >= limit) a = middle;
    else b = middle;
  }
  return Math.sqrt(a * b);
}
