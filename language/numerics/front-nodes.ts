/** The fronts of an elimination with their rows, and the changeable resistances at them. */
import type { Equations } from './equations.js';
import type { FrontRows } from './front-rows.js';
import type { Front, Fronts } from './fronts.js';

/** A resistance between two unknowns (−1 is the reference) that may change; one of zero joins them. */
export interface Changeable {
  /** Its number, by which it is found again. */
  readonly of: number;
  readonly a: number;
  readonly b: number;
  readonly ohm: number;
}

/** A changeable resistance between two nodes. */
export interface Resistance {
  /** Now, and at first. */
  ohm: number;
  readonly firstOhm: number;
  /** Its ends in the order of elimination; the reference is later than all. */
  readonly early: Node;
  readonly late: Node;
  /** The place of the later end in the front of the earlier one; 0 for the reference. */
  readonly place: number;
}

/** One front with its rows. */
export interface Node {
  readonly front: Front;
  readonly rest: readonly Node[];
  readonly parent: Node | undefined;
  readonly children: readonly Node[];
  /** What the equations themselves have in its first row, a row each from this one on. */
  readonly own: number;
  /** What it leaves with every resistance at its first value, and on a path that is done again. */
  readonly first: FrontRows;
  readonly again: FrontRows;
  readonly resistances: Resistance[];
  /** Joins that an earlier front hands on to this one in the first elimination, and those of the current one. */
  readonly handed: { readonly by: Node; readonly to: Node }[];
  readonly passed: Node[];
  /** True while the front is eliminated again. */
  isOnPath: boolean;
}

/** First rows of what an elimination works with. */
export interface Nodes {
  /** In the order of elimination. */
  readonly order: readonly Node[];
  /** What joins the reference joins this; it is in no order, and later than all. */
  readonly reference: Node;
  readonly resistances: ReadonlyMap<number, Resistance>;
  /** The unknowns by step, and those of the first solution; the reference after them. */
  readonly x: number;
  readonly start: number;
  readonly admittances: number;
  /** A row to work in. */
  readonly scratch: number;
  /** Rows in all. */
  readonly count: number;
}

export function createNodes(fronts: Fronts, equations: Equations, changeable: readonly Changeable[]): Nodes {
  const { size, admittances } = equations;
  let count = 0;
  const reserve = (rows: number): number => {
    count += rows;
    return count - rows;
  };
  const sides = fronts.order.map(({ rest }) => rest.length + 1);
  const common = { front: reserve(Math.max(1, ...sides) ** 2), scratch: reserve(1) };
  const rowsOf = (side: number): FrontRows => ({
    ...common,
    side,
    multipliers: reserve(side - 1),
    block: reserve((side - 1) ** 2),
  });
  const reference = createNode({ ...rootFront, step: size }, -1, rowsOf(1), rowsOf(1));
  const order = fronts.order.map((front) => {
    const side = front.rest.length + 1;
    return createNode(front, reserve(side), rowsOf(side), rowsOf(side));
  });
  const nodeOf = new Map(order.map((node) => [node.front, node]));
  for (const node of order) {
    for (const later of node.front.rest) node.rest.push(nodeOf.get(later) ?? reference);
    for (const child of node.front.children) node.children.push(nodeOf.get(child) ?? reference);
    node.parent = node.rest[0];
  }
  const nodeAt = (unknown: number): Node => {
    const front = fronts.of[unknown];
    return (front === undefined ? undefined : nodeOf.get(front)) ?? reference;
  };
  return {
    order,
    reference,
    resistances: new Map(changeable.map((one) => [one.of, placeResistance(one, nodeAt(one.a), nodeAt(one.b), reference)])),
    x: reserve(size + 1),
    start: reserve(size + 1),
    admittances: reserve(admittances.length),
    scratch: common.scratch,
    count,
  };
}

const rootFront: Front = { unknown: -1, step: -1, rest: [], parent: undefined, children: [], first: -1, places: [] };

/** A node whose neighbours are not known yet. */
interface Growing extends Node {
  readonly rest: Node[];
  parent: Node | undefined;
  readonly children: Node[];
}

function createNode(front: Front, own: number, first: FrontRows, again: FrontRows): Growing {
  const empty = { rest: [], parent: undefined, children: [], resistances: [], handed: [], passed: [] };
  return { front, own, first, again, ...empty, isOnPath: false };
}

function placeResistance({ ohm }: Changeable, a: Node, b: Node, reference: Node): Resistance {
  const [early, late] = a.front.step < b.front.step ? [a, b] : [b, a];
  const resistance = { ohm, firstOhm: ohm, early, late, place: late === reference ? 0 : early.rest.indexOf(late) + 1 };
  early.resistances.push(resistance);
  if (late !== reference) late.resistances.push(resistance);
  return resistance;
}
