/** What is being written at a place in a text: the statement, what stands of it before the cursor, and the word under the cursor. */
import { joinsBehind, lastOf, type Chunk, type Scan } from './statements.js';
import { isComment, isSign, widthOfIndent, type Token } from './tokens.js';

export interface Writing {
  /** Whether a statement of a file is being written, or one in the body of a type. */
  readonly scope: 'file' | 'type';
  /** The statement's word; absent where that is what is being written. */
  readonly head?: string;
  /** The tokens of the statement before the word under the cursor, comments left out, the head first. */
  readonly before: readonly Token[];
  /** Offsets of the word under the cursor; both at the cursor between two words. */
  readonly start: number;
  readonly end: number;
  /** The name and base of the type whose body is being written. */
  readonly type?: { readonly name: string; readonly base: string; readonly line: number };
}

/** What is being written at an offset; `undefined` in a comment. */
export function writingAt(scan: Scan, offset: number): Writing | undefined {
  const { tokens } = scan;
  const index = tokenUnder(scan, offset);
  const under = tokens[index];
  if (under !== undefined && isComment(under)) return undefined;
  const start = under === undefined ? offset : startOf(scan.text, under);
  // A text without its closing quote runs on to the end of the line: what lies behind the cursor is not of it.
  const end = under === undefined || isOpenText(under) ? offset : under.end;
  const { chunk, outer } = under === undefined ? placeBetween(scan, offset) : (placeOf(scan.chunks, index) ?? {});
  const before = chunk === undefined ? [] : tokens.slice(chunk.first, chunk.last + 1).filter(isBefore(start));
  const head = before[0] === undefined ? undefined : (chunk?.head.word ?? before[0].image);
  return {
    scope: outer === undefined ? 'file' : 'type',
    before,
    start,
    end,
    ...(head === undefined ? {} : { head }),
    ...(outer === undefined ? {} : { type: typeOf(tokens, outer) }),
  };
}

/** A statement, and the type in whose body it stands; without a statement a new one begins there. */
interface Place {
  readonly chunk?: Chunk;
  readonly outer?: Chunk;
}

function isBefore(start: number): (token: Token) => boolean {
  return (token) => token.start < start && !isComment(token);
}

/** Index of the word, value, text or comment that the cursor is in or right behind; −1 where there is none. */
function tokenUnder({ tokens }: Scan, offset: number): number {
  const index = lastBefore(tokens, offset);
  const token = tokens[index];
  if (token === undefined || offset > token.end) return -1;
  if (token.kind === 'word' || token.kind === 'value') return index;
  if (isComment(token)) return offset < token.end || !token.image.endsWith('*/') ? index : -1;
  if (token.kind === 'text') return offset < token.end || isOpenText(token) ? index : -1;
  return isPointBehindDigits(tokens, index) ? index : -1;
}

/** Index of the last token that begins before an offset. */
function lastBefore(tokens: readonly Token[], offset: number): number {
  let [low, high] = [0, tokens.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((tokens[middle]?.start ?? offset) < offset) low = middle + 1;
    else high = middle;
  }
  return low - 1;
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
  const isTight = digits !== undefined && digits.end === tokens[i]?.start;
  return (
    isTight && isSign(tokens[i], '.') && digits.kind === 'value' && /^\d+$/.test(digits.image) && !isSign(tokens[i - 2], '.')
  );
}

function isOpenText(token: Token): boolean {
  return token.kind === 'text' && token.problem !== undefined;
}

/** The innermost statement that holds a token. */
function placeOf(chunks: readonly Chunk[], token: number): Place | undefined {
  const chunk = chunks.find(
    ({ first, last, ...rest }) => token >= first && token <= Math.max(last, lastOf({ first, last, ...rest })),
  );
  if (chunk === undefined) return undefined;
  const inner = chunk.body === undefined ? undefined : placeOf(chunk.body.chunks, token);
  return inner === undefined ? { chunk } : { ...inner, outer: chunk };
}

/** The statement that a word between two tokens would belong to. */
function placeBetween(scan: Scan, offset: number): Place {
  const { text, tokens } = scan;
  const index = lastButComments(tokens, offset);
  const previous = tokens[index];
  const place = previous === undefined ? undefined : placeOf(scan.chunks, index);
  if (previous === undefined || place?.chunk === undefined) return {};
  const { chunk, outer } = place;
  const indent = indentBehind(text.slice(previous.end, offset));
  const isNoDeeperThan = ({ first }: Chunk): boolean => indent !== undefined && indent <= (tokens[first]?.indent ?? 0);
  const type = outer ?? chunk;
  const { body } = type;
  if (body !== undefined && index === body.close) return {};
  // Where the closing brace is missing, a line that stands no deeper than the type is outside.
  const isInBody = body !== undefined && index >= (body.open ?? type.last);
  if (isInBody && body.close === undefined && isNoDeeperThan(type)) return {};
  if (body !== undefined && index === body.open) return { outer: type };
  const goesOn = depthOf(tokens, chunk.first, index) > 0 || joinsBehind(tokens, index) || !isNoDeeperThan(chunk);
  if (goesOn) return place;
  return outer === undefined ? {} : { outer };
}

/** Index of the last token before an offset that is no comment; −1 where there is none. */
function lastButComments(tokens: readonly Token[], offset: number): number {
  let index = lastBefore(tokens, offset);
  for (let token = tokens[index]; token !== undefined && isComment(token); token = tokens[index]) index--;
  return index;
}

/** The indent of the line that a gap between tokens ends on; `undefined` where the gap has no line end. */
function indentBehind(gap: string): number | undefined {
  return /[\r\n]/.test(gap) ? widthOfIndent(/[^\r\n]*$/.exec(gap)?.[0] ?? '') : undefined;
}

/** How many brackets are open behind a token. */
function depthOf(tokens: readonly Token[], first: number, last: number): number {
  return tokens.slice(first, last + 1).reduce((depth, token) => {
    if (isSign(token, '{') || isSign(token, '(')) return depth + 1;
    return isSign(token, '}') || isSign(token, ')') ? Math.max(0, depth - 1) : depth;
  }, 0);
}

function typeOf(tokens: readonly Token[], chunk: Chunk): NonNullable<Writing['type']> {
  const header = tokens.slice(chunk.first, chunk.last + 1).filter((token) => !isComment(token));
  const colon = header.findIndex((token) => isSign(token, ':'));
  return { name: header[1]?.image ?? '', base: header[colon + 1]?.image ?? '', line: header[0]?.line ?? 0 };
}
