/** What is being typed at a place: the statement, what stands of it before the cursor, and the word under the cursor. */
import type { Position, Range } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { isComment, isSign, lastOf, scanStatements, tokenize, type Chunk, type Token } from '../../language/grammar/index.js';

export interface Typing {
  /** Whether a statement of a file is being written, or one in the body of a type. */
  readonly scope: 'file' | 'type';
  /** The statement's word; absent where that is what is being typed. */
  readonly head?: string;
  /** The tokens of the statement before the word under the cursor, comments left out, the head first. */
  readonly before: readonly Token[];
  /** The word under the cursor up to the cursor, quotes included; empty between two words. */
  readonly word: string;
  /** The whole word, which a completion takes the place of. */
  readonly range: Range;
  /** The name and base of the type whose body is being written. */
  readonly type?: { readonly name: string; readonly base: string; readonly line: number };
}

/** Stands for the word that is being typed, so that a text is cut into statements as if that word were there. */
const standIn = 'zzz';

/** `undefined` in a comment. */
export function typingAt(document: TextDocument, position: Position): Typing | undefined {
  const text = document.getText();
  const offset = document.offsetAt(position);
  const under = tokenUnder(text, offset);
  if (under !== undefined && isComment(under)) return undefined;
  const [start, end] = under === undefined ? [offset, offset] : [startOf(text, under), isOpenText(under) ? offset : under.end];
  const scan = scanStatements(text.slice(0, start) + standIn + text.slice(end));
  const at = scan.tokens.findIndex((token) => token.start <= start && token.end >= start + standIn.length);
  const found = at < 0 ? undefined : chunkAt(scan.chunks, at);
  if (found === undefined) return undefined;
  const { chunk, outer } = found;
  const before = scan.tokens.slice(chunk.first, at).filter((token) => !isComment(token));
  const type = outer === undefined ? undefined : typeOf(scan.tokens, outer);
  return {
    scope: chunk.context,
    before,
    word: text.slice(start, offset),
    range: { start: document.positionAt(start), end: document.positionAt(end) },
    ...(before[0] === undefined ? {} : { head: chunk.head.word ?? before[0].image }),
    ...(type === undefined ? {} : { type }),
  };
}

/** The word, value or text that the cursor stands in or right behind. */
function tokenUnder(text: string, offset: number): Token | undefined {
  const tokens = tokenize(text);
  return tokens.find((token, i) => {
    if (token.kind === 'word' || token.kind === 'value') return token.start < offset && offset <= token.end;
    if (token.kind === 'comment' || token.kind === 'doc')
      return token.start < offset && (offset < token.end || !token.image.endsWith('*/')) && offset <= token.end;
    if (token.kind === 'text') return token.start < offset && (offset < token.end || isOpenText(token)) && offset <= token.end;
    return token.end === offset && isPointBehindDigits(tokens, i);
  });
}

/** The point of `4.` belongs to its digits. */
function startOf(text: string, { kind, start }: Token): number {
  if (kind !== 'sign') return start;
  let digits = start;
  while (/\d/.test(text[digits - 1] ?? '')) digits--;
  return digits;
}

/** `4.`: a value whose digits behind the point are still to come. Behind the dot of a lug (`volume.3.`) it is none. */
function isPointBehindDigits(tokens: readonly Token[], i: number): boolean {
  const digits = tokens[i - 1];
  return isSign(tokens[i], '.') && digits?.kind === 'value' && /^\d+$/.test(digits.image) && !isSign(tokens[i - 2], '.');
}

/** A text without its closing quote runs on to the end of the line: what lies behind the cursor is not of it. */
function isOpenText(token: Token): boolean {
  return token.kind === 'text' && token.problem !== undefined;
}

function chunkAt(chunks: readonly Chunk[], token: number): { readonly chunk: Chunk; readonly outer?: Chunk } | undefined {
  for (const chunk of chunks) {
    if (token < chunk.first || token > Math.max(lastOf(chunk), chunk.last)) continue;
    const inner = chunk.body === undefined ? undefined : chunkAt(chunk.body.chunks, token);
    return inner === undefined ? { chunk } : { chunk: inner.chunk, outer: chunk };
  }
  return undefined;
}

function typeOf(tokens: readonly Token[], chunk: Chunk): Typing['type'] {
  const header = tokens.slice(chunk.first, chunk.last + 1).filter((token) => !isComment(token));
  const colon = header.findIndex((token) => isSign(token, ':'));
  return { name: header[1]?.image ?? '', base: header[colon + 1]?.image ?? '', line: header[0]?.line ?? 0 };
}
