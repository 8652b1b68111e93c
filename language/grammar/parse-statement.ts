/** One statement from text to tree, with at most one problem where one says it all. */
import { buildStatement, type PlacelessStatement } from './build.js';
import type { Head } from './heads.js';
import { headMessage, placeMessage, stopMessage } from './messages.js';
import { nearest } from '../nearest.js';
import { parseStatement, type RawStatement } from './reading/read.js';
import type { Readings } from './reading/services.js';
import { soundTokens, type SignProblem } from './signs.js';
import { isSign, type Token } from './tokens.js';
import type { LocalRange, LocalRewrite } from './tree.js';
import { clauseWords, entryOf, takesValues, type HeadWord } from './syntax/syntax.js';

/** A problem in a statement, counted from the statement's first line. */
export interface LocalProblem {
  readonly message: string;
  readonly range: LocalRange;
  /** What is to be written where, if there is no doubt. */
  readonly rewrites?: readonly LocalRewrite[];
}

export interface ReadStatement {
  readonly statement?: PlacelessStatement;
  readonly problems: readonly LocalProblem[];
}

/** Reads one statement of a file or of a type's body, from its tokens without comments. */
export function readStatement(tokens: readonly Token[], head: Head, context: 'file' | 'type'): ReadStatement {
  const { word } = head;
  const misplaced = word === undefined ? undefined : placeMessage(word, context);
  if (word === undefined || misplaced !== undefined) return { problems: unreadable(tokens, head, context, misplaced) };
  const known = { ...head, word };
  let sound = soundTokens(tokens, takesValues(word));
  let raw = parseStatement(sound, known);
  // An arrow that joins no two ends is a stray sign (`expect selector 1 -> sounds neck`).
  if (sound.hasArrow && raw.result?.parserErrors.length !== 0) {
    sound = soundTokens(tokens, takesValues(word), false);
    raw = parseStatement(sound, known);
  }
  if (!raw.result) return { problems: raw.problem ? [ofSign(raw.problem)] : [] };
  const stop = firstStop(raw, word);
  // One problem a statement: what is wrong with a sign mostly is why the rest does not fit.
  const problems: LocalProblem[] = [];
  if (raw.problem) problems.push(ofSign(raw.problem));
  else if (head.form !== 'written') problems.push(...raw.tokens.slice(0, 1).map((token) => wrongHead(token, head, context)));
  else if (stop) problems.push(stop.problem);
  // Read once more with a misspelt word put right, so that the rest of the statement is understood.
  if (stop?.readings) raw = parseStatement(sound, known, stop.readings);
  const built = build(raw, word, head, problems);
  return { problems, ...(built ? { statement: built } : {}) };
}

function build(raw: RawStatement, word: HeadWord, head: Head, problems: LocalProblem[]): PlacelessStatement | undefined {
  const { result, tokens } = raw;
  const [first, last] = [tokens[0], tokens[tokens.length - 1]];
  if (result === undefined || first === undefined || last === undefined) return undefined;
  const range = { start: tokenRange(first).start, end: tokenRange(last).end };
  const headRange = head.form === 'missing' ? { start: range.start, end: range.start } : tokenRange(first);
  const understood = result.parserErrors.length === 0 && !raw.problem;
  const broken = problems[0] && !understood ? clauseStart(tokens, problems[0].range) : undefined;
  return buildStatement(result.value, {
    head: word,
    range,
    headRange,
    ...(broken ? { broken } : {}),
    problem: (where, message) => {
      if (problems.length === 0) problems.push({ range: where, message });
    },
  });
}

/** The place behind the last comma or colon before a problem: what stands there is not whole. */
function clauseStart(tokens: readonly Token[], problem: LocalRange): LocalRange {
  const isBefore = ({ line, character }: Token) =>
    line < problem.start.line || (line === problem.start.line && character < problem.start.character);
  const before = tokens.filter((token) => isBefore(token) && (isSign(token, ',') || isSign(token, ':')));
  const last = before[before.length - 1];
  return last ? { start: tokenRange(last).end, end: problem.end } : problem;
}

