/** The scanner: cuts a text into statements by its lines, so that one wrong line spoils one line. */
import { isComment, isSign, tokenize, type Token } from './tokens.js';
import { findBody, opensInLine } from './bodies.js';
import { guessHead, type Head } from './heads.js';
import { isBodyWord, isStatementWord, joiningWords } from './words.js';

/** A statement's stretch of the tokens: `first` to `last`, comments between them included. */
export interface Chunk {
  readonly context: 'file' | 'type';
  readonly first: number;
  /** The last token; of a type's first line the one before its `{`. */
  readonly last: number;
  readonly head: Head;
  /** The doc comment before it. */
  readonly doc?: number;
  readonly body?: Body;
}

/** The body of a type: its braces, absent where they are missing in the text, and the statements between. */
export interface Body {
  readonly open?: number;
  readonly close?: number;
  readonly chunks: readonly Chunk[];
}

/** A text with its tokens, comments included, and its statements. */
export interface Scan {
  readonly text: string;
  readonly tokens: readonly Token[];
  readonly chunks: readonly Chunk[];
}

/** Cuts a text into its statements. Never throws, whatever the text. */
export function scanStatements(text: string): Scan {
  const tokens = tokenize(text);
  return { text, tokens, chunks: split(tokens, 0, tokens.length, 'file') };
}

/** How many statements these are, with those in the bodies of types. */
export function countStatements(chunks: readonly Chunk[]): number {
  return chunks.reduce((sum, { body }) => sum + 1 + (body === undefined ? 0 : countStatements(body.chunks)), 0);
}

/** Index of the last token of a chunk, its body and closing brace included. */
export function lastOf(chunk: Chunk): number {
  const { body, last } = chunk;
  return body?.close ?? body?.chunks[body.chunks.length - 1]?.last ?? body?.open ?? last;
}

const joinsByWord: ReadonlySet<string> = new Set(joiningWords);
const joinsBySign = new Set([',', ':', '|', '/', '(', '{']);
const startsBySign = new Set([',', ':', '|', '/', '(', '{', ')', '}']);

function split(tokens: readonly Token[], from: number, to: number, context: 'file' | 'type', openLine = -1): Chunk[] {
  const chunks: Chunk[] = [];
  let doc: number | undefined;
  for (let i = from; i < to;) {
    const token = tokens[i]!;
    if (isComment(token)) {
      if (token.kind === 'doc') doc = i;
      i++;
      continue;
    }
    const { chunk, next } = takeStatement(tokens, i, to, context, openLine);
    chunks.push(doc === undefined ? chunk : { ...chunk, doc });
    doc = undefined;
    i = next;
  }
  return chunks;
}

/** Takes the statement that starts at token `first`, and says where the next one may start. */
function takeStatement(
  tokens: readonly Token[],
  first: number,
  to: number,
  context: 'file' | 'type',
  openLine: number,
): { chunk: Chunk; next: number } {
  const start = tokens[first]!;
  const head = guessHead(tokens, first, to, context);
  let depth = 0;
  let last = first;
  for (let i = first; i < to; i++) {
    const token = tokens[i]!;
    if (isComment(token)) continue;
    if (i > first) {
      if (token.first && head.word === 'type' && context === 'file' && depth === 0 && opensBodyUnasked(tokens, i)) {
        return takeType(tokens, { context, first, last, head }, i - 1, undefined, to);
      }
      if (
        token.first &&
        startsStatement(tokens, i, { joined: joinsBehind(tokens, last), indent: start.indent, depth, context, to })
      )
        break;
      // The word behind a statement's own is always a name of it: `coil coil from in to out`.
      if (last > first && !token.first && context === 'type' && depth === 0 && opensInLine(tokens, i, token.line === openLine))
        break;
    }
    if (isSign(token, '{') && depth === 0 && head.word === 'type' && context === 'file') {
      return takeType(tokens, { context, first, last, head }, i, i, to);
    }
    if (isSign(token, '{') || isSign(token, '(')) depth++;
    else if ((isSign(token, '}') || isSign(token, ')')) && depth > 0) depth--;
    last = i;
  }
  return { chunk: { context, first, last, head }, next: last + 1 };
}

/** A type's first line with its body behind token `before`; `open` is its brace, absent where it is missing in the text. */
function takeType(
  tokens: readonly Token[],
  header: Chunk,
  before: number,
  open: number | undefined,
  to: number,
): { chunk: Chunk; next: number } {
  const { close, end } = findBody(tokens, before, to, tokens[header.first]!.indent);
  const openLine = open === undefined ? -1 : tokens[open]!.line;
  const chunks = split(tokens, before + 1, close ?? end, 'type', openLine);
  const body: Body = { chunks, ...(open === undefined ? {} : { open }), ...(close === undefined ? {} : { close }) };
  return { chunk: { ...header, body }, next: close === undefined ? end : close + 1 };
}

interface Line {
  /** Whether the line above ends with a joining word or sign. */
  readonly joined: boolean;
  /** How deep the statement above stands. */
  readonly indent: number;
  /** How many brackets are open. */
  readonly depth: number;
  readonly context: 'file' | 'type';
  readonly to: number;
}

/** Whether a line that begins with token `i` opens a statement. */
function startsStatement(tokens: readonly Token[], i: number, { joined, indent, depth, context, to }: Line): boolean {
  const token = tokens[i]!;
  const deeper = token.indent > indent;
  const isHead = token.kind === 'word' && (isStatementWord(token.image) || (context === 'type' && isBodyWord(token.image)));
  if (depth > 0) return isHead && !deeper;
  if (isHead) return !(deeper && joined);
  if (joined || joinsBefore(token)) return false;
  // One space too many is mostly what a deleted word leaves behind: there the line's shape decides.
  return !deeper || (token.indent === indent + 1 && guessHead(tokens, i, to, context).word !== undefined);
}

function joinsBehind(tokens: readonly Token[], last: number): boolean {
  const token = tokens[last]!;
  if (token.kind === 'sign') return joinsBySign.has(token.image);
  // A lug may be named `in`: behind a dot the word joins nothing.
  return token.kind === 'word' && joinsByWord.has(token.image) && !isSign(tokens[last - 1], '.');
}

function joinsBefore(token: Token): boolean {
  return token.kind === 'sign' ? startsBySign.has(token.image) : token.kind === 'word' && joinsByWord.has(token.image);
}

/** A line of a body's word under a type whose brace is missing. */
function opensBodyUnasked(tokens: readonly Token[], i: number): boolean {
  const token = tokens[i]!;
  return token.kind === 'word' && isBodyWord(token.image) && !isStatementWord(token.image) && !isSign(tokens[i + 1], '.');
}
