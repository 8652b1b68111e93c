/** Arrangements: their one canonical form, their text, and whether two mean the same. */
import {
  type AnalysedCircuit,
  derive,
  derivation,
  elementById,
  type Arrangement,
  type Coil,
  type ElementId,
  type PartId,
} from '../../circuit/model.js';
import type { Sound } from '../model.js';
import { outputOf } from '../solver/solver.js';

/** Shares this many points apart still count as the same. */
const shareTolerance = 0.07;

/** A tree whose signs all stand at its leaves. */
export type Leaf = { readonly sign: 1 | -1; readonly share?: number } & (
  { readonly kind: 'coil'; readonly coil: ElementId } | { readonly kind: 'pickup'; readonly part: PartId }
);
export type Tree = Leaf | { readonly kind: 'series' | 'parallel' | 'mixed'; readonly members: readonly Tree[] };

/**
 * The one form of an arrangement: groups flattened, a pickup whose coils are all in series and in phase by its name alone, members
 * by name (a group by the names in it, a mixture by its shares), and phase turned so that the first member of each group is not reversed.
 */
export function canonical(circuit: AnalysedCircuit, tree: Tree): Arrangement {
  return { ...normalised(circuit, collapsed(circuit, flattened(tree))), reversed: false };
}

/** Canonical text: `parallel(bridge, reversed neck)`, `series(neck.north, neck.south 30%)`. */
export function arrangementText(circuit: AnalysedCircuit, arrangement: Arrangement): string {
  const words = arrangement.reversed ? 'reversed ' : '';
  const share = arrangement.share === undefined ? '' : ` ${Math.round(arrangement.share * 100)}%`;
  return `${words}${name(circuit, arrangement, (member) => arrangementText(circuit, member))}${share}`;
}

/**
 * True where two arrangements mean the same. Order and the sign of the whole are free, a pickup equals its coils in series; shares count
 * only where `expected` states them, within 7 points of the loudest member. `sound` gives the exact shares of what sounds; without it
 * an unstated share is taken as 100 %.
 */
export function sameArrangement(circuit: AnalysedCircuit, expected: Arrangement, actual: Arrangement, sound?: Sound): boolean {
  // Other numbers of coils are seen at once, without putting them in order.
  if (coilCount(circuit, expected) !== coilCount(circuit, actual)) return false;
  const wanted = flattened(asTree(circuit, expected, 1, undefined));
  const found = flattened(asTree(circuit, actual, 1, undefined));
  const plain = (tree: Tree): string => arrangementText(circuit, normalised(circuit, withoutShares(tree)));
  // The sign of the whole is free: both are read with their first member in phase.
  if (plain(wanted).replace(/^reversed /, '') !== plain(found).replace(/^reversed /, '')) return false;
  const level = (coil: ElementId): number => {
    if (sound === undefined) return leavesOf(found).find((leaf) => leaf.kind === 'coil' && leaf.coil === coil)?.share ?? 1;
    const heard = sound.heard.find((one) => one.coil === coil);
    return heard === undefined ? 0 : heard.delivers * outputOf(circuit.elements[coil] as Coil);
  };
  const leaves = leavesOf(collapsed(circuit, wanted));
  const levels = leaves.map((leaf) => {
    const coils = leaf.kind === 'coil' ? [leaf.coil] : coilsOf(circuit, leaf.part);
    // Without a sound a share is the pickup's own, not the sum of its coils'.
    const sum = coils.reduce((all, coil) => all + level(coil), 0);
    return sound === undefined ? sum / coils.length : sum;
  });
  const loudest = Math.max(...levels);
  return leaves.every(
    (leaf, i) => leaf.share === undefined || Math.abs((levels[i] ?? 0) / loudest - leaf.share) <= shareTolerance,
  );
}

function coilCount(circuit: AnalysedCircuit, arrangement: Arrangement): number {
  if (arrangement.kind === 'coil') return 1;
  if (arrangement.kind === 'pickup') return coilsOf(circuit, arrangement.part).length;
  return arrangement.members.reduce((sum, member) => sum + coilCount(circuit, member), 0);
}

/** Coils of a pickup, element ids. */
export function coilsOf(circuit: AnalysedCircuit, part: PartId): readonly ElementId[] {
  return derive(circuit, coilsByPart).get(part) ?? [];
}

const coilsByPart = derivation(['elements'], ({ elements }): ReadonlyMap<PartId, readonly ElementId[]> => {
  const found = new Map<PartId, ElementId[]>();
  for (const element of elements) {
    if (element.kind !== 'coil') continue;
    const own = found.get(element.part);
    if (own === undefined) found.set(element.part, [element.id]);
    else own.push(element.id);
  }
  return found;
});

/** The leaves of a tree, left to right. */
export function leavesOf(tree: Tree): readonly Leaf[] {
  return isLeaf(tree) ? [tree] : tree.members.flatMap(leavesOf);
}

function isLeaf(tree: Tree): tree is Leaf {
  return tree.kind === 'coil' || tree.kind === 'pickup';
}

/** Groups within a group of the same kind become one group, a mixture has no groups at all; a group of one is that one. */
export function flattened(tree: Tree): Tree {
  if (isLeaf(tree)) return tree;
  const members = tree.members.flatMap((member): readonly Tree[] => {
    const flat = flattened(member);
    return !isLeaf(flat) && (flat.kind === tree.kind || tree.kind === 'mixed') ? flat.members : [flat];
  });
  const [only] = members;
  return members.length === 1 && only !== undefined && tree.kind !== 'mixed' ? only : { kind: tree.kind, members };
}

