/** The signs of a statement made sound before its grammar is asked: strays out, dots with a lug behind, brackets in pairs. */
import { isSign, type Token } from './tokens.js';
import { parseValue } from './values.js';
import { joiningWords } from './words.js';

/** What is wrong with one sign or word by itself. */
export interface SignProblem {
  readonly token: Token;
  readonly message: string;
  /** What is meant without any doubt: tokens, and what is to be written in their place. */
  readonly rewrites?: readonly Rewrite[];
}

export interface Rewrite {
  readonly token: Token;
  readonly text: string;
}

export interface SoundTokens {
  /** The tokens that count, whatever is unsound left out. */
  readonly tokens: readonly Token[];
  /** Closing brackets that are missing at the end, innermost first. */
  readonly missing: readonly string[];
  /** How many brackets are open at once. */
  readonly deepest: number;
  /** The first thing that is wrong. */
  readonly problem?: SignProblem;
  readonly hasArrow: boolean;
}

/** Makes the tokens of a statement, comments left out, ready for its grammar. `isOfValues` says that a number and a word behind it can be nothing but a value and its unit; `joinsByArrow` that an arrow is read as `to`. */
export function soundTokens(all: readonly Token[], isOfValues: boolean, joinsByArrow = true): SoundTokens {
  const joined: ReturnType<typeof withArrows> = joinsByArrow ? withArrows(all) : { tokens: all };
  const spoilt = joined.tokens.find((token) => token.problem !== undefined);
  const dotted = withoutLooseDots(joined.tokens.filter((token) => token.kind !== 'stray'));
  const whole: ReturnType<typeof withUnits> = isOfValues ? withUnits(dotted.tokens) : { tokens: dotted.tokens };
  // Last, since a decimal comma may have its unit behind a space as well: `2,2 M`.
  const pointed = withDecimals(whole.tokens);
  const paired = inPairs(pointed.tokens);
  const problem =
    spoilt?.problem !== undefined
      ? { token: spoilt, message: spoilt.problem }
      : (joined.problem ?? dotted.problem ?? pointed.problem ?? whole.problem ?? paired.problem);
  return {
    tokens: paired.tokens,
    missing: paired.missing,
    deepest: paired.deepest,
    hasArrow: joined.problem !== undefined,
    ...(problem ? { problem } : {}),
  };
}

const joining: ReadonlySet<string> = new Set(joiningWords);

/** `->`, `-->`, `=>`, `→`, as other notations write what joins two ends. */
const arrow = /^(?:[-–—=]{0,3}>|[→⇒⟶])$/u;

/** Reads an arrow as the word `to`. */
function withArrows(all: readonly Token[]): { tokens: readonly Token[]; problem?: SignProblem } {
  const tokens: Token[] = [];
  const rewrites: Rewrite[] = [];
  for (const [at, token] of all.entries()) {
    if (token.kind !== 'stray' || !/[>→⇒⟶]$/u.test(token.image)) {
      tokens.push(token);
      continue;
    }
    let first = token;
    let from = tokens.length;
    while (isSign(tokens[from - 1], '-') && tokens[from - 1]?.end === first.start) first = tokens[--from] ?? first;
    const image = '-'.repeat(tokens.length - from) + token.image;
    if (!arrow.test(image)) {
      tokens.push(token);
      continue;
    }
    const { end, endLine, endCharacter } = token;
    const read: Token = { ...first, kind: 'word', image: 'to', end, endLine, endCharacter, problem: undefined };
    tokens.splice(from, tokens.length - from, read);
    const space = (isTight: boolean): string => (isTight ? ' ' : '');
    const [before, behind] = [tokens[from - 1]?.end === read.start, all[at + 1]?.start === token.end];
    rewrites.push({ token: { ...read, image }, text: `${space(before)}to${space(behind)}` });
  }
  const [first] = rewrites;
  if (first === undefined) return { tokens };
  return {
    tokens,
    problem: { token: first.token, message: `\`${first.token.image}\` is not a sign of the language: write \`to\``, rewrites },
  };
}

/** Words behind which two numbers with a comma are two measures. */
const ofTwoMeasures: ReadonlySet<string> = new Set(['at', 'size']);

