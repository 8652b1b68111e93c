/** Series-parallel reduction: what stands between two nodes, passives folded away. */
import { signalBlock } from '../../numerics/index.js';
import { itemAt } from '../../collections.js';
import { type Expression, turned } from './expression.js';

/** A branch of the graph; `expression` drives `to` positive against `from`; absent on a passive branch, whose admittance `re`, `im` is known instead. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly expression: Expression | undefined;
  readonly re: number;
  readonly im: number;
}

export type Reduced =
  { readonly kind: 'arrangement'; readonly expression: Expression } | { readonly kind: 'nothing' } | { readonly kind: 'mixed' };

/** A passive branch counts as open beside coils, or as a joint, where it is this many times above or below them. */
const negligible = 20;

/**
 * Folds the graph between `source` and `target` by series and parallel steps. Passive branches vanish into whatever they stand
 * beside; a node where only passives meet is replaced by its mesh. What then still bridges is opened, or joined, where its impedance
 * is more than 20 times above the largest coil's or below the smallest coil's (`coils`: their impedances in ohms). `mixed` where
 * that does not suffice: the network is not series-parallel.
 */
export function reduce(nodes: number, edges: readonly Edge[], source: number, target: number, coils: readonly number[]): Reduced {
  if (source === target) return { kind: 'nothing' };
  let left = fold(nodes, edges, source, target);
  if (left.length > 1) left = fold(nodes, signalBlock(nodes, left, source, target), source, target);
  if (left.length > 1) left = openBridges(nodes, left, source, target, coils);
  if (left.length === 0) return { kind: 'nothing' };
  const [edge] = left as [Edge];
  if (left.length > 1) return { kind: 'mixed' };
  if (edge.expression === undefined) return { kind: 'nothing' };
  return { kind: 'arrangement', expression: edge.from === source ? edge.expression : turned(edge.expression) };
}

function openBridges(nodes: number, edges: readonly Edge[], source: number, target: number, coils: readonly number[]): Edge[] {
  const largest = Math.max(...coils);
  const smallest = Math.min(...coils);
  let left = [...edges];
  while (left.length > 1) {
    const passive = left.filter((edge) => edge.expression === undefined).sort((a, b) => magnitude(b) - magnitude(a));
    const high = passive[0];
    const low = passive.at(-1);
    if (high !== undefined && magnitude(high) > negligible * largest) left = left.filter((edge) => edge !== high);
    else if (low !== undefined && magnitude(low) * negligible < smallest) left = contract(left, low, source, target);
    else return left;
    left = fold(nodes, signalBlock(nodes, left, source, target), source, target);
  }
  return left;
}

/** Ohms. */
function magnitude(edge: Edge): number {
  return 1 / Math.hypot(edge.re, edge.im);
}

function contract(edges: readonly Edge[], joint: Edge, source: number, target: number): Edge[] {
  const kept = joint.to === source || joint.to === target ? joint.to : joint.from;
  const gone = kept === joint.to ? joint.from : joint.to;
  if (gone === source || gone === target) return edges.filter((edge) => edge !== joint);
  return edges
    .filter((edge) => edge !== joint)
    .map((edge) => ({ ...edge, from: edge.from === gone ? kept : edge.from, to: edge.to === gone ? kept : edge.to }));
}

/** Series, parallel and star-mesh steps until none is left; returns the edges that remain. */
function fold(nodes: number, edges: readonly Edge[], source: number, target: number): Edge[] {
  // What lies in parallel becomes one edge at once, so that an edge is found by the node at its other end. Ground has an edge to most nodes.
  const edgesAt = Array.from({ length: nodes }, () => new Map<number, Edge>());
  const at = (node: number): Map<number, Edge> => itemAt(edgesAt, node);
  const waiting: number[] = [];
  const detach = (edge: Edge): void => {
    at(edge.from).delete(edge.to);
    at(edge.to).delete(edge.from);
    waiting.push(edge.from, edge.to);
  };
  const attach = (edge: Edge): void => {
    if (edge.from === edge.to) return;
    const beside = at(edge.from).get(edge.to);
    if (beside !== undefined) {
      detach(beside);
      attach(parallel(beside, edge));
      return;
    }
    at(edge.from).set(edge.to, edge);
    at(edge.to).set(edge.from, edge);
    waiting.push(edge.from, edge.to);
  };
  edges.forEach(attach);
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (node === source || node === target) continue;
    const here = at(node);
    const [one, other] = here.values();
    if (one === undefined) continue;
    if (here.size === 1) detach(one);
    else if (here.size === 2 && other !== undefined) {
      detach(one);
      detach(other);
      attach(series(one, other, node));
    } else if (isPassive(here)) mesh([...here.values()], node, detach, attach);
  }
  const left = new Set<Edge>();
  for (const here of edgesAt) for (const edge of here.values()) left.add(edge);
  return [...left];
}

function isPassive(edges: ReadonlyMap<number, Edge>): boolean {
  for (const { expression } of edges.values()) if (expression !== undefined) return false;
  return true;
}

/** Star-mesh: each pair of rays becomes one branch of admittance yₐ·y_b / Σy. */
function mesh(rays: readonly Edge[], node: number, detach: (edge: Edge) => void, attach: (edge: Edge) => void): void {
  rays.forEach(detach);
  const re = rays.reduce((sum, ray) => sum + ray.re, 0);
  const im = rays.reduce((sum, ray) => sum + ray.im, 0);
  const other = (ray: Edge): number => (ray.from === node ? ray.to : ray.from);
  for (const [i, a] of rays.entries()) {
    for (const b of rays.slice(i + 1)) {
      const y = divide(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re, re, im);
      attach({ from: other(a), to: other(b), re: y.re, im: y.im, expression: undefined });
    }
  }
}

function parallel(a: Edge, b: Edge): Edge {
  const second = b.expression === undefined || b.from === a.from ? b.expression : turned(b.expression);
  return { from: a.from, to: a.to, re: a.re + b.re, im: a.im + b.im, expression: together('parallel', a.expression, second) };
}

function series(a: Edge, b: Edge, through: number): Edge {
  const first = a.expression === undefined || a.to === through ? a.expression : turned(a.expression);
  const second = b.expression === undefined || b.from === through ? b.expression : turned(b.expression);
  const { re, im } = divide(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re, a.re + b.re, a.im + b.im);
  const from = a.to === through ? a.from : a.to;
  const to = b.from === through ? b.to : b.from;
  return { from, to, re, im, expression: together('series', first, second) };
}

/** A passive side vanishes; a group that already stands takes the other side in, so that groups do not grow deep. */
function together(kind: 'series' | 'parallel', a: Expression | undefined, b: Expression | undefined): Expression | undefined {
  if (a === undefined) return b;
  if (b === undefined) return a;
  const members = [...membersOf(kind, a), ...membersOf(kind, b)];
  return { kind, sign: 1, members };
}

function membersOf(kind: 'series' | 'parallel', expression: Expression): readonly Expression[] {
  return expression.kind === kind && expression.sign === 1 ? expression.members : [expression];
}

function divide(x: number, y: number, u: number, v: number): { re: number; im: number } {
  const size = u * u + v * v;
  // A resonance between two ideal reactances has no admittance to divide by; as a passive it is then open.
  return size === 0 ? { re: 0, im: 0 } : { re: (x * u + y * v) / size, im: (y * u - x * v) / size };
}
