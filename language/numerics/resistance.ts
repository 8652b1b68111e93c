/** Resistance between two points of a network of resistors, without a single subtraction. */
// The invariant behind the assertions below: every conductor has two ends below `nodes` and a conductance; a star's two lists are equally long, and it names only nodes that have stars.

import { createHeap } from './heap.js';
import { filled } from './union-find.js';

/** Resistors by index: the nodes of their ends, and their conductance in siemens. */
export interface Conductors {
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly siemens: readonly number[];
}

export interface Reading {
  /** Ohms; Infinity where nothing joins the two points. */
  readonly ohm: number;
  /** Per conductor, the share of the meter's current that it carries (0 … 1). */
  readonly shares: readonly number[];
}

/** Neighbours of a node that is left, and the conductance to each. */
interface Star {
  readonly to: number[];
  readonly siemens: number[];
}

/**
 * Star-mesh elimination (Rosen, 1924), the node with the fewest neighbours first. Conductances are only added, multiplied and divided,
 * so a milliohm beside a megohm costs no accuracy. Afterwards the voltages are found backwards, each node the mean of its neighbours
 * weighted by conductance.
 */
export function resistanceBetween(nodes: number, conductors: Conductors, a: number, b: number): Reading {
  const { from, to, siemens } = conductors;
  const shares = filled(siemens.length, 0);
  if (a === b) return { ohm: 0, shares };
  const stars = new Array<Star | undefined>(nodes);
  for (let i = 0; i < siemens.length; i++) {
    if (from[i] === to[i] || !(siemens[i]! > 0)) continue;
    tie(stars, from[i]!, to[i]!, siemens[i]!);
    tie(stars, to[i]!, from[i]!, siemens[i]!);
  }
  const waiting = between(stars, a, b);
  if (waiting === undefined) return { ohm: Infinity, shares };
  const gone: number[] = [];
  const isWaiting = new Uint8Array(nodes);
  const queue = createHeap();
  const put = (node: number): void => queue.put(stars[node]!.to.length * nodes + node);
  for (const node of waiting) {
    isWaiting[node] = 1;
    put(node);
  }
  for (let key = queue.take(); key !== undefined; key = queue.take()) {
    const node = key % nodes;
    // Where the neighbours of a node have changed since it was put in, only its last place counts.
    if (isWaiting[node] === 0 || stars[node]!.to.length * nodes + node !== key) continue;
    isWaiting[node] = 0;
    gone.push(node);
    mesh(stars, node);
    for (const other of stars[node]!.to) if (isWaiting[other] === 1) put(other);
  }
  const ends = stars[a]!;
  const ohm = 1 / ends.siemens[ends.to.indexOf(b)]!;
  const voltage = filled(nodes, 0);
  voltage[a] = ohm;
  for (let i = gone.length - 1; i >= 0; i--) {
    const star = stars[gone[i]!]!;
    let [sum, weighted] = [0, 0];
    for (let ray = 0; ray < star.to.length; ray++) {
      sum += star.siemens[ray]!;
      weighted += star.siemens[ray]! * voltage[star.to[ray]!]!;
    }
    voltage[gone[i]!] = weighted / sum;
  }
  for (let i = 0; i < shares.length; i++) shares[i] = Math.abs(voltage[from[i]!]! - voltage[to[i]!]!) * siemens[i]!;
  return { ohm, shares };
}

function tie(stars: (Star | undefined)[], from: number, to: number, siemens: number): void {
  const star = (stars[from] ??= { to: [], siemens: [] });
  const at = star.to.indexOf(to);
  if (at >= 0) star.siemens[at] = star.siemens[at]! + siemens;
  else {
    star.to.push(to);
    star.siemens.push(siemens);
  }
}

/**
 * Nodes that are reached from `a` without passing through `b`; `undefined` where `b` is not met. What hangs on `b` alone carries no
 * current, and its branches are cut off at `b` so that it is forgotten.
 */
function between(stars: (Star | undefined)[], a: number, b: number): number[] | undefined {
  const seen = new Set([a]);
  for (const node of seen) {
    if (node === b) continue;
    for (const other of stars[node]?.to ?? []) seen.add(other);
  }
  if (!seen.has(b)) return undefined;
  const star = stars[b]!;
  for (let ray = star.to.length - 1; ray >= 0; ray--) {
    if (seen.has(star.to[ray]!)) continue;
    star.to.splice(ray, 1);
    star.siemens.splice(ray, 1);
  }
  return [...seen].filter((node) => node !== a && node !== b);
}

/** Replaces a node by branches between its neighbours; its own star stays as it was, for the way back. */
function mesh(stars: (Star | undefined)[], node: number): void {
  const { to, siemens } = stars[node]!;
  let sum = 0;
  for (let ray = 0; ray < to.length; ray++) {
    sum += siemens[ray]!;
    const other = stars[to[ray]!]!;
    const back = other.to.indexOf(node);
    other.to[back] = other.to.at(-1)!;
    other.siemens[back] = other.siemens.at(-1)!;
    other.to.pop();
    other.siemens.pop();
  }
  for (let i = 0; i < to.length; i++) {
    for (let j = i + 1; j < to.length; j++) {
      const part = (siemens[i]! * siemens[j]!) / sum;
      tie(stars, to[i]!, to[j]!, part);
      tie(stars, to[j]!, to[i]!, part);
    }
  }
}
