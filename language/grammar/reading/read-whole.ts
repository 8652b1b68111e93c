/** Reads a statement that is right by the grammar's table alone: most are, and to set up the parser takes longer than to read a whole circuit. */
import type { AstNode } from 'langium';
import { fragments, nodesOf, patterns } from '../syntax/generated/table.js';
import { isOfKind, isWordAt } from '../syntax/match.js';
import { insideOf, isWordPattern, wordOf, type Pattern } from '../syntax/pattern.js';
import type { Token } from '../tokens.js';

/** More tokens than any statement that a person writes: the rest is left to the parser. */
const mostTokens = 400;
/** Ways followed, by token, until it is left to the parser. */
const mostSteps = 100;

/**
 * The node that the parser would make of these tokens, but for what its nodes know of each other; `undefined` where they don't fit the rule from the
 * first to the last, so that the parser must say why. Of several ways to read them it is the first in the order of the grammar, as with the parser.
 */
export function readWhole(rule: string, tokens: readonly Token[]): AstNode | undefined {
  if (tokens.length === 0 || tokens.length > mostTokens) return undefined;
  return new Reader(tokens).node(rule, 0, (end, node) => (end === tokens.length ? node : undefined));
}

/** What was taken for the node that is being read, the last first. */
type Taken =
  | { readonly slot: string; readonly as?: 'list' | 'flag' | undefined; readonly value: unknown; readonly before: Taken }
  | undefined;

/** Goes on behind what was read; gives the whole statement's node where the rest fits. */
type Then<T> = (at: number, read: T) => AstNode | undefined;

class Reader {
  private steps = 0;

  constructor(private readonly tokens: readonly Token[]) {}

  /** Reads what a rule takes from token `at`. */
  node(rule: string, at: number, then: Then<AstNode>): AstNode | undefined {
    return this.take(patternOf(rule), at, undefined, (end, taken) => then(end, this.made(rule, at, end, taken)));
  }

  private take(pattern: Pattern, at: number, taken: Taken, then: Then<Taken>): AstNode | undefined {
    if (++this.steps > mostSteps * this.tokens.length) return undefined;
    if (isWordPattern(pattern)) return this.word(pattern, at, taken, then);
    if ('of' in pattern) return this.slot(pattern, at, taken, then);
    if ('all' in pattern) return this.row(pattern.all, 0, at, taken, then);
    if ('repeat' in pattern) return this.repeated(pattern, pattern.least, at, taken, then);
    for (const alternative of pattern.any) {
      const read = this.take(alternative, at, taken, then);
      if (read !== undefined) return read;
    }
    return undefined;
  }

  private word(pattern: Extract<Pattern, string | { word: string }>, at: number, taken: Taken, then: Then<Taken>) {
    const word = wordOf(pattern);
    const token = this.tokens[at];
    if (token === undefined || !isWordAt(token, word)) return undefined;
    return then(
      at + 1,
      typeof pattern === 'string' ? taken : { ...pattern, value: pattern.as === 'flag' || word, before: taken },
    );
  }

  private slot(pattern: Extract<Pattern, { of: string }>, at: number, taken: Taken, then: Then<Taken>): AstNode | undefined {
    const { of } = pattern;
    const keep = (end: number, value: unknown) => then(end, { ...pattern, value, before: taken });
    if (fragments.includes(of)) return this.take(patternOf(of), at, taken, then);
    const leaves = leavesOf(of);
    if (leaves === undefined) return this.node(of, at, keep);
    const token = this.tokens[at];
    for (const { node, kind } of token === undefined ? [] : leaves) {
      if (token === undefined || !isTerminal(token, kind)) continue;
      const read = keep(at + 1, { $type: node, $cstNode: { range: rangeFrom(token, token) }, text: token.image });
      if (read !== undefined) return read;
    }
    return undefined;
  }

  private row(parts: readonly Pattern[], index: number, at: number, taken: Taken, then: Then<Taken>): AstNode | undefined {
    const part = parts[index];
    if (part === undefined) return then(at, taken);
    return this.take(part, at, taken, (end, more) => this.row(parts, index + 1, end, more, then));
  }

