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
  /** Its children in bundles, where it has many: what a bundle leaves together is added at once where none of it is done again. */
  readonly bundles: readonly Bundle[];
  readonly resistances: Resistance[];
  /** Joins that an earlier front hands on to this one in the first elimination, and those of the current one. */
  readonly handed: { readonly by: Node; readonly to: Node }[];
  readonly passed: Node[];
  /** True while the front is eliminated again. */
  isOnPath: boolean;
}

/** Children of one node, and the first row of what they leave together in its front, with every resistance at its first value. */
export interface Bundle {
  readonly children: readonly Node[];
  readonly sum: number;
}

/** Fewer children are added one by one. */
const fewest = 16;

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
  const widest = sides.reduce((most, side) => Math.max(most, side), 1);
  const front = reserve(widest ** 2);
  const scratch = reserve(1);
  const rowsOf = (side: number): FrontRows => {
    const multipliers = reserve(side - 1);
    return { front, side, multipliers, block: reserve((side - 1) ** 2), scratch };
  };
  const reference = createNode({ ...rootFront, step: size }, -1, rowsOf(1), rowsOf(1));
  const order = fronts.order.map((one) => {
    const side = one.rest.length + 1;
    return createNode(one, reserve(side), rowsOf(side), rowsOf(side));
  });
  const nodeOf = new Map(order.map((node) => [node.front, node]));
  for (const node of order) {
    for (const later of node.front.rest) node.rest.push(nodeOf.get(later) ?? reference);
    for (const child of node.front.children) node.children.push(nodeOf.get(child) ?? reference);
    node.parent = node.rest[0];
    node.bundles = bundle(node.children, () => reserve(node.first.side ** 2));
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
    scratch,
    count,
  };
}

const rootFront: Front = { unknown: -1, step: -1, rest: [], parent: undefined, children: [], first: -1, places: [] };

/** A node whose neighbours are not known yet. */
interface Growing extends Node {
  readonly rest: Node[];
  parent: Node | undefined;
  readonly children: Node[];
  bundles: readonly Bundle[];
}

/** As many bundles as each has children, nearly: a change in one child then costs the least. */
function bundle(children: readonly Node[], reserve: () => number): readonly Bundle[] {
  if (children.length < fewest) return [];
  const length = Math.ceil(Math.sqrt(children.length));
  const bundles: Bundle[] = [];
  for (let at = 0; at < children.length; at += length)
    bundles.push({ children: children.slice(at, at + length), sum: reserve() });
  return bundles;
}

function createNode(front: Front, own: number, first: FrontRows, again: FrontRows): Growing {
  return {
    front,
    own,
    first,
    again,
    rest: [],
    parent: undefined,
    children: [],
    bundles: [],
    resistances: [],
    handed: [],
    passed: [],
    isOnPath: false,
  };
}

function placeResistance({ ohm }: Changeable, a: Node, b: Node, reference: Node): Resistance {
  const [early, late] = a.front.step < b.front.step ? [a, b] : [b, a];
  const resistance = { ohm, firstOhm: ohm, early, late, place: late === reference ? 0 : early.rest.indexOf(late) + 1 };
  early.resistances.push(resistance);
  if (late !== reference) late.resistances.push(resistance);
  return resistance;
}
