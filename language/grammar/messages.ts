/** What is said about a statement that cannot be read: its own form, what was met, and what belongs there. */
import type { StatementEntry } from './syntax/pattern.js';
import { bodyWords, isBodyWord, isStatementWord, statementWords, type HeadWord } from './syntax/syntax.js';
import { listed } from '../words.js';

/** Where the reader was, of what it met, and what it would have taken. */
export interface Stop {
  /** What one must have, and what may follow at its end. */
  readonly says: Pick<StatementEntry, 'needs' | 'more'>;
  /** As written; absent at the statement's end. */
  readonly found?: string;
  /** The word of the language that it is near to. */
  readonly meant?: string;
  /** Token names that would have fitted; none where the statement was already whole. */
  readonly expected: readonly string[];
  /** Names of the grammar's rules that were being read, outermost first. */
  readonly rules: readonly string[];
}

/** The sentence for a statement that stops making sense. */
export function stopMessage(stop: Stop): string {
  const { found, expected, rules } = stop;
  const { needs, more } = stop.says;
  if (rules.includes('Block') && !expected.includes('{')) {
    const colon = found === ':' ? '; leave out the `:`' : '';
    return `${met(found)} does not belong in braces; they hold names, each with its value: { wound reverse, magnet south }${colon}`;
  }
  if (expected.length === 0) return `${met(found)} does not belong here; ${more ?? needs}`;
  const belongs = expectedHere(expected, rules);
  const meant = stop.meant === undefined ? '' : `; did you mean \`${stop.meant}\`?`;
  const where =
    found === undefined ? `the line ends where ${belongs} is expected` : `found ${met(found)} where ${belongs} is expected`;
  return `${where}${meant}; ${needs}`;
}

/** The sentence for a line that begins with a word that opens no statement. */
export function headMessage(
  found: string,
  form: 'misspelt' | 'missing' | 'unknown',
  word: HeadWord | undefined,
  context: 'file' | 'type',
): string {
  if (form === 'misspelt') return `\`${found}\` is an unknown statement; did you mean \`${word}\`?`;
  if (form === 'missing') return `the first word of the statement is missing; did you mean \`${word} ${found} …\`?`;
  const words: readonly string[] = context === 'file' ? statementWords : bodyWords;
  const place = context === 'file' ? 'a line' : 'a line of a type';
  return `\`${found}\` is an unknown statement; ${place} begins with ${listed(words, 'or')}`;
}

/** The sentence for a statement in the wrong place, `undefined` where it stands right. */
export function placeMessage(head: HeadWord, context: 'file' | 'type'): string | undefined {
  if (context === 'file' && !isStatementWord(head)) return `\`${head}\` belongs in the body of a type: type NAME : BASE { … }`;
  if (context === 'type' && !isBodyWord(head))
    return `\`${head}\` can’t be in a type; close the type's body with \`}\` before it`;
  return undefined;
}

/** What belongs in a place, in the bench's words. */
function expectedHere(expected: readonly string[], rules: readonly string[]): string {
  const place = rules[rules.length - 1];
  if (rules.includes('Arrangement') && expected.includes('series')) return 'a pickup, series(…), parallel(…) or mixed(…)';
  if (place === 'Position') return 'a position, by number or name,';
  if (rules.includes('Setting')) return 'a control';
  if (expected.includes('NAME') && expected.includes('VALUE') && !expected.includes('TEXT')) return 'a lug';
  if (place === 'Measure') return 'a value';
  const names = [...new Set(expected.map((name) => called.get(name) ?? `\`${name}\``))];
  return listed(names, 'or');
}

/** What the kinds of words are called. */
const called = new Map([
  ['NAME', 'a name'],
  ['FREE', 'a word'],
  ['PLAIN', 'a value'],
  ['VALUE', 'a value'],
  ['BLANK', 'a value'],
  ['TEXT', 'text in quotes'],
]);

function met(found: string | undefined): string {
  return found === undefined ? 'nothing' : `\`${found}\``;
}
