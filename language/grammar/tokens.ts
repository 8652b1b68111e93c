/** The lexer: a text cut into words, values, strings, signs and comments, each with its place. Nothing is ever refused. */
import { terminals } from './syntax/generated/table.js';
import { visible } from '../escape.js';

export type TokenKind = 'word' | 'value' | 'text' | 'blank' | 'sign' | 'comment' | 'doc' | 'stray';

export interface Token {
  readonly kind: TokenKind;
  readonly image: string;
  /** Offsets in the text, `end` just behind the last character. */
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly character: number;
  readonly endLine: number;
  readonly endCharacter: number;
  /** First on its line, comments aside. */
  readonly first: boolean;
  /** Width of the white space before the first token of its line, a tab reaching to the next multiple of four. */
  readonly indent: number;
  /** What is wrong with this token by itself, in trade words. */
  readonly problem?: string | undefined;
}

/** How wide white space at the beginning of a line is, a tab reaching to the next multiple of four. */
export function widthOfIndent(space: string): number {
  return [...space].reduce((width, char) => (char === '\t' ? width - (width % 4) + 4 : char === '\uFEFF' ? width : width + 1), 0);
}

/** Cuts a text into tokens. */
export function tokenize(text: string): Token[] {
  const tokens: Token[] = [];
  let offset = 0;
  let line = 0;
  let lineStart = 0;
  let indent = 0;
  let fresh = true;

  /** Moves over white space or a comment and counts the lines in it. */
  const passOver = (end: number) => {
    for (; offset < end; offset++) {
      const code = text.charCodeAt(offset);
      if (code === 10 || (code === 13 && text.charCodeAt(offset + 1) !== 10)) {
        line++;
        lineStart = offset + 1;
        indent = 0;
        fresh = true;
      } else if (fresh) {
        indent = code === 9 ? indent - (indent % 4) + 4 : code === 0xfeff ? indent : indent + 1;
      }
    }
  };

  while (offset < text.length) {
    const blank = match(whiteSpace, text, offset);
    if (blank > offset) {
      passOver(blank);
      continue;
    }
    const start = offset;
    const startLine = line;
    const startCharacter = start - lineStart;
    const startIndent = indent;
    const { kind, end, problem } = nextToken(text, offset, tokens[tokens.length - 1]);
    const comment = kind === 'comment' || kind === 'doc';
    const first = fresh && !comment;
    if (comment) {
      const before: boolean = fresh;
      passOver(end);
      // A comment before the first word of a line does not make that word any less the first.
      fresh = before || line > startLine;
      if (line === startLine) indent = startIndent;
    } else {
      offset = end;
      fresh = false;
    }
    // The property is set even where there is no problem: adding it later would cost extra memory for each token.
    tokens.push({
      kind,
      image: text.slice(start, end),
      start,
      end,
      line: startLine,
      character: startCharacter,
      endLine: line,
      endCharacter: end - lineStart,
      first,
      indent: startIndent,
      problem,
    });
  }
  return tokens;
}

/** Whether a token counts for the meaning of the text. */
export function isComment(token: Token): boolean {
  return token.kind === 'comment' || token.kind === 'doc';
}

/** Whether the token is this sign. */
export function isSign(token: Token | undefined, image: string): boolean {
  return token !== undefined && token.kind === 'sign' && token.image === image;
}

/** The text of a string token, quotes and escapes resolved, what cannot be seen in it marked; one without its closing quote is read as far as it goes. */
export function textOf(image: string): string {
  const closing = image[0] === '"' ? /^"(\\.|[^"\\])*"$/u : /["“”’']$/;
  const closed = image.length > 1 && closing.test(image);
  return visible(image.slice(1, closed ? -1 : undefined).replace(/\\(["\\])/g, '$1')).replaceAll('\t', ' ');
}

const sticky = (regex: RegExp) => new RegExp(regex.source, regex.flags.replace('g', '') + 'y');
const whiteSpace = sticky(terminals.WS);
const word = sticky(terminals.PLAIN);
const value = sticky(terminals.VALUE);
const quoted = sticky(terminals.TEXT);
const lineComment = sticky(terminals.LINE_COMMENT);
const restOfLine = /[^\r\n]*/y;
const curled = /[“”„][^“”"\r\n]*[“”"]|'[^'"\r\n]*'|‘[^’"\r\n]*’/y;
const strayRun = /[^\s\p{L}\p{N}_"{}(),:.|/?-]+/uy;
const commentEnd = /\*\/|[\r\n][ \t]*\/\*/g;
const commentLines = /[^\r\n]*(\r\n?|\n)[ \t]*\*(?!\/)[^\r\n]*/y;
const signs = '{}(),:.|/-';

function match(regex: RegExp, text: string, offset: number): number {
  regex.lastIndex = offset;
  return regex.test(text) ? regex.lastIndex : -1;
}

interface Cut {
  readonly kind: TokenKind;
  readonly end: number;
  readonly problem?: string;
}

function nextToken(text: string, offset: number, previous: Token | undefined): Cut {
  const char = text.charAt(offset);
  if (char === '/' && (text[offset + 1] === '*' || text[offset + 1] === '/')) return comment(text, offset);
  if (char === '"') {
    const end = match(quoted, text, offset);
    if (end > 0) return { kind: 'text', end };
    return { kind: 'text', end: match(restOfLine, text, offset), problem: 'this text has no closing quote `"` on its line' };
  }
  // A dot tight behind a word joins a lug to it; else a dot before a digit begins a value (`.022u`).
  const joins = previous !== undefined && previous.end === offset && (previous.kind === 'word' || previous.kind === 'value');
  if (char === '.' && (joins || isSign(previous, '.'))) return { kind: 'sign', end: offset + 1 };
  const wordEnd = match(word, text, offset);
  if (wordEnd > 0) return { kind: 'word', end: wordEnd };
  const valueEnd = match(value, text, offset);
  if (valueEnd > 0) return { kind: 'value', end: valueEnd };
  if (char === '?') return { kind: 'blank', end: offset + 1 };
  if (signs.includes(char)) return { kind: 'sign', end: offset + 1 };
  if (char === '%') return { kind: 'stray', end: offset + 1, problem: 'there is a space before `%`: write `15%`' };
  const curledEnd = match(curled, text, offset);
  if (curledEnd > 0) return { kind: 'text', end: curledEnd, problem: 'this is not a straight double quote: write text as "…"' };
  const end = Math.max(match(strayRun, text, offset), offset + 1);
  return { kind: 'stray', end, problem: `\`${text.slice(offset, end)}\` is not a sign of the language` };
}

function comment(text: string, offset: number): Cut {
  if (text[offset + 1] === '/') return { kind: 'comment', end: match(lineComment, text, offset) };
  const kind = text[offset + 2] === '*' && text[offset + 3] !== '/' ? 'doc' : 'comment';
  // Where another comment opens at a line's start before this one closes, this one was never closed.
  commentEnd.lastIndex = offset + 2;
  if (commentEnd.exec(text)?.[0] === '*/') return { kind, end: commentEnd.lastIndex };
  let end = match(restOfLine, text, offset);
  for (let more = end; (more = match(commentLines, text, end)) > 0;) end = more;
  return { kind, end, problem: 'this comment has no closing `*/`' };
}
