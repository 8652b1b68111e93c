/** What of a network matters to its output: pieces, dead ends, branches in a row. */
import type { Coil } from '../../circuit/model.js';
import { createSets, filled, join, rootOf } from '../../numerics/index.js';
import type { Branch } from './branches.js';
import type { Pair } from './coupling.js';
import type { Network } from './network.js';

/** Nodes joined by current into pieces, and which of them can reach a root: through current, an amplifier stage, a magnetic field. */
export function connected(
  network: Network,
  roots: readonly number[],
  pairs: readonly Pair[],
  beyond: boolean,
): { readonly pieces: number[]; readonly inside: number[] } {
  const pieces = createSets(network.count);
  const reach = createSets(network.count);
  const [first] = roots as [number, ...number[]];
  const cut = beyond ? -1 : first;
  const reaches = (a: number, b: number): void => {
    if (a !== cut && b !== cut) join(reach, a, b);
  };
  const { branches, from, to, stages } = network;
  for (let i = 0; i < branches.length; i++) {
    join(pieces, from[i]!, to[i]!);
    reaches(from[i]!, to[i]!);
  }
  // A stage and a pair of coupled coils carry signal between pieces that no current joins.
  for (const { output, input, minus } of stages) {
    join(pieces, output, minus);
    reaches(output, minus);
    reaches(output, input);
  }
  for (const { first: one, second: other } of pairs) {
    const ends = (coil: Coil): readonly number[] =>
      [coil.a, coil.b].map((lug) => network.nodeOf[network.nets.of[lug]!]!).filter((node) => node !== cut);
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
  for (const { input, output, minus } of network.stages) keep[input] = keep[output] = keep[minus] = 1;
  for (const { first, second } of pairs) {
    for (const lug of [first.a, first.b, second.a, second.b]) keep[network.nodeOf[network.nets.of[lug]!]!] = 1;
  }
  return keep;
}

/** Takes out nodes with a single neighbour, again and again: the free end of a track, a coil that hangs by one lead. */
export function dropDeadEnds({ count, from, to }: Network, inside: number[], keep: readonly number[]): void {
  const neighbour = filled(count, -1);
  for (let dropped = true; dropped;) {
    dropped = false;
    neighbour.fill(-1);
    for (let i = 0; i < from.length; i++) {
      const [a, b] = [from[i]!, to[i]!];
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

/** Branches in a row with nothing between them: the pot and the capacitor of a tone control. */
export interface Line {
  readonly from: number;
  readonly to: number;
  /** The branch, where it is one alone. */
  readonly branch?: Branch;
  readonly ohm: number;
  /** Sum of 1/C, per farad. */
  readonly elastance: number;
}

/** The network's branches within `inside`; resistors and capacitors that meet at a node by themselves become one line, and the node is marked in `passed`. */
export function linesOf(
  { count, branches, from, to }: Network,
  inside: readonly number[],
  keep: readonly number[],
): { readonly lines: readonly Line[]; readonly passed: readonly number[] } {
  const lines: (Line | undefined)[] = [];
  const at: number[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < branches.length; i++) {
    const branch = branches[i]!;
    const [a, b] = [from[i]!, to[i]!];
    if (inside[a] === 0 || inside[b] === 0) continue;
    at[a]!.push(lines.length);
    at[b]!.push(lines.length);
    const elastance = branch.kind === 'capacitor' ? 1 / branch.farad : 0;
    lines.push({ from: a, to: b, branch, ohm: branch.ohm, elastance });
  }
  const passed = filled(count, 0);
  for (let node = 0; node < count; node++) {
    const here = at[node]!;
    if (keep[node] === 1 || here.length !== 2) continue;
    const [i, j] = here as [number, number];
    const [one, other] = [lines[i]!, lines[j]!];
    if (one.branch?.kind === 'winding' || other.branch?.kind === 'winding') continue;
    const a = one.from === node ? one.to : one.from;
    const b = other.from === node ? other.to : other.from;
    if (a === b) continue;
    lines[i] = { from: a, to: b, ohm: one.ohm + other.ohm, elastance: one.elastance + other.elastance };
    lines[j] = undefined;
    at[b]![at[b]!.indexOf(j)] = i;
    passed[node] = 1;
  }
  return { lines: lines.filter((line) => line !== undefined), passed };
}
