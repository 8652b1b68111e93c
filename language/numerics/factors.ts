/** The factors of symmetric equations at a few frequencies, kept so that some resistances can be changed and only what they reach is eliminated again. */
import type { Equations } from './equations.js';
import { createElimination, type Elimination } from './front-elimination.js';
import type { Changeable, Node } from './front-nodes.js';
import { createFronts, type Front, type Fronts } from './fronts.js';
import { copyRows, type Rows, squareAt } from './rows.js';

/** A solution beside the first one, in rows that the next one uses again: it is read while it is there. */
export interface Changed {
  /** The unknown of each step of `path` and `anew`, by step from this row on; what is not among these is not there. */
  readonly x: number;
  /** Steps that were eliminated again, in order; the last one, at the output, among them. */
  readonly path: readonly Front[];
  readonly scaled: readonly Scaled[];
  /** Subtrees that were solved anew. */
  readonly anew: readonly Front[];
}

/** Subtrees that hang on one step of the path alone: all in them is the first solution times what that step is against the first. */
export interface Scaled {
  readonly on: Front;
  /** By their last step. */
  readonly subtrees: readonly Front[];
}

export interface Factors {
  readonly fronts: Fronts;
  /** All that is worked with; the rows named here and in `Changed` are rows of it. */
  readonly rows: Rows;
  /** The first row of the admittances, and a row to work in. */
  readonly admittances: number;
  readonly scratch: number;
  /**
   * The adjoint solution for one volt read at the output, with every resistance at its first value: a row for each step, then one of zeros
   * for the reference. `undefined` where a pivot is too small to keep the figures.
   */
  readonly first?: number;
  /** What `read` makes of the solution with some of the resistances changed; `undefined` where a pivot is too small. */
  solve<T>(changed: readonly Changeable[], read: (solution: Changed) => T): T | undefined;
}

/** Below this share of the first solution's largest value a step is too small to scale by. */
const scalable = 1e-9;

/**
 * Factors equations with their changeable resistances at their first values; `last` is the unknown at the output. `charge` gets the
 * entries that are about to be worked out.
 */
export function createFactors(
  equations: Equations,
  resistances: readonly Changeable[],
  last: number,
  omega: Float64Array,
  charge: (entries: number) => void,
): Factors {
  const fronts = createFronts(equations.size, pairsOf(equations, resistances), last);
  const elimination = createElimination(equations, fronts, resistances, omega, charge);
  const { rows, nodes } = elimination;
  const isSound = elimination.eliminateAll();
  copyRows(rows, nodes.start, nodes.x, equations.size + 1);
  const canScale = createScaling(rows, nodes.start, equations.size);
  return {
    fronts,
    rows,
    admittances: nodes.admittances,
    scratch: nodes.scratch,
    ...(isSound ? { first: nodes.start } : {}),
    solve(changed, read) {
      if (!isSound) return undefined;
      const path = elimination.change(changed);
      const isDone = elimination.eliminateAgain(path);
      const { scaled, anew } = substitute(elimination, path, canScale);
      const found = isDone ? read({ x: nodes.x, path: path.map(({ front }) => front), scaled, anew }) : undefined;
      elimination.restore(changed, path);
      return found;
    },
  };
}

/** The pairs of unknowns that something lies between. */
function pairsOf(equations: Equations, resistances: readonly Changeable[]): readonly (readonly [number, number])[] {
  const pairs: (readonly [number, number])[] = [];
  equations.entries.each((row, column) => pairs.push([row, column]));
  for (const { from, to } of equations.admittances) pairs.push([from, to]);
  for (const { a, b } of resistances) pairs.push([a, b]);
  return pairs;
}

/** True for the steps of which the first solution is not so small that its figures are lost. */
function createScaling(rows: Rows, start: number, size: number): (node: Node) => boolean {
  const least = Array.from({ length: rows.width }, (_, f) => {
    let most = 0;
    for (let step = 0; step < size; step++) most = Math.max(most, squareAt(rows, start + step, f));
    return most * scalable * scalable;
  });
  return ({ front }) => least.every((one, f) => squareAt(rows, start + front.step, f) > one);
}

/** Solves the steps of the path from the last one down, and of the subtrees beside it those that do not merely scale. */
function substitute(
  elimination: Elimination,
  path: readonly Node[],
  canScale: (node: Node) => boolean,
): Pick<Changed, 'scaled' | 'anew'> {
  const scaled: Scaled[] = [];
  const anew: Front[] = [];
  for (const node of [...path].reverse()) {
    const { step } = node.front;
    elimination.follow(step, step);
    const subtrees: Front[] = [];
    const scales = canScale(node);
    for (const child of node.children) {
      if (!child.isOnPath) (scales && child.rest.length === 1 ? subtrees : anew).push(child.front);
    }
    if (subtrees.length > 0) scaled.push({ on: node.front, subtrees });
  }
  for (const { step, first } of anew) elimination.follow(step, first);
  return { scaled, anew };
}
