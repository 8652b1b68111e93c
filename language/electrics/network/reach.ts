/** What of a network matters to its output: pieces, dead ends, branches in series. */
import { createSets, filled, join, rootOf } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import type { Pair } from './coupling.js';
import { type Network, nodeOfLug } from './network.js';

/** Nodes joined by current into pieces, and which of them can reach a root: through current, an amplifier stage, a magnetic field. */
export function connected(
  network: Network,
  roots: readonly number[],
  pairs: readonly Pair[],
  beyond: boolean,
): { readonly pieces: number[]; readonly inside: number[] } {
  const pieces = createSets(network.count);
  const reach = createSets(network.count);
  const cut = beyond ? -1 : (roots[0] ?? -1);
  const reaches = (a: number, b: number): void => {
    if (a !== cut && b !== cut) join(reach, a, b);
  };
  for (const { from, to } of network.branches) {
    join(pieces, from, to);
    reaches(from, to);
  }
  // A stage and a pair of coupled coils carry signal between pieces that no current joins.
  for (const { output, input, reference, minus } of network.stages) {
    join(pieces, output, minus);
    reaches(output, minus);
    reaches(output, input);
    reaches(output, reference);
  }
  for (const { first: one, second: other } of pairs) {
    const ends = (coil: Pair['first']): readonly number[] =>
      [coil.a, coil.b].map((lug) => nodeOfLug(network, lug)).filter((node) => node !== cut);
    for (const a of ends(one)) for (const b of ends(other)) join(reach, a, b);
  }
  const wanted = new Set(roots.filter((root) => root !== cut).map((root) => rootOf(reach, root)));
  const inside = filled(network.count, 0);
  for (let node = 0; node < inside.length; node++) if (node === cut || wanted.has(rootOf(reach, node))) inside[node] = 1;
  return { pieces, inside };
}

/** Nodes that must stay what they are: those asked for, those a stage listens to, the ends of coupled coils. */
export function keptNodes(network: Network, asked: readonly number[], pairs: readonly Pair[]): number[] {
  const keep = filled(network.count, 0);
  for (const node of asked) keep[node] = 1;
  for (const { input, reference, output, minus } of network.stages)
    keep[input] = keep[reference] = keep[output] = keep[minus] = 1;
  for (const { first, second } of pairs) {
    for (const lug of [first.a, first.b, second.a, second.b]) keep[nodeOfLug(network, lug)] = 1;
  }
  return keep;
}

/** Takes out nodes with a single neighbour, again and again: the free end of a track, a coil that hangs by one lead. */
export function dropDeadEnds({ count, branches }: Network, inside: number[], keep: readonly number[]): void {
  const neighbour = filled(count, -1);
  for (let dropped = true; dropped;) {
    dropped = false;
    neighbour.fill(-1);
    for (const { from: a, to: b } of branches) {
      if (inside[a] === 0 || inside[b] === 0) continue;
      neighbour[a] = neighbour[a] === -1 || neighbour[a] === b ? b : -2;
      neighbour[b] = neighbour[b] === -1 || neighbour[b] === a ? a : -2;
    }
    for (let node = 0; node < count; node++) {
      if (inside[node] === 0 || keep[node] === 1 || neighbour[node] === -2) continue;
      inside[node] = 0;
      dropped = true;
    }
  }
}

/** Branches in series with nothing between them: the pot and the capacitor of a tone control. */
export interface SeriesBranch {
  readonly from: number;
  readonly to: number;
  /** The branch, where it is one alone. */
  readonly branch?: Branch;
  readonly ohm: number;
  /** Sum of 1/C, per farad. */
  readonly elastance: number;
}

/** The network's branches within `inside`; resistors and capacitors that meet at a node by themselves become one, and the node is marked in `passed`. */
export function seriesBranches(
  { count, branches }: Network,
  inside: readonly number[],
  keep: readonly number[],
): { readonly series: readonly SeriesBranch[]; readonly passed: readonly number[] } {
  const found: (SeriesBranch | undefined)[] = [];
  const indices: number[][] = [];
  const at = (node: number): number[] => (indices[node] ??= []);
  for (const { branch, from, to } of branches) {
    if (inside[from] === 0 || inside[to] === 0) continue;
    at(from).push(found.length);
    at(to).push(found.length);
    found.push({ from, to, branch, ohm: branch.ohm, elastance: branch.kind === 'capacitor' ? 1 / branch.farad : 0 });
  }
  const passed = filled(count, 0);
  for (let node = 0; node < count; node++) {
    if (keep[node] === 1 || at(node).length !== 2) continue;
    const [i = -1, j = -1] = at(node);
    const [one, other] = [found[i], found[j]];
    const joined = one === undefined || other === undefined ? undefined : inSeries(one, other, node);
    if (joined === undefined) continue;
    found[i] = joined;
    found[j] = undefined;
    const beyond = at(joined.to);
    beyond[beyond.indexOf(j)] = i;
    passed[node] = 1;
  }
  return { series: found.filter((one) => one !== undefined), passed };
}

/** True for what is more than a resistance and a capacitance in a row: a winding, and what holds a pickup's voltage. */
export function hasOwnCurve({ kind }: Branch): boolean {
  return kind === 'winding' || kind === 'piezo';
}

/** Two branches that meet at a node as one; undefined where one is a winding or a piezo, which stays by itself, or where both lead to the same node. */
function inSeries(one: SeriesBranch, other: SeriesBranch, node: number): SeriesBranch | undefined {
  if ([one, other].some(({ branch }) => branch !== undefined && hasOwnCurve(branch))) return undefined;
  const from = one.from === node ? one.to : one.from;
  const to = other.from === node ? other.to : other.from;
  if (from === to) return undefined;
  return { from, to, ohm: one.ohm + other.ohm, elastance: one.elastance + other.elastance };
}
