/** The elimination in fronts at work: all of them once, and again those that a changed resistance reaches. */
import type { Equations } from './equations.js';
import { type Changeable, createNodes, type Node, type Nodes } from './front-nodes.js';
import { addBlock, addLinear, addReal, eliminateFirst, ground, joinTo } from './front-rows.js';
import type { Fronts } from './fronts.js';
import { addRows, addScaled, copyRows, createRows, fillRows, reciprocal, type Rows, subtractProduct } from './rows.js';

export interface Elimination {
  readonly rows: Rows;
  readonly nodes: Nodes;
  /** Eliminates every front and finds the first solution; false where a pivot is too small. */
  eliminateAll(): boolean;
  /** Sets resistances, and returns the fronts that they reach, in order. */
  change(changed: readonly Changeable[]): readonly Node[];
  /** Eliminates these fronts again and solves the last; false where a pivot is too small. */
  eliminateAgain(path: readonly Node[]): boolean;
  /** The unknowns from this step down to that one, each from those of the later steps. */
  follow(from: number, to: number): void;
  /** Puts everything back as it was before `change`. */
  restore(changed: readonly Changeable[], path: readonly Node[]): void;
}

/** `charge` gets the entries that are about to be worked out. */
export function createElimination(
  equations: Equations,
  fronts: Fronts,
  resistances: readonly Changeable[],
  omega: Float64Array,
  charge: (entries: number) => void,
): Elimination {
  const nodes = createNodes(fronts, equations, resistances);
  const { order, reference, x } = nodes;
  const rows = createRows(nodes.count, omega.length);
  const last = order.at(-1);
  writeOwnRows(equations, fronts, nodes, rows, omega);

  const eliminate = (node: Node, joined: Node | undefined, isAgain: boolean): boolean => {
    const { front, side } = node.first;
    charge(side * side * rows.width);
    if (!isAgain) addUpBundles(rows, node);
    buildFront(rows, node);
    const at = isAgain ? node.again : node.first;
    const isDone = leave(rows, at, joined === undefined ? undefined : placeIn(node, joined, reference));
    // One volt at the output, or none where it is joined to the reference.
    if (node === last && joined === undefined) reciprocal(rows, x + node.front.step, front);
    else if (node === last) fillRows(rows, x + node.front.step, 1, 0);
    return isDone;
  };

  const follow = (from: number, to: number): void => {
    charge((from - to + 1) * rows.width);
    for (let step = from; step >= to; step--) {
      const node = order[step];
      if (node !== undefined && node !== last) solveFor(rows, x, node);
    }
  };

  return {
    rows,
    nodes,
    follow,
    eliminateAll() {
      let isSound = true;
      for (const node of order) {
        const inherited = node.handed.map(({ to }) => to);
        const joined = joinOf(node, inherited, reference, (early, late) => early.handed.push({ by: node, to: late }));
        if (!eliminate(node, joined, false)) isSound = false;
      }
      follow(order.length - 2, 0);
      return isSound;
    },
    change: (changed) => changeResistances(nodes, changed),
    eliminateAgain(path) {
      let isDone = true;
      for (const node of path) {
        for (const { by, to } of node.handed) if (!by.isOnPath) node.passed.push(to);
        const joined = joinOf(node, node.passed, reference, (early, late) => early.passed.push(late));
        isDone &&= eliminate(node, joined, true);
      }
      return isDone;
    },
    restore: (changed, path) => restoreResistances(nodes, changed, path),
  };
}

/** Sets resistances; the fronts that they reach are those from their ends to the root, which is among them in any case. */
function changeResistances({ order, reference, resistances }: Nodes, changed: readonly Changeable[]): readonly Node[] {
  const path: Node[] = [];
  const touch = (from: Node | undefined): void => {
    for (let node = from; node !== undefined && node !== reference && !node.isOnPath; node = node.parent) {
      node.isOnPath = true;
      path.push(node);
    }
  };
  touch(order.at(-1));
  for (const { of, ohm } of changed) {
    const resistance = resistances.get(of);
    if (resistance === undefined) continue;
    resistance.ohm = ohm;
    touch(resistance.early);
    touch(resistance.late);
  }
  return path.sort((a, b) => a.front.step - b.front.step);
}

function restoreResistances({ resistances }: Nodes, changed: readonly Changeable[], path: readonly Node[]): void {
  for (const node of path) {
    node.isOnPath = false;
    node.passed.length = 0;
  }
  for (const { of } of changed) {
    const resistance = resistances.get(of);
    if (resistance !== undefined) resistance.ohm = resistance.firstOhm;
  }
}

