/** Plans the sparse elimination of some equations: in which order, and where every value lies. */
import type { Equations } from './equations.js';
import { createHeap } from './heap.js';

/** An unknown that is still there when a pivot is eliminated and whose equation the pivot touches. */
export interface Neighbour {
  readonly unknown: number;
  /** The value in the neighbour's row and the pivot's column, and its mirror image. */
  readonly lower: number;
  readonly upper: number;
  /** What the elimination changes in the neighbour's row: the value `to` by the pivot's value `upper` in the same column. */
  readonly changes: readonly { readonly to: number; readonly upper: number }[];
}

export interface Step {
  /** The unknown that is eliminated, and the value on its diagonal. */
  readonly pivot: number;
  readonly diagonal: number;
  readonly neighbours: readonly Neighbour[];
}

/** An equation: its unknown, and all its terms. */
export interface Equation {
  readonly unknown: number;
  readonly terms: readonly { readonly value: number; readonly unknown: number }[];
}

/** A value that is more than fill-in: its constant part, and the admittances that it holds. */
export interface Value {
  readonly row: number;
  readonly column: number;
  real: number;
  slope: number;
  readonly admittances: { readonly index: number; readonly sign: 1 | -1 }[];
}

/** Fewest neighbours first, the output last. Values are numbered from 0; those that are more than fill-in come first. */
export interface Plan {
  readonly size: number;
  readonly isSymmetric: boolean;
  /** How many values there are with the fill-in. */
  readonly count: number;
  readonly values: readonly Value[];
  readonly steps: readonly Step[];
  readonly equations: readonly Equation[];
  /** Products that one elimination takes, for each frequency. */
  readonly products: number;
}

/** Plans the elimination of these equations; `last` is eliminated last, so that a unit at the output needs no forward step. */
export function createPlan(equations: Equations, last: number): Plan {
  const { size, isSymmetric } = equations;
  const places = createPlaces(size, isSymmetric);
  const values = valuesOf(equations, places);
  const nodes = neighboursOf(equations, values);
  const steps: Step[] = [];
  const queue = createQueue(nodes, last);
  for (let at = 0; at < size; at++) {
    const node = queue.next();
    steps.push(eliminate(node, places, isSymmetric));
    for (const touched of node.neighbours) queue.put(touched);
  }
  const changes = steps.reduce((sum, { neighbours }) => sum + neighbours.length ** 2, 0);
  const count = places.count();
  return {
    size,
    isSymmetric,
    count,
    values,
    steps,
    equations: equationsOf(size, isSymmetric, values),
    products: count + changes,
  };
}

/** Numbers the places of a matrix as they are asked for; a place and its mirror image have one number where it is symmetric. */
interface Places {
  at(row: number, column: number): number;
  count(): number;
}

function createPlaces(size: number, isSymmetric: boolean): Places {
  // One more than the number, so that nothing means none yet.
  const numbers = new Int32Array(size * size);
  let count = 0;
  return {
    at(row, column) {
      const place = isSymmetric && row > column ? column * size + row : row * size + column;
      const known = numbers[place];
      if (known !== undefined && known > 0) return known - 1;
      numbers[place] = ++count;
      return count - 1;
    },
    count: () => count,
  };
}

function valuesOf({ size, isSymmetric, entries, admittances }: Equations, places: Places): readonly Value[] {
  const values: Value[] = [];
  const valueAt = (row: number, column: number): Value => {
    const number = places.at(row, column);
    return (values[number] ??= isSymmetric && row > column ? createValue(column, row) : createValue(row, column));
  };
  for (let unknown = 0; unknown < size; unknown++) valueAt(unknown, unknown);
  entries.each((row, column, real, slope) => {
    if (isSymmetric && row > column) return;
    const value = valueAt(row, column);
    value.real += real;
    value.slope += slope;
  });
  for (const [index, { from, to }] of admittances.entries()) {
    if (from >= 0) valueAt(from, from).admittances.push({ index, sign: 1 });
    if (to >= 0) valueAt(to, to).admittances.push({ index, sign: 1 });
    if (from < 0 || to < 0) continue;
    valueAt(from, to).admittances.push({ index, sign: -1 });
    if (!isSymmetric) valueAt(to, from).admittances.push({ index, sign: -1 });
  }
  return values;
}

function createValue(row: number, column: number): Value {
  return { row, column, real: 0, slope: 0, admittances: [] };
}

/** An unknown while the order is chosen. */
interface Node {
  readonly unknown: number;
  readonly isLate: boolean;
  isEliminated: boolean;
  neighbours: Node[];
}

function neighboursOf({ size, late }: Equations, values: readonly Value[]): readonly Node[] {
  const nodes = Array.from({ length: size }, (_, unknown): Node => ({
    unknown,
    isLate: late.has(unknown),
    isEliminated: false,
    neighbours: [],
  }));
  for (const { row, column } of values) {
    const [one, other] = [nodes[row], nodes[column]];
    if (one !== undefined && other !== undefined && one !== other) meet(one, other);
  }
  return nodes;
}

function meet(one: Node, other: Node): void {
  if (!one.neighbours.includes(other)) one.neighbours.push(other);
  if (!other.neighbours.includes(one)) other.neighbours.push(one);
}

/** Takes the unknown out; those that it touched touch each other from now on. */
function eliminate(node: Node, places: Places, isSymmetric: boolean): Step {
  const { unknown: pivot, neighbours: left } = node;
  node.isEliminated = true;
  for (const one of left) for (const other of left) if (one !== other) meet(one, other);
  for (const one of left) one.neighbours = one.neighbours.filter((other) => other !== node);
  const neighbours = left.map(({ unknown }, i): Neighbour => ({
    unknown,
    lower: places.at(unknown, pivot),
    upper: places.at(pivot, unknown),
    // Where the matrix is symmetric, the mirror image of an earlier row's change is not made again.
    changes: left
      .slice(isSymmetric ? i : 0)
      .map((other) => ({ to: places.at(unknown, other.unknown), upper: places.at(pivot, other.unknown) })),
  }));
  return { pivot, diagonal: places.at(pivot, pivot), neighbours };
}

/** Gives the unknown with the fewest neighbours, the first of several; one that is late waits for all its neighbours, the last one for all others. */
interface Queue {
  next(): Node;
  /** Puts an unknown in again, whose neighbours have changed. */
  put(node: Node): void;
}

/** Where the neighbours of an unknown have changed since it was put in, only its last place counts. */
function createQueue(nodes: readonly Node[], last: number): Queue {
  const { length } = nodes;
  const heap = createHeap();
  // The weight and the unknown in one number: the weight decides first.
  const keyOf = ({ unknown, isLate, neighbours }: Node): number =>
    (unknown === last ? 2 * length : neighbours.length + (isLate ? length : 0)) * length + unknown;
  for (const node of nodes) heap.put(keyOf(node));
  return {
    put: (node) => heap.put(keyOf(node)),
    next() {
      for (let key = heap.take(); key !== undefined; key = heap.take()) {
        const node = nodes[key % length];
        if (node !== undefined && !node.isEliminated && keyOf(node) === key) return node;
      }
      throw new Error('There is no unknown left to eliminate');
    },
  };
}

function equationsOf(size: number, isSymmetric: boolean, values: readonly Value[]): readonly Equation[] {
  const terms = Array.from({ length: size }, (): { value: number; unknown: number }[] => []);
  for (const [value, { row, column }] of values.entries()) {
    terms[row]?.push({ value, unknown: column });
    if (isSymmetric && row !== column) terms[column]?.push({ value, unknown: row });
  }
  return terms.map((own, unknown) => ({ unknown, terms: own }));
}