/** Makes two numbers with a comma tight between them one value, where the second bears a unit: `0,022uF`. */
function withDecimals(all: readonly Token[]): { tokens: readonly Token[]; problem?: SignProblem } {
  const tokens: Token[] = [];
  const rewrites: Rewrite[] = [];
  for (const token of all) {
    const [before, number, comma] = [tokens[tokens.length - 3], tokens[tokens.length - 2], tokens[tokens.length - 1]];
    const image = `${number?.image}.${token.image}`;
    const isDecimal =
      token.kind === 'value' &&
      isSign(comma, ',') &&
      comma?.end === token.start &&
      number?.kind === 'value' &&
      number.end === comma.start &&
      /^[-−±]?\d+$/u.test(number.image) &&
      /^\d+[\p{L}%]/u.test(token.image) &&
      !(before?.kind === 'word' && ofTwoMeasures.has(before.image)) &&
      parseValue(image) !== undefined;
    if (!isDecimal) {
      tokens.push(token);
      continue;
    }
    const { end, endLine, endCharacter } = token;
    const value: Token = { ...number, image, end, endLine, endCharacter };
    tokens.splice(-2, 2, value);
    rewrites.push({ token: value, text: image });
  }
  const [first] = rewrites;
  if (first === undefined) return { tokens };
  return {
    tokens,
    problem: { token: first.token, message: `a decimal is written with a point: write \`${first.text}\``, rewrites },
  };
}

/** Takes out dots behind which the lug is missing: with a space and then a joining word (`wire one. to two`) it is not meant for the lug. */
function withoutLooseDots(tokens: readonly Token[]): { tokens: Token[]; problem?: SignProblem } {
  const isLoose = (token: Token, i: number) => {
    const next = tokens[i + 1];
    return isSign(token, '.') && next?.kind === 'word' && next.start > token.end && joining.has(next.image);
  };
  const loose = tokens.find(isLoose);
  if (!loose) return { tokens: [...tokens] };
  const problem = { token: loose, message: 'the lug is missing after this dot: a lug is written PART.LUG' };
  return { tokens: tokens.filter((token, i) => !isLoose(token, i)), problem };
}

/** Makes a number and a unit that stand apart (`250 k`) one value. */
function withUnits(tokens: readonly Token[]): { tokens: Token[]; problem?: SignProblem } {
  const made: Token[] = [];
  let problem: SignProblem | undefined;
  for (const token of tokens) {
    const number = made[made.length - 1];
    const before = made[made.length - 2];
    // Behind a joining word or a dot a number is a lug.
    const isLug = isSign(before, '.') || (before?.kind === 'word' && joining.has(before.image));
    if (number && !isLug && isNumber(number) && token.kind === 'word' && token.line === number.line && isUnit(token.image)) {
      const image = number.image + token.image;
      const { end, endLine, endCharacter } = token;
      const value: Token = { ...number, image, end, endLine, endCharacter };
      problem ??= {
        token: value,
        message: `a value can’t contain spaces: write \`${image}\``,
        rewrites: [{ token: value, text: image }],
      };
      made[made.length - 1] = value;
    } else {
      made.push(token);
    }
  }
  return { tokens: made, ...(problem ? { problem } : {}) };
}

function isNumber(token: Token): boolean {
  return token.kind === 'value' && /^[\d.]+$/.test(token.image);
}

function isUnit(word: string): boolean {
  return !joining.has(word) && parseValue(`1${word}`) !== undefined;
}

/** Takes out closing brackets that close nothing and says which ones are missing at the end. */
function inPairs(tokens: readonly Token[]): { tokens: Token[]; missing: string[]; deepest: number; problem?: SignProblem } {
  const open: Token[] = [];
  const kept: Token[] = [];
  let deepest = 0;
  let problem: SignProblem | undefined;
  for (const token of tokens) {
    if (isSign(token, '{') || isSign(token, '(')) open.push(token);
    if (isSign(token, '}') || isSign(token, ')')) {
      const opener = open[open.length - 1];
      if (opener === undefined || closerOf(opener) !== token.image) {
        problem ??= { token, message: `this \`${token.image}\` has no opening bracket` };
        continue;
      }
      open.pop();
    }
    deepest = Math.max(deepest, open.length);
    kept.push(token);
  }
  const [first] = open;
  if (first) problem ??= { token: first, message: `this \`${first.image}\` has no closing \`${closerOf(first)}\`` };
  return { tokens: kept, missing: open.reverse().map(closerOf), deepest, ...(problem ? { problem } : {}) };
}

function closerOf(token: Token): string {
  return token.image === '{' ? '}' : ')';
}