/** Where Langium stopped first, said in trade words. */
function firstStop(raw: RawStatement, head: HeadWord): Stopped | undefined {
  const error = raw.result?.parserErrors[0];
  if (!error) return unnoticedSlip(raw.tokens, head);
  const expected = error.message === '' ? [] : error.message.split(' ');
  const rules = rulesOf(error);
  const at = raw.tokens.findIndex((token) => token.start === error.token.startOffset && token.image === error.token.image);
  const found = raw.tokens[at];
  const slip = found ? misspelt(raw.tokens, at, expected, head) : undefined;
  const shown = slip?.token ?? found;
  const message = stopMessage({
    says: entryOf(head),
    // Where the slip was read as a free word, the word it was meant for is what belongs there.
    expected: slip && expected.length === 0 ? [slip.word] : expected,
    rules,
    ...(shown ? { found: shown.image } : {}),
    ...(slip ? { meant: slip.word } : {}),
  });
  const place = shown ?? raw.tokens[raw.tokens.length - 1];
  if (place === undefined) return undefined;
  const range = tokenRange(place);
  // `wire a.1 b.2`: two ends and nothing between them. A word without a lug may be a colour.
  const isBetween = slip === undefined && expected.length === 1 && expected[0] === 'to' && isSign(raw.tokens[at + 1], '.');
  const rewrites = isBetween ? [{ range: { start: range.start, end: range.start }, text: 'to ' }] : undefined;
  const problem = { message, range, ...(rewrites && { rewrites }) };
  return { problem, ...(slip ? { readings: new Map([[slip.token.start, slip.word]]) } : {}) };
}

/** `measured betwen A and B` reads as two settings; that nobody names a switch `and` tells what is meant. */
function unnoticedSlip(tokens: readonly Token[], head: HeadWord): Stopped | undefined {
  const second = tokens[1];
  if (head !== 'measured' || second?.kind !== 'word' || second.image === 'between') return undefined;
  if (nearest(second.image, ['between']) === undefined || !tokens.some((token) => token.image === 'and')) return undefined;
  const message = stopMessage({ says: entryOf(head), found: second.image, expected: ['between'], meant: 'between', rules: [] });
  return { problem: atToken(second, message), readings: new Map([[second.start, 'between']]) };
}

/** Where reading stopped; `readings` where a word is but misspelt. */
interface Stopped {
  readonly problem: LocalProblem;
  readonly readings?: Readings;
}

interface Misspelling {
  readonly token: Token;
  readonly word: string;
}

/** The word that is near to one of the language which would have fitted: the one met, or one before it that was taken for a free word. */
function misspelt(tokens: readonly Token[], at: number, expected: readonly string[], head: HeadWord): Misspelling | undefined {
  if (expected.length === 0) return misspeltClause(tokens, at, head);
  const token = tokens[at];
  // A word with a dot behind it is a part's name, however near it comes to a word of the language.
  if (token?.kind !== 'word' || isSign(tokens[at + 1], '.')) return undefined;
  // `across A to B`, `from A and B`: the other joining word is meant.
  const [wanted] = expected;
  if (expected.length === 1 && (wanted === 'and' || wanted === 'to') && (token.image === 'and' || token.image === 'to')) {
    return { token, word: wanted };
  }
  const word = nearest(
    token.image,
    expected.filter((name) => /^[a-z]/.test(name)),
  );
  return word === undefined ? undefined : { token, word };
}

/** A word before token `at` that was taken for a free word but is near to one that opens a clause. */
function misspeltClause(tokens: readonly Token[], at: number, head: HeadWord): Misspelling | undefined {
  const words = clauseWords(head);
  for (let i = at; i > 1 && i > at - 4; i--) {
    const token = tokens[i];
    if (token?.kind !== 'word' || words.includes(token.image)) continue;
    const word = nearest(token.image, words);
    if (word !== undefined) return { token, word };
  }
  return undefined;
}

function unreadable(
  [first]: readonly Token[],
  head: Head,
  context: 'file' | 'type',
  misplaced: string | undefined,
): LocalProblem[] {
  if (first === undefined) return [];
  const message = first.problem ?? misplaced;
  return [message === undefined ? wrongHead(first, head, context) : atToken(first, message)];
}

function wrongHead(token: Token, head: Head, context: 'file' | 'type'): LocalProblem {
  return {
    message: headMessage(token.image, head.form as 'misspelt' | 'missing' | 'unknown', head.word, context),
    range: tokenRange(token),
  };
}

function ofSign({ token, message, rewrites }: SignProblem): LocalProblem {
  const written = rewrites?.map(({ token: place, text }) => ({ range: tokenRange(place), text }));
  return { ...atToken(token, message), ...(written && { rewrites: written }) };
}

function atToken(token: Token, message: string): LocalProblem {
  return { message, range: tokenRange(token) };
}

/** The rules that were being read where an error arose, outermost first. */
export function rulesOf(error: { readonly context?: { readonly ruleStack?: string[] } } | undefined): string[] {
  return (error?.context?.ruleStack ?? []).map((rule) => rule.replace(/\u200B$/, ''));
}

/** Where a token stands. */
export function tokenRange(token: Token): LocalRange {
  return { start: { line: token.line, character: token.character }, end: { line: token.endLine, character: token.endCharacter } };
}
