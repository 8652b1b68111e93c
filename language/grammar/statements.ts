/** The scanner: cuts a text into statements by its lines, so that one wrong line spoils one line. */
import { isComment, isSign, tokenize, type Token } from './tokens.js';
import { findBody, opensInLine } from './bodies.js';
import { guessHead, type Head } from './heads.js';
import { isBodyWord, isStatementWord } from './syntax/syntax.js';
import { joiningWords } from './words.js';

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

/** The significant tokens of a statement, at most `most` + 1 of them, with positions as if the statement were a separate text with the same indentation on its first line. */
export function tokensOf({ text, tokens }: Scan, { first, last }: Chunk, most: number): Token[] {
  const own: Token[] = [];
  const start = tokens[first]?.start ?? 0;
  const line = tokens[first]?.line ?? 0;
  // Pieces of a copy, for pieces of the text would keep all of it in memory.
  const copy = copyOf(text.slice(start, tokens[last]?.end));
  for (let i = first; i <= last && own.length <= most; i++) {
    const token = tokens[i];
    if (token === undefined || isComment(token)) continue;
    own.push({
      ...token,
      image: copy.slice(token.start - start, token.end - start),
      start: token.start - start,
      end: token.end - start,
      line: token.line - line,
      endLine: token.endLine - line,
    });
  }
  return own;
}

/**
 * A copy of a text in its own memory. A piece of a string keeps the whole alive in the engines at hand, so that without this every statement
 * kept would hold the entire text that it once stood in.
 */
export function copyOf(text: string): string {
  return ` ${text}`.slice(1);
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
    const token = tokens[i];
    if (token === undefined || isComment(token)) {
      if (token?.kind === 'doc') doc = i;
      i++;
      continue;
    }
    const { chunk, next } = takeStatement(tokens, i, token, { to, context, openLine });
    chunks.push(doc === undefined ? chunk : { ...chunk, doc });
    doc = undefined;
    i = next;
  }
  return chunks;
}

interface Stretch {
  readonly to: number;
  readonly context: 'file' | 'type';
  /** The line on which the body's brace stands, −1 where there is none. */
  readonly openLine: number;
}

/** Takes the statement that starts at token `first`, and says where the next one may start. */
function takeStatement(
  tokens: readonly Token[],
  first: number,
  start: Token,
  { to, context, openLine }: Stretch,
): { chunk: Chunk; next: number } {
  const head = guessHead(tokens, first, to, context);
  const isTypeLine = head.word === 'type' && context === 'file';
  let depth = 0;
  let last = first;
  for (let i = first; i < to; i++) {
    const token = tokens[i];
    if (token === undefined || isComment(token)) continue;
    if (i > first && token.first) {
      if (isTypeLine && depth === 0 && opensBodyUnasked(tokens, i)) {
        return takeType(tokens, { context, first, last, head }, { before: i - 1, indent: start.indent, to });
      }
      const line = { joined: joinsBehind(tokens, last), indent: start.indent, depth, context, to };
      if (startsStatement(tokens, i, token, line)) break;
    }
    // The word behind a statement's own is always a name of it: `coil coil from in to out`.
    const isInside = last > first && !token.first && context === 'type' && depth === 0;
    if (isInside && opensInLine(tokens, i, token.line === openLine)) break;
    if (isSign(token, '{') && depth === 0 && isTypeLine) {
      return takeType(tokens, { context, first, last, head }, { before: i, open: token, indent: start.indent, to });
    }
    depth = depthBehind(token, depth);
    last = i;
  }
  return { chunk: { context, first, last, head }, next: last + 1 };
}

/** How many brackets are open behind a token, of `depth` before it. */
function depthBehind(token: Token, depth: number): number {
  if (isSign(token, '{') || isSign(token, '(')) return depth + 1;
  return isSign(token, '}') || isSign(token, ')') ? Math.max(0, depth - 1) : depth;
}

interface Opening {
  /** The token before the body: its brace, or where that is missing the last of the type's first line. */
  readonly before: number;
  /** The brace, where there is one. */
  readonly open?: Token;
  /** How deep the type stands. */
  readonly indent: number;
  readonly to: number;
}

/** A type's first line with its body. */
function takeType(
  tokens: readonly Token[],
  header: Chunk,
  { before, open, indent, to }: Opening,
): { chunk: Chunk; next: number } {
  const { close, end } = findBody(tokens, before, to, indent);
  const chunks = split(tokens, before + 1, close ?? end, 'type', open?.line);
  const body: Body = { chunks, ...(open === undefined ? {} : { open: before }), ...(close === undefined ? {} : { close }) };
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

/** Whether a line that begins with a token opens a statement. */
function startsStatement(
  tokens: readonly Token[],
  i: number,
  token: Token,
  { joined, indent, depth, context, to }: Line,
): boolean {
  const deeper = token.indent > indent;
  const isHead = token.kind === 'word' && (isStatementWord(token.image) || (context === 'type' && isBodyWord(token.image)));
  if (depth > 0) return isHead && !deeper;
  if (isHead) return !(deeper && joined);
  if (joined || joinsBefore(token)) return false;
  // One space too many is mostly what a deleted word leaves behind: there the line's shape decides.
  return !deeper || (token.indent === indent + 1 && guessHead(tokens, i, to, context).word !== undefined);
}

/** Whether a statement runs on over the line end behind a token. */
export function joinsBehind(tokens: readonly Token[], last: number): boolean {
  const token = tokens[last];
  if (token === undefined) return false;
  if (token.kind === 'sign') return joinsBySign.has(token.image);
  // A lug may be named `in`: behind a dot the word joins nothing.
  return token.kind === 'word' && joinsByWord.has(token.image) && !isSign(tokens[last - 1], '.');
}

function joinsBefore(token: Token): boolean {
  return token.kind === 'sign' ? startsBySign.has(token.image) : token.kind === 'word' && joinsByWord.has(token.image);
}

/** A line of a body's word under a type whose brace is missing. */
function opensBodyUnasked(tokens: readonly Token[], i: number): boolean {
  const token = tokens[i];
  return token?.kind === 'word' && isBodyWord(token.image) && !isStatementWord(token.image) && !isSign(tokens[i + 1], '.');
}