  /** As often as it fits, then less often. */
  private repeated(
    pattern: Extract<Pattern, { repeat: Pattern }>,
    least: number,
    at: number,
    taken: Taken,
    then: Then<Taken>,
  ): AstNode | undefined {
    const again: Then<Taken> = (end, more) =>
      end > at && pattern.many ? this.repeated(pattern, 0, end, more, then) : then(end, more);
    return this.take(pattern.repeat, at, taken, again) ?? (least === 0 ? then(at, taken) : undefined);
  }

  /** The node of a rule, or the one that it hands on. */
  private made(rule: string, at: number, end: number, taken: Taken): AstNode {
    if (taken?.slot === '') return taken.value as AstNode;
    const [first, last] = [this.tokens[at], this.tokens[Math.max(at, end - 1)]];
    const node: Record<string, unknown> = { $type: nodesOf[rule] ?? rule };
    if (first !== undefined && last !== undefined) node['$cstNode'] = { range: rangeFrom(first, last) };
    for (const { slot, as } of slotsOf(rule)) if (as !== undefined) node[slot] = as === 'list' ? [] : false;
    for (let one = taken; one !== undefined; one = one.before) {
      if (one.as === 'list') (node[one.slot] as unknown[]).unshift(one.value);
      else node[one.slot] = one.value;
    }
    return node as unknown as AstNode;
  }
}

/** Whether a token is of a kind that the grammar has. A plain word is none of the language. */
function isTerminal(token: Token, kind: string): boolean {
  return isOfKind(token, kind) && !(kind === 'PLAIN' && isKnown(token.image));
}

let known: ReadonlySet<string> | undefined;

/** Whether the grammar has this word or sign. */
function isKnown(word: string): boolean {
  known ??= new Set(Object.values(patterns).flatMap(wordsIn));
  return known.has(word);
}

function wordsIn(pattern: Pattern): readonly string[] {
  return isWordPattern(pattern) ? [wordOf(pattern)] : insideOf(pattern).flatMap(wordsIn);
}

function patternOf(rule: string): Pattern {
  const pattern = patterns[rule];
  if (pattern === undefined) throw new Error(`The grammar has no rule ${rule}.`);
  return pattern;
}

/** A node of one token, whose text it has. */
interface Leaf {
  readonly node: string;
  readonly kind: string;
}

const leaves = new Map<string, readonly Leaf[] | undefined>();

/** The nodes of which a rule takes one, where each is of one token: most are, and they need no looking ahead. */
function leavesOf(rule: string): readonly Leaf[] | undefined {
  if (!leaves.has(rule)) leaves.set(rule, leavesIn(patternOf(rule), nodesOf[rule] ?? rule));
  return leaves.get(rule);
}

function leavesIn(pattern: Pattern, node: string): readonly Leaf[] | undefined {
  if (isWordPattern(pattern)) return undefined;
  if ('any' in pattern) {
    const all = pattern.any.map((alternative) => leavesIn(alternative, node));
    return all.every((some) => some !== undefined) ? all.flat() : undefined;
  }
  if (!('of' in pattern)) return undefined;
  if (pattern.slot === '') return leavesOf(pattern.of);
  return pattern.slot === 'text' && !Object.hasOwn(patterns, pattern.of) ? [{ node, kind: pattern.of }] : undefined;
}

interface Slot {
  readonly slot: string;
  readonly as?: 'list' | 'flag';
}

const slots = new Map<string, readonly Slot[]>();

/** What a rule's node holds. */
function slotsOf(rule: string): readonly Slot[] {
  let found = slots.get(rule);
  if (found === undefined) slots.set(rule, (found = slotsIn(patternOf(rule))));
  return found;
}

function slotsIn(pattern: Pattern): readonly Slot[] {
  if (typeof pattern === 'string') return [];
  if ('slot' in pattern) return 'of' in pattern && fragments.includes(pattern.of) ? slotsIn(patternOf(pattern.of)) : [pattern];
  return insideOf(pattern).flatMap(slotsIn);
}

function rangeFrom(first: Token, last: Token) {
  return {
    start: { line: first.line, character: first.character },
    end: { line: last.endLine, character: last.endCharacter },
  };
}
