/** The factors of a symmetric system at a few frequencies, kept so that some resistances can be changed and only what they reach is eliminated again. */
import { createFronts, createRows, type Fronts, type Rows } from '../../numerics/index.js';
import type { System } from '../network/system.js';
import { addBlock, addReal, eliminates, follow, grounded, leave, ownRows } from './front-rows.js';

/** A resistance between two unknowns (−1 is the reference) that may change; of nothing, it joins them. */
export interface Changeable {
  readonly of: number;
  readonly a: number;
  readonly b: number;
  readonly ohm: number;
}

export interface Factors {
  readonly fronts: Fronts;
  /** The adjoint solution for one volt read at the output, with every resistance at its first value. `undefined` where a pivot is too small to keep the figures. */
  readonly first?: Rows;
  /** The solution with some of the resistances changed. */
  solve(changed: readonly Changeable[]): Changed | undefined;
}

/** A solution beside the first one. The arrays are used again by the next. */
export interface Changed {
  /** Value `step * width + f` for the steps of `path` and `anew`. */
  readonly x: Rows;
  /** Steps that were eliminated again, in order; the last one, at the output, among them. */
  readonly path: readonly number[];
  /** Subtrees, by their last step, that hang on one step of the path alone: all in them is the first solution times what that step is against the first. */
  readonly scaled: readonly number[];
  /** Subtrees that were solved anew. */
  readonly anew: readonly number[];
}

/** Below this share of the first solution's largest value a step is too small to scale by. */
const scalable = 1e-9;

