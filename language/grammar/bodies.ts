/** Where the body of a type ends, and where one statement of it ends on the same line as the next begins. */
import { isComment, isSign, type Token } from './tokens.js';
import { isBodyWord, isStatementWord, opensSurely } from './syntax/syntax.js';

/**
 * Finds the end of a type's body that begins behind token `before`. `close` is the index of its closing brace; without one
 * the body ends before token `end`, where something begins that can only stand outside.
 */
export function findBody(tokens: readonly Token[], before: number, to: number, indent: number): { close?: number; end: number } {
  const laidOut = closeByLayout(tokens, before, to, indent);
  if (laidOut !== undefined) return { close: laidOut, end: laidOut };
  let depth = 1;
  let outside: number | undefined;
  for (let i = before + 1; i < to; i++) {
    const token = tokens[i];
    if (token === undefined || isComment(token)) continue;
    if (token.first && token.indent <= indent) {
      const where = placeOfLine(token);
      if (where === 'outside') return { end: outside ?? i };
      if (where === 'either') outside ??= i;
    }
    if (isSign(token, '{')) depth++;
    else if (isSign(token, '}') && --depth === 0) return { close: i, end: i };
  }
  return { end: outside ?? to };
}

/**
 * Where a line belongs that begins with this token, no deeper than the type. `part`, `wire` and `solder` may be inside and outside, and so may
 * an unknown word: only a closing brace further on shows that they are inside.
 */
function placeOfLine({ kind, image }: Token): 'inside' | 'outside' | 'either' {
  if (kind !== 'word') return 'inside';
  if (isBodyWord(image)) return isStatementWord(image) ? 'either' : 'inside';
  return isStatementWord(image) ? 'outside' : 'either';
}

/**
 * The closing brace of a body that is laid out as usual: on lines of its own, indented deeper than its type, closed by a brace that stands
 * first on a line no deeper than the type. Inner braces need not balance for that, so a lost one spoils its own line only.
 */
function closeByLayout(tokens: readonly Token[], before: number, to: number, indent: number): number | undefined {
  for (let i = before + 1, begun = false; i < to; i++) {
    const token = tokens[i];
    if (token === undefined || isComment(token)) continue;
    if (!begun && !token.first && before >= 0 && isSign(tokens[before], '{')) return undefined;
    begun = true;
    if (token.first && token.indent <= indent) return isSign(token, '}') ? i : undefined;
  }
  return undefined;
}

/**
 * Whether a statement of a body opens at token `i` in the middle of a line. What is unmistakable (`coil x from`, `at 1 joins`) opens one
 * anywhere; a word that might as well be a lug's name only on the type's own first line (`type k : switch { lugs A0 A1 metal frame }`).
 * The word right behind a statement's own is never asked about: it is a name.
 */
export function opensInLine(tokens: readonly Token[], i: number, onTypeLine: boolean): boolean {
  const token = tokens[i];
  const previous = tokens[i - 1];
  if (token?.kind !== 'word' || !isBodyWord(token.image)) return false;
  if (previous?.kind === 'sign' && !isSign(previous, '}') && !isSign(previous, '-')) return false;
  const surely = opensSurely(token.image, tokens.slice(i, i + longestOpening));
  const next = tokens[i + 1];
  return surely ?? (onTypeLine && next !== undefined && !next.first && next.kind !== 'sign');
}

/** As many tokens as decide whether a statement opens: `wire a.b.c to`. */
const longestOpening = 7;
