/** What the table of statements says, as the scanner, the messages, completion and colouring ask for it. */
import { bodyWords, patterns, statementEntries, statementWords } from './generated/table.js';
import { beginWith, nextIn, type Fitting, type Next } from './match.js';
import { insideOf, isWordPattern, wordOf, type Pattern, type StatementEntry } from './pattern.js';

export { bodyWords, statementWords };

export type StatementWord = (typeof statementWords)[number];
export type BodyWord = (typeof bodyWords)[number];
/** A word that opens a statement. */
export type HeadWord = StatementWord | BodyWord;

const inFile: ReadonlySet<string> = new Set(statementWords);
const inBody: ReadonlySet<string> = new Set(bodyWords);

/** Whether the word opens a statement of a file. */
export function isStatementWord(word: string): word is StatementWord {
  return inFile.has(word);
}

/** Whether the word opens a statement in the body of a type. */
export function isBodyWord(word: string): word is BodyWord {
  return inBody.has(word);
}

/** Whether the word opens a statement anywhere. */
export function isHeadWord(word: string): word is HeadWord {
  return isStatementWord(word) || isBodyWord(word);
}

/** What is said of a statement. */
export function entryOf(word: HeadWord): StatementEntry {
  return statementEntries[word];
}

/** What a rule of the grammar takes. */
export function ruleOf(name: string): Pattern {
  return patterns[name] ?? { all: [] };
}

/** What may come behind the tokens of a statement so far, its word the first. */
export function nextOf(word: HeadWord, tokens: readonly Fitting[]): Next {
  return nextIn(ruleOf(entryOf(word).rule), tokens);
}

/** Whether a sign may stand right behind a statement's word. */
export function mayFollowHead(word: HeadWord, sign: string): boolean {
  return nextOf(word, [{ kind: 'word', image: word }]).words.includes(sign);
}

/**
 * Whether tokens open a statement of this word beyond doubt: they fit its rule up to the first word or sign that must stand behind the
 * statement's own (`coil main from`, `at 1 joins`). `undefined` where the rule has none, so that a name might as well be meant.
 */
export function opensSurely(word: HeadWord, tokens: readonly Fitting[]): boolean | undefined {
  const parts = partsOf(word);
  const fixed = parts.findIndex((part, i) => i > 0 && isWordPattern(part));
  if (fixed < 0) return undefined;
  // A comma where the row may go on says as much as the colon behind it.
  const first = parts.findIndex((part, i) => i > 0 && beginsWithWord(part));
  return beginWith({ all: [...parts.slice(0, first), { any: parts.slice(first, fixed + 1).map(firstOf) }] }, tokens);
}

/** Words that open a clause which may be left out: one of them misspelt is read as a free word, and noticed only behind it. */
export function clauseWords(word: HeadWord): readonly string[] {
  const optional = partsOf(word).filter((part) => !isWordPattern(part) && 'repeat' in part);
  return optional.flatMap((part) => nextIn(part, []).words).filter(isWord);
}

/** Whether a number and a word behind it can be nothing but a value and its unit in this statement. */
export function takesValues(word: HeadWord): boolean {
  const rules = slotsIn(ruleOf(entryOf(word).rule));
  return rules.every((rule) => ofValues.has(rule) || besideValues.has(rule)) && rules.some((rule) => ofValues.has(rule));
}

const ofValues: ReadonlySet<string> = new Set(['Free', 'Measure', 'Spot', 'Block']);
const besideValues: ReadonlySet<string> = new Set(['Name', 'Dotted', 'Figure', 'Quote', 'Ends']);

/** Words that open a claim of `expect` or `measured`. */
export const claimWords: readonly string[] = nextIn(ruleOf('Claim'), []).words;

/** All words of claims but for the arrangements in them. */
export const wordsOfClaims: readonly string[] = distinct(slotsIn(ruleOf('Claim')).flatMap((rule) => wordsIn(ruleOf(rule))));

/** Words that join pickups and coils: `series`, `reversed`. */
export const arrangementWords: readonly string[] = distinct(wordsIn(ruleOf('Arrangement')));

/** The rules without the words that open a statement. */
const inner: readonly Pattern[] = Object.entries(patterns).map(([name, pattern]) =>
  Object.values(statementEntries).some(({ rule }) => rule === name) ? { all: partsIn(pattern).slice(1) } : pattern,
);

/** Words of the language that stand inside of statements. */
export const innerWords: readonly string[] = distinct(inner.flatMap(wordsIn));

/** Those behind which something more must stand. */
export const demandingWords: ReadonlySet<string> = new Set(inner.flatMap(demandingIn));

function partsOf(word: HeadWord): readonly Pattern[] {
  return partsIn(ruleOf(entryOf(word).rule));
}

function partsIn(pattern: Pattern): readonly Pattern[] {
  return !isWordPattern(pattern) && 'all' in pattern ? pattern.all : [pattern];
}

function slotsIn(pattern: Pattern): string[] {
  return !isWordPattern(pattern) && 'of' in pattern ? [pattern.of] : insideOf(pattern).flatMap(slotsIn);
}

function wordsIn(pattern: Pattern): string[] {
  return isWordPattern(pattern) ? [wordOf(pattern)].filter(isWord) : insideOf(pattern).flatMap(wordsIn);
}

function beginsWithWord(pattern: Pattern): boolean {
  return isWordPattern(firstOf(pattern));
}

/** The first of what a pattern takes in a row. */
function firstOf(pattern: Pattern): Pattern {
  if (isWordPattern(pattern)) return pattern;
  const first = 'all' in pattern ? pattern.all[0] : 'repeat' in pattern ? pattern.repeat : undefined;
  return first === undefined ? pattern : firstOf(first);
}

/** Words at whose end a part of a row stands, where another that is more than signs must follow. */
function demandingIn(pattern: Pattern): string[] {
  const parts = partsIn(pattern);
  const here = parts.flatMap((part, i) => {
    const next = parts[i + 1];
    const must = next !== undefined && !(!isWordPattern(next) && 'repeat' in next && next.least === 0);
    return must && hasMoreThanSigns(next) ? lastWords(part) : [];
  });
  return [...here, ...insideOf(pattern).flatMap(demandingIn)];
}

function hasMoreThanSigns(pattern: Pattern): boolean {
  const { words, slots } = nextIn(pattern, []);
  return slots.length > 0 || words.some(isWord);
}

function lastWords(pattern: Pattern): string[] {
  if (isWordPattern(pattern)) return [wordOf(pattern)].filter(isWord);
  if ('of' in pattern) return [];
  return 'all' in pattern ? pattern.all.slice(-1).flatMap(lastWords) : insideOf(pattern).flatMap(lastWords);
}

function isWord(word: string): boolean {
  return /^[a-z]/.test(word);
}

function distinct(words: readonly string[]): string[] {
  return [...new Set(words)];
}
