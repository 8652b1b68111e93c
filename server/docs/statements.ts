/** The tables of statements, from the grammar: those of a file, and those for the body of a type alone. */
import { bodyWords, entryOf, formOf, isStatementWord, statementWords, type HeadWord } from '../../language/grammar/index.js';

export function statementTable(): string {
  return table('statement', statementWords);
}

export function bodyTable(): string {
  return table(
    'line',
    bodyWords.filter((word) => !isStatementWord(word)),
  );
}

function table(name: string, words: readonly HeadWord[]): string {
  const cell = (text: string) => text.replaceAll('|', '\\|');
  const rows = words.map((word) => `| \`${cell(formOf(word))}\` | ${cell(entryOf(word).summary)} |`);
  return [`| ${name} | meaning |`, '| --- | --- |', ...rows].join('\n');
}
