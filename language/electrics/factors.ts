/** The factors of a symmetric system at a few frequencies, kept so that some resistances can be changed and only what they reach is eliminated again. */
import { createRows, type Rows } from './block.js';
import { addBlock, addReal, eliminates, follow, grounded, leave, ownRows } from './front-rows.js';
import { createFronts } from './fronts.js';
import type { System } from './system.js';

/** A resistance between two unknowns (−1 is the reference) that may change; of nothing, it joins them. */
export interface Changeable {
  readonly of: number;
  readonly a: number;
  readonly b: number;
  readonly ohm: number;
}

export interface Factors {
  /** Step of each unknown, by which solutions are read: value `step * width + f`. The row after the last step is the reference's, nothing. */
  readonly stepOf: Int32Array;
  /** The adjoint solution for one volt read at the output, with some of the resistances changed. The arrays are used again by the next. `undefined` where a pivot is too small to keep the figures. */
  solve(changed: readonly Changeable[]): Rows | undefined;
}

/** Factors a system with its changeable resistances at their first values; `last` is the unknown at the output. */
export function createFactors(system: System, resistances: readonly Changeable[], last: number, omega: Float64Array): Factors {
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
  const { size, stepOf, rest, children, places, parent } = fronts;
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

  const rootJoins = { first: -1, again: -1 };
  let isSound = true;
  for (let step = 0; step < size; step++) {
    const joins = joinOf(
      step,
      handed[step]!.map(({ to }) => to),
      (to, other) => handed[to]!.push({ by: step, to: other }),
    );
    if (!eliminate(step, joins, first)) isSound = false;
    if (step === size - 1) rootJoins.first = joins;
  }
  const rootPivot = { first: createRows(width), again: createRows(width) };
  rootPivot.first.re.set(front.re.subarray(0, width));
  rootPivot.first.im.set(front.im.subarray(0, width));
  const passed: number[][] = Array.from({ length: size }, () => []);

  return {
    stepOf,
    solve(changed) {
      if (!isSound) return undefined;
      const path: number[] = [];
      for (const { of, ohm } of changed) {
        const i = indexOf.get(of)!;
        ohms[i] = ohm;
        for (const start of [halves[i]!.early, halves[i]!.late]) {
          for (let step = start; step >= 0 && step < size && onPath[step] === 0; step = parent[step]!) {
            onPath[step] = 1;
            path.push(step);
          }
        }
      }
      path.sort((a, b) => a - b);
      let isDone = true;
      for (const step of path) {
        const inherited = passed[step]!;
        for (const { by, to } of handed[step]!) if (onPath[by] === 0) inherited.push(to);
        const joins = joinOf(step, inherited, (to, other) => passed[to]!.push(other));
        isDone &&= eliminate(step, joins, again);
        if (step === size - 1) {
          rootJoins.again = joins;
          rootPivot.again.re.set(front.re.subarray(0, width));
          rootPivot.again.im.set(front.im.subarray(0, width));
        }
      }
      const isRootOnPath = onPath[size - 1] === 1;
      const pivot = isRootOnPath ? rootPivot.again : rootPivot.first;
      const isSilent = (isRootOnPath ? rootJoins.again : rootJoins.first) >= 0;
      for (let f = 0; f < width; f++) {
        const [p, q] = [pivot.re[f]!, pivot.im[f]!];
        const share = isSilent ? 0 : 1 / (p * p + q * q);
        x.re[(size - 1) * width + f] = isSilent ? 0 : p * share;
        x.im[(size - 1) * width + f] = isSilent ? 0 : -q * share;
      }
      for (let step = size - 2; step >= 0; step--) {
        const { multipliers } = onPath[step] === 1 ? again : first;
        follow(x, step, rest[step]!, multipliers, rowAt[step]! * width, width);
      }
      for (const step of path) {
        onPath[step] = 0;
        passed[step]!.length = 0;
      }
      for (const { of } of changed) ohms[indexOf.get(of)!] = halves[indexOf.get(of)!]!.ohm;
      return isDone ? x : undefined;
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
