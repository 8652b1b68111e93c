/** Which statement a line is: by its first word, or by its shape where that word is misspelt or missing. */
import { nearest } from '../nearest.js';
import { isComment, isSign, type Token } from './tokens.js';
import { bodyWords, claimWords, isHeadWord, mayFollowHead, statementWords, type HeadWord } from './syntax/syntax.js';
import { baseWords } from './words.js';

/** What a statement is read as. */
export interface Head {
  /** Absent where no statement can be made out. */
  readonly word?: HeadWord;
  /** `written` as it stands, `misspelt` for another word, `missing` before the first one. */
  readonly form: 'written' | 'misspelt' | 'missing' | 'unknown';
}

/** A head of which it is known what the statement is read as. */
export interface KnownHead extends Head {
  readonly word: HeadWord;
}

/** Says which statement starts at token `first`. */
export function guessHead(tokens: readonly Token[], first: number, to: number, context: 'file' | 'type'): Head {
  const token = tokens[first];
  if (token?.kind === 'word') {
    if (isHeadWord(token.image)) return { word: token.image, form: 'written' };
    const near = nearest(token.image, context === 'file' ? statementWords : bodyWords);
    if (near !== undefined && isHeadWord(near) && fits(near, tokens[first + 1])) return { word: near, form: 'misspelt' };
  }
  const word = headByShape(lineOf(tokens, first, to), context);
  return word === undefined ? { form: 'unknown' } : { word, form: 'missing' };
}

/** Whether a statement of this word can go on with this token; a colon or a dot right behind its word mostly says that the word is a name. */
function fits(word: HeadWord, next: Token | undefined): boolean {
  if (isSign(next, ':')) return mayFollowHead(word, ':');
  return !isSign(next, '.') && !isSign(next, ',');
}

function lineOf(tokens: readonly Token[], first: number, to: number): Token[] {
  const line: Token[] = [];
  for (let i = first; i < to; i++) {
    const token = tokens[i];
    if (token === undefined || (token.first && i > first)) break;
    if (!isComment(token)) line.push(token);
  }
  return line;
}

const bases: readonly string[] = baseWords;

function headByShape(line: readonly Token[], context: 'file' | 'type'): HeadWord | undefined {
  const [first] = line;
  if (context === 'file' && first?.kind === 'text') return first.image.endsWith('.lug"') ? 'use' : 'instrument';
  const colon = line.findIndex((token) => isSign(token, ':'));
  const afterColon = line[colon + 1];
  if (colon > 0 && afterColon?.kind === 'word') {
    const names = line.slice(0, colon).every((token, i) => (i % 2 === 0 ? token.kind === 'word' : isSign(token, ',')));
    if (names && colon === 1 && context === 'file' && isSign(line[3], '{') && bases.includes(afterColon.image)) return 'type';
    if (context === 'file' && claimWords.includes(afterColon.image)) return 'expect';
    if (names) return 'part';
  }
  if (context === 'type' && isWord(line[1], 'joins')) return 'at';
  const end = lugEnd(line);
  return end > 0 && isWord(line[end], 'to') ? 'wire' : undefined;
}

/** Where a leading `PART.LUG` ends in the line; 0 where none stands there. */
function lugEnd(line: readonly Token[]): number {
  let i = 0;
  while (line[i]?.kind === 'word' || (i > 0 && line[i]?.kind === 'value')) {
    i++;
    if (!isSign(line[i], '.')) return i;
    i++;
  }
  return 0;
}

function isWord(token: Token | undefined, image: string): boolean {
  return token?.kind === 'word' && token.image === image;
}