/** Factors a system with its changeable resistances at their first values; `last` is the unknown at the output. */
export function createFactors(system: System, resistances: readonly Changeable[], last: number, omega: Float64Array): Factors {
  const { work } = system.network.circuit;
  work?.charge('plan', system.size ** 2);
  const width = omega.length;
  const { rows, columns } = system.entries;
  const fronts = createFronts(
    system.size,
    [
      ...rows.map((row, i) => [row, columns[i]!] as const),
      ...system.windings.map(({ from, to }) => [from, to] as const),
      ...resistances.map(({ a, b }) => [a, b] as const),
    ],
    last,
  );
  const { size, stepOf, rest, children, first: begin, places, parent } = fronts;
  const own = ownRows(system, fronts, omega);
  const [rowAt, rowsInAll] = offsets(rest, (steps) => steps.length);
  const [blockAt, blocksInAll] = offsets(rest, (steps) => steps.length ** 2);
  // What a step found with every resistance at its first value, and what it finds on a path that is done again.
  const first = { multipliers: createRows(rowsInAll * width), blocks: createRows(blocksInAll * width) };
  const again = { multipliers: createRows(rowsInAll * width), blocks: createRows(blocksInAll * width) };
  const largest = Math.max(0, ...rest.map((steps) => steps.length)) + 1;
  const front = createRows(largest * largest * width);
  const x = createRows((size + 1) * width);
  const halves = resistances.map(({ of, a, b, ohm }) => {
    const ends = [a, b].map((unknown) => (unknown < 0 ? size : stepOf[unknown]!)) as [number, number];
    const [early, late] = [Math.min(...ends), Math.max(...ends)];
    return { of, ohm, early, late, place: late === size ? 0 : rest[early]!.indexOf(late) + 1 };
  });
  const indexOf = new Map(halves.map(({ of }, i) => [of, i]));
  const halvesAt: number[][] = Array.from({ length: size }, () => []);
  halves.forEach(({ early, late }, i) => [early, late].forEach((step) => step < size && halvesAt[step]!.push(i)));
  const ohms = Float64Array.from(halves, ({ ohm }) => ohm);
  const onPath = new Uint8Array(size);
  /** Joins that a step hands on to a later one, by the one that receives; kept of the first factors. */
  const handed: { readonly by: number; readonly to: number }[][] = Array.from({ length: size }, () => []);

  /** Which later step, or the reference (`size`), a step joins; −1 where it stands for itself. What else it is joined to is handed on. */
  const joinOf = (step: number, inherited: readonly number[], hand: (to: number, other: number) => void): number => {
    let to = -1;
    // On the reference, all that is joined stands on the reference; else the earliest of the later ones takes it over.
    const join = (other: number): void => {
      if (to < 0 || other === to) to = other;
      else {
        hand(Math.min(to, other), Math.max(to, other));
        if (other === size || (to !== size && other < to)) to = other;
      }
    };
    for (const other of inherited) join(other);
    for (const i of halvesAt[step]!) if (ohms[i] === 0 && halves[i]!.early === step) join(halves[i]!.late);
    return to;
  };

  /** Builds the front of a step and eliminates it into `out`; false where the pivot is too small. */
  const eliminate = (step: number, joins: number, out: typeof first): boolean => {
    const m = rest[step]!.length;
    const side = m + 1;
    work?.charge('entry', side * side * width);
    front.re.fill(0, 0, side * side * width);
    front.im.fill(0, 0, side * side * width);
    front.re.set(own.re.subarray(own.at[step]! * width, (own.at[step]! + side) * width));
    front.im.set(own.im.subarray(own.at[step]! * width, (own.at[step]! + side) * width));
    for (const i of halvesAt[step]!) {
      if (ohms[i] === 0) continue;
      const siemens = 1 / ohms[i]!;
      addReal(front, 0, siemens, width);
      const { early, place } = halves[i]!;
      if (early === step && place > 0) addReal(front, place, -siemens, width);
    }
    for (const child of children[step]!) {
      addBlock(front, side, (onPath[child] === 1 ? again : first).blocks, blockAt[child]! * width, places[child]!, width);
    }
    const kind = joins < 0 ? eliminates : joins === size ? grounded : rest[step]!.indexOf(joins) + 1;
    return leave(front, side, kind, out.multipliers, rowAt[step]! * width, out.blocks, blockAt[step]! * width, width);
  };

  let rootJoins = -1;
  let isSound = true;
  for (let step = 0; step < size; step++) {
    const joins = joinOf(
      step,
      handed[step]!.map(({ to }) => to),
      (to, other) => handed[to]!.push({ by: step, to: other }),
    );
    if (!eliminate(step, joins, first)) isSound = false;
    rootJoins = joins;
  }
  const passed: number[][] = Array.from({ length: size }, () => []);

  const backward = (from: number, to: number): void => {
    work?.charge('entry', (from - to + 1) * width);
    for (let step = from; step >= to; step--) {
      const { multipliers } = onPath[step] === 1 ? again : first;
      follow(x, step, rest[step]!, multipliers, rowAt[step]! * width, width);
    }
  };
  /** The last unknown of all: one volt at the output, or nothing where it stands on the reference. */
  const top = (pivot: Rows, isSilent: boolean): void => {
    for (let f = 0; f < width; f++) {
      const [p, q] = [pivot.re[f]!, pivot.im[f]!];
      const share = isSilent ? 0 : 1 / (p * p + q * q);
      x.re[(size - 1) * width + f] = isSilent ? 0 : p * share;
      x.im[(size - 1) * width + f] = isSilent ? 0 : -q * share;
    }
  };
  top(front, rootJoins >= 0);
  backward(size - 2, 0);
  const start: Rows = { re: x.re.slice(), im: x.im.slice() };
  const smallestOf = Float64Array.from({ length: width }, (_, f) => {
    let most = 0;
    for (let at = f; at < size * width; at += width) most = Math.max(most, start.re[at]! ** 2 + start.im[at]! ** 2);
    return most * scalable * scalable;
  });
  const canScale = (step: number): boolean =>
    smallestOf.every((least, f) => start.re[step * width + f]! ** 2 + start.im[step * width + f]! ** 2 > least);

  return {
    fronts,
    ...(isSound ? { first: start } : {}),
    solve(changed) {
      if (!isSound) return undefined;
      const path: number[] = [];
      const touch = (from: number): void => {
        for (let step = from; step >= 0 && step < size && onPath[step] === 0; step = parent[step]!) {
          onPath[step] = 1;
          path.push(step);
        }
      };
      touch(size - 1);
      for (const { of, ohm } of changed) {
        const i = indexOf.get(of)!;
        ohms[i] = ohm;
        touch(halves[i]!.early);
        touch(halves[i]!.late);
      }
      path.sort((a, b) => a - b);
      let isDone = true;
      for (const step of path) {
        const inherited = passed[step]!;
        for (const { by, to } of handed[step]!) if (onPath[by] === 0) inherited.push(to);
        const joins = joinOf(step, inherited, (to, other) => passed[to]!.push(other));
        isDone &&= eliminate(step, joins, again);
        if (step === size - 1) top(front, joins >= 0);
      }
      const scaled: number[] = [];
      const anew: number[] = [];
      for (let i = path.length - 1; i >= 0; i--) {
        const step = path[i]!;
        if (step < size - 1) backward(step, step);
        const scales = canScale(step);
        for (const child of children[step]!) {
          if (onPath[child] === 1) continue;
          if (scales && rest[child]!.length === 1) scaled.push(child);
          else anew.push(child);
        }
      }
      for (const child of anew) backward(child, begin[child]!);
      for (const step of path) {
        onPath[step] = 0;
        passed[step]!.length = 0;
      }
      for (const { of } of changed) ohms[indexOf.get(of)!] = halves[indexOf.get(of)!]!.ohm;
      return isDone ? { x, path, scaled, anew } : undefined;
    },
  };
}

/** Where each of several runs begins, and how long all of them are. */
function offsets<T>(of: readonly T[], length: (one: T) => number): readonly [Int32Array, number] {
  const at = new Int32Array(of.length);
  let sum = 0;
  of.forEach((one, i) => {
    at[i] = sum;
    sum += length(one);
  });
  return [at, sum];
}