/** What the equations themselves have in the first row of each front. */
function writeOwnRows(
  equations: Equations,
  fronts: Fronts,
  { order, admittances }: Nodes,
  rows: Rows,
  omega: Float64Array,
): void {
  /** The row of a value in the front of the earlier of its unknowns; undefined where one is the reference. */
  const rowAt = (one: number, other: number): number | undefined => {
    const [a, b] = [fronts.of[one], fronts.of[other]];
    if (a === undefined || b === undefined) return undefined;
    const [early, late] = a.step < b.step ? [a, b] : [b, a];
    return (order[early.step]?.own ?? 0) + (a === b ? 0 : early.rest.indexOf(late) + 1);
  };
  equations.entries.each((row, column, real, slope) => {
    const [step, other] = [fronts.of[row]?.step ?? -1, fronts.of[column]?.step ?? -1];
    const at = step > other ? undefined : rowAt(row, column);
    if (at !== undefined) addLinear(rows, at, real, slope, omega);
  });
  equations.evaluate(omega, rows, admittances);
  for (const [index, { from, to }] of equations.admittances.entries()) {
    for (const [one, other, sign] of [
      [from, from, 1],
      [to, to, 1],
      [from, to, -1],
    ] as const) {
      const at = rowAt(one, other);
      if (at !== undefined) addScaled(rows, at, rows, admittances + index, sign);
    }
  }
}

/**
 * Which later node, or the reference, a node joins; undefined where it joins none. What else it is joined to is handed on to the
 * earliest of them, but to nothing on the reference: all that joins it is on the reference then.
 */
function joinOf(
  node: Node,
  inherited: readonly Node[],
  reference: Node,
  hand: (early: Node, late: Node) => void,
): Node | undefined {
  let joined: Node | undefined;
  const join = (other: Node): void => {
    if (joined === undefined || other === joined) {
      joined = other;
      return;
    }
    const [early, late] = joined.front.step < other.front.step ? [joined, other] : [other, joined];
    hand(early, late);
    joined = late === reference ? late : early;
  };
  for (const other of inherited) join(other);
  for (const { ohm, early, late } of node.resistances) if (ohm === 0 && early === node) join(late);
  return joined;
}

/** The place of a node in the front of another one; 0 for the reference. */
function placeIn(node: Node, joined: Node, reference: Node): number {
  return joined === reference ? 0 : node.rest.indexOf(joined) + 1;
}

/** What the equations, the resistances and the children have in a front. */
function buildFront(rows: Rows, node: Node): void {
  const { front, side } = node.first;
  fillRows(rows, front, side * side, 0);
  copyRows(rows, front, node.own, side);
  for (const { ohm, early, place } of node.resistances) {
    if (ohm === 0) continue;
    addReal(rows, front, 1 / ohm);
    if (early === node && place > 0) addReal(rows, front + place, -1 / ohm);
  }
  if (node.bundles.length === 0) addChildren(rows, node, front, node.children);
  for (const { children, sum } of node.bundles) {
    if (children.some(({ isOnPath }) => isOnPath)) addChildren(rows, node, front, children);
    else addRows(rows, front, sum, side * side);
  }
}

/** What the children in each bundle leave in the front of their node. */
function addUpBundles(rows: Rows, node: Node): void {
  for (const { children, sum } of node.bundles) {
    fillRows(rows, sum, node.first.side ** 2, 0);
    addChildren(rows, node, sum, children);
  }
}

/** Adds what children of a node leave, to rows that are laid out as its front. */
function addChildren(rows: Rows, node: Node, to: number, children: readonly Node[]): void {
  for (const child of children) {
    addBlock(rows, to, node.first.side, (child.isOnPath ? child.again : child.first).block, child.front.places);
  }
}

/** Leaves out the front's own unknown, which joins the place given, the reference (0), or none. */
function leave(rows: Rows, at: Node['first'], place: number | undefined): boolean {
  if (place === undefined) return eliminateFirst(rows, at);
  if (place === 0) ground(rows, at);
  else joinTo(rows, at, place);
  return true;
}

/** The unknown of a front from those of the later ones. */
function solveFor(rows: Rows, x: number, { front, rest, first, again, isOnPath }: Node): void {
  const { multipliers } = isOnPath ? again : first;
  fillRows(rows, x + front.step, 1, 0);
  let row = multipliers;
  for (const later of rest) subtractProduct(rows, x + front.step, row++, x + later.front.step);
}
