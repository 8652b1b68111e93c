/** Langium's nodes made plain tree data: words, dotted names, properties, places. Anything may be missing in a broken statement. */
import type { CstNode } from 'langium';
import type * as ast from './generated/ast.js';
import type { DottedName, LocalRange, PropertyNode, SpotNode, Word } from './tree.js';
import { textOf } from './tokens.js';
import { isLetterCode } from './values.js';

type WordNode = ast.Word | ast.Comma | ast.Mark;

/** Where a node stands that recovery made up, without a sign in the text. */
const nowhere = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** The range of a node in its statement. */
export function rangeOf(node: { $cstNode?: CstNode }): LocalRange {
  const { start, end } = node.$cstNode?.range ?? nowhere;
  return { start: { line: start.line, character: start.character }, end: { line: end.line, character: end.character } };
}

/** A word as written. */
export function word(node: WordNode): Word;
export function word(node: WordNode | undefined): Word | undefined;
export function word(node: WordNode | undefined): Word | undefined {
  if (node?.$cstNode === undefined) return undefined;
  const range = rangeOf(node);
  switch (node.$type) {
    case 'Figure':
      return { kind: 'value', text: node.text, range };
    case 'Quote':
      return { kind: 'string', text: textOf(node.text), range };
    case 'Blank':
      return { kind: 'unknown', text: node.text, range };
    default:
      return { kind: 'name', text: node.text, range };
  }
}

/** A word that stands where a value may stand: `R47` and `A250K` are values there. */
export function freeWord(node: WordNode): Word;
export function freeWord(node: WordNode | undefined): Word | undefined;
export function freeWord(node: WordNode | undefined): Word | undefined {
  const plain = word(node);
  return plain?.kind === 'name' && isLetterCode(plain.text) ? { ...plain, kind: 'value' } : plain;
}

/** All the words of a list, those that recovery left empty taken out. */
export function words(nodes: readonly WordNode[] | undefined): Word[] {
  return present((nodes ?? []).map((node) => word(node)));
}

export function dotted(node: ast.Dotted): DottedName;
export function dotted(node: ast.Dotted | undefined): DottedName | undefined;
export function dotted(node: ast.Dotted | undefined): DottedName | undefined {
  const path = words(node?.path);
  return node?.$cstNode && path.length > 0 ? { path, range: rangeOf(node) } : undefined;
}

export function dottedNames(nodes: readonly ast.Dotted[] | undefined): DottedName[] {
  return present((nodes ?? []).map((node) => dotted(node)));
}

export function spot(node: ast.Spot | undefined): SpotNode | undefined {
  const x = freeWord(node?.x);
  const y = freeWord(node?.y);
  return node?.$cstNode && x && y ? { x, y, range: rangeOf(node) } : undefined;
}

/** The list without its missing members. */
export function present<T>(list: readonly (T | undefined)[]): T[] {
  return list.filter((item) => item !== undefined);
}

/** Braces grouped into properties: by comma and by line end; a group of texts alone goes on with the one before (`positions "a", "b"`). */
export function properties(
  blocks: readonly (ast.Block | undefined)[],
  problem: (range: LocalRange, message: string) => void,
): PropertyNode[] {
  const found: PropertyNode[] = [];
  for (const block of blocks) {
    for (const group of groups(block)) {
      const [first, ...rest] = group;
      const last = found[found.length - 1];
      if (first === undefined) continue;
      if (first.kind === 'name') {
        found.push(property(first, rest));
      } else if (last && group.every((item) => item.kind === 'string')) {
        found[found.length - 1] = property(last.name, [...last.values, ...group]);
      } else {
        const shown = first.kind === 'string' ? `"${first.text}"` : first.text;
        problem(first.range, `\`${shown}\` in braces has no name: write a name, then its value, as in { tolerance 10% }`);
      }
    }
  }
  return found;
}

function property(name: Word, values: readonly Word[]): PropertyNode {
  return { name, values, range: { start: name.range.start, end: (values[values.length - 1] ?? name).range.end } };
}

function groups(block: ast.Block | undefined): Word[][] {
  const all: Word[][] = [];
  let group: Word[] = [];
  const close = () => {
    if (group.length > 0) all.push(group);
    group = [];
  };
  for (const item of block?.items ?? []) {
    if (item.$type === 'Comma') {
      close();
      continue;
    }
    // The first word of a group is its name, whatever it looks like (`{ R47 … }`).
    const next = group.length === 0 ? word(item) : freeWord(item);
    if (!next) continue;
    const line = group[group.length - 1]?.range.end.line;
    if (line !== undefined && next.range.start.line > line) close();
    group.push(group.length === 0 ? word(item) : next);
  }
  close();
  return all;
}
