/** Many copies of one circuit in a single text: the parts of each renamed, one jack and one title for all. */
import { isSign, parseText, scanStatements, type Statement, type Token } from '../../language/grammar/index.js';

/** The text that many times. What is declared once (its title, its types, jacks) stays; every other name gets the copy's number. */
export function copiesOf(text: string, count: number): string {
  const { tokens, chunks } = scanStatements(text);
  const { statements } = parseText('bench:/copied.lug', text);
  const parts = statements.filter((statement) => statement.kind === 'part');
  const shared = new Set(parts.filter(({ type }) => type.text.startsWith('jack')).flatMap(namesOf));
  const named = new Set(
    statements.flatMap((statement) => ('name' in statement || statement.kind === 'part' ? namesOf(statement) : [])),
  );
  const once: string[] = [];
  const many: ((copy: number) => string)[] = [];
  for (const chunk of chunks) {
    const last = chunk.body?.close ?? chunk.last;
    const [start, end] = [tokens[chunk.first]!.start, tokens[last]!.end];
    const word = chunk.head.word;
    const isJack = word === 'part' && shared.has(tokens[chunk.first + 1]!.image);
    if (isJack || ['instrument', 'type', 'use', 'rig', 'build'].includes(word ?? '')) once.push(text.slice(start, end));
    else
      many.push((copy) => {
        let written = '';
        let from = start;
        for (let i = chunk.first + 1; i <= last; i++) {
          const token = tokens[i]!;
          if (!isName(tokens, i, word) || !named.has(token.image) || shared.has(token.image)) continue;
          written += `${text.slice(from, token.end)}-${copy}`;
          from = token.end;
        }
        return written + text.slice(from, end);
      });
  }
  return [...once, ...Array.from({ length: count }, (_, copy) => many.map((write) => write(copy + 1)).join('\n')), ''].join('\n');
}

function namesOf(statement: Statement): readonly string[] {
  if (statement.kind === 'part') return statement.names.map(({ text }) => text);
  return 'name' in statement && statement.kind !== 'type' ? [statement.name.text] : [];
}

/** Whether a word may be a part's or a cavity's name here: not behind a dot, not a part's type, not in the braces of properties. */
function isName(tokens: readonly Token[], i: number, head: string | undefined): boolean {
  const before = tokens[i - 1];
  if (tokens[i]!.kind !== 'word' || isSign(before, '.')) return false;
  if (head === 'part' && isSign(before, ':')) return false;
  return head === 'plate' || !isInBraces(tokens, i);
}

function isInBraces(tokens: readonly Token[], i: number): boolean {
  for (let j = i - 1; j >= 0 && tokens[j]!.line >= tokens[i]!.line - 6; j--) {
    if (isSign(tokens[j], '}')) return false;
    if (isSign(tokens[j], '{')) return true;
    if (tokens[j]!.first && tokens[j]!.line < tokens[i]!.line && tokens[j]!.indent === 0) return false;
  }
  return false;
}