/** In each series (and mixture), the coils of one pickup that are all there, in phase and of like share become that pickup. */
export function collapsed(circuit: AnalysedCircuit, tree: Tree): Tree {
  if (tree.kind === 'pickup') return tree;
  if (tree.kind === 'coil') {
    const { part } = elementById(circuit, tree.coil);
    return coilsOf(circuit, part).length === 1 ? pickup(part, tree) : tree;
  }
  const members = tree.members.map((member) => collapsed(circuit, member));
  if (tree.kind === 'parallel') return { kind: 'parallel', members };
  const byPart = new Map<PartId, Leaf[]>();
  for (const member of members) {
    if (member.kind !== 'coil') continue;
    const { part } = elementById(circuit, member.coil);
    const own = byPart.get(part);
    if (own === undefined) byPart.set(part, [member]);
    else own.push(member);
  }
  const gathered: Tree[] = [];
  for (const member of members) {
    if (member.kind !== 'coil') {
      gathered.push(member);
      continue;
    }
    const { part } = elementById(circuit, member.coil);
    const own = byPart.get(part) ?? [];
    const [first = member] = own;
    const isWhole =
      own.length === coilsOf(circuit, part).length &&
      own.every((coil) => coil.sign === first.sign && likeShare(coil.share, first.share));
    if (!isWhole) gathered.push(member);
    else if (member === first) gathered.push(pickup(part, first));
  }
  return flattened({ kind: tree.kind, members: gathered });
}

function pickup(part: PartId, coil: Leaf): Leaf {
  return { kind: 'pickup', part, sign: coil.sign, ...(coil.share === undefined ? {} : { share: coil.share }) };
}

function likeShare(a: number | undefined, b: number | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return Math.abs(a - b) <= shareTolerance;
}

/** An arrangement as written, its signs carried down to the coils. */
function asTree(circuit: AnalysedCircuit, arrangement: Arrangement, sign: 1 | -1, share: number | undefined): Tree {
  const own: 1 | -1 = arrangement.reversed ? (sign === 1 ? -1 : 1) : sign;
  const stated = arrangement.share ?? share;
  const given = stated === undefined ? {} : { share: stated };
  if (arrangement.kind === 'coil') return { kind: 'coil', coil: arrangement.coil, sign: own, ...given };
  if (arrangement.kind === 'pickup') {
    const members = coilsOf(circuit, arrangement.part).map((coil): Leaf => ({ kind: 'coil', coil, sign: own, ...given }));
    return { kind: 'series', members };
  }
  return { kind: arrangement.kind, members: arrangement.members.map((member) => asTree(circuit, member, own, stated)) };
}

/** The same tree without what each coil delivers. */
export function withoutShares(tree: Tree): Tree {
  if (tree.kind === 'coil') return { kind: 'coil', coil: tree.coil, sign: tree.sign };
  if (tree.kind === 'pickup') return { kind: 'pickup', part: tree.part, sign: tree.sign };
  return { kind: tree.kind, members: tree.members.map(withoutShares) };
}

/** Members in order, signs gathered upwards so that each group's first member stands in phase. */
function normalised(circuit: AnalysedCircuit, tree: Tree): Arrangement {
  if (isLeaf(tree)) {
    const { sign, ...leaf } = tree;
    return { ...leaf, reversed: sign === -1 };
  }
  const members = tree.members
    .map((member) => normalised(circuit, member))
    .map((member) => ({
      member,
      key: sortKey(circuit, member),
      share: tree.kind === 'mixed' ? Math.round(100 * (member.share ?? 0)) : 0,
    }))
    .sort((a, b) => b.share - a.share || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ member }) => member);
  const reversed = members[0]?.reversed ?? false;
  return {
    kind: tree.kind,
    reversed,
    members: reversed ? members.map((member) => ({ ...member, reversed: !member.reversed })) : members,
  };
}

/** A member stands by its name, a group by the names in it. */
function sortKey(circuit: AnalysedCircuit, arrangement: Arrangement): string {
  return arrangement.kind === 'pickup' || arrangement.kind === 'coil'
    ? name(circuit, arrangement, () => '')
    : arrangement.members.map((member) => sortKey(circuit, member)).join(' ');
}

function name(circuit: AnalysedCircuit, arrangement: Arrangement, text: (member: Arrangement) => string): string {
  if (arrangement.kind === 'pickup') return circuit.parts[arrangement.part]?.name ?? '?';
  if (arrangement.kind === 'coil') return coilName(circuit, arrangement.coil);
  return `${arrangement.kind}(${arrangement.members.map(text).join(', ')})`;
}

/** `neck.north`, or the pickup's name alone where it has one coil. */
export function coilName(circuit: AnalysedCircuit, id: ElementId): string {
  const coil = circuit.elements[id];
  const part = coil === undefined ? undefined : circuit.parts[coil.part];
  if (coil === undefined || part === undefined) return '?';
  return coilsOf(circuit, part.id).length === 1 || coil.name === '' ? part.name : `${part.name}.${coil.name}`;
}
