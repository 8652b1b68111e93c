/** One wrong line spoils one line: some 1,400 single edits of three circuits, a word taken out or a line broken off as while typing. */
import { describe, expect, it } from 'vitest';
import { createTextParser, type BodyStatement, type Statement, type Tree } from '../../language/grammar/index.js';
import { circuits } from './circuits.js';

/** Other lines that may show an error for one edit: the `{` of a type whose `}` is gone. */
const errorsOnOtherLines = 1;
/** Statements above that may change: a line that lost its first word and now reads as the end of the one above. */
const statementsAbove = 1;

const word = /"[^"]*"|[\p{L}\p{N}%?_]+(-[\p{L}\p{N}]+)*|[{}(),:.|/]/gu;

interface Edit {
  readonly line: number;
  readonly text: string;
  readonly name: string;
}

function editsOf(text: string): Edit[] {
  const lines = text.split('\n');
  return lines.flatMap((line, i) => {
    if (/^\s*(\/\/|\/\*)/.test(line)) return [];
    return [...line.matchAll(word)].flatMap((match) => {
      const behind = match.index + match[0].length;
      const edited = [
        ['deleted', line.slice(0, match.index) + line.slice(behind)],
        ['cut behind', line.slice(0, behind)],
      ] as const;
      return edited
        .filter(([, now]) => now !== line)
        .map(([how, now]) => ({
          line: i,
          text: [...lines.slice(0, i), now, ...lines.slice(i + 1)].join('\n'),
          name: `line ${i + 1}, ${how} ${match[0]}`,
        }));
    });
  });
}

interface Said {
  readonly line: number;
  readonly end: number;
  readonly meaning: string;
}

/** Each statement by itself, a type's first line apart from its body. */
function flat(tree: Tree): Said[] {
  return tree.statements.flatMap((statement) => [
    said(statement),
    ...(statement.kind === 'type' ? statement.body.map(said) : []),
  ]);
}

function said(statement: Statement | BodyStatement): Said {
  const meaning = JSON.stringify(statement, (key, value: unknown) =>
    ['range', 'line', 'doc', 'body'].includes(key) ? undefined : value,
  );
  const height = statement.kind === 'type' ? 0 : statement.range.end.line;
  return { line: statement.line, end: statement.line + height, meaning };
}

describe.each(Object.entries(circuits))('recovery in the circuit "%s"', (_, text) => {
  const parser = createTextParser();
  const before = flat(parser.parse('memory:/whole.lug', text));
  const edits = editsOf(text);

  it('reads without a problem as it stands', () => {
    expect(parser.parse('memory:/whole.lug', text).problems).toEqual([]);
  });

  it('loses no later statement, and shows the error where the edit is', () => {
    const failures: string[] = [];
    for (const edit of edits) {
      const tree = parser.parse('memory:/whole.lug', edit.text);
      const now = flat(tree).map((statement) => statement.meaning);
      const isOwn = ({ line, end }: Said) => line <= edit.line && end >= edit.line;
      const lost = before.filter((statement) => !isOwn(statement) && !take(now, statement.meaning));
      const own = before.filter(isOwn);
      const [from, to] = [Math.min(edit.line, ...own.map((s) => s.line)), Math.max(edit.line, ...own.map((s) => s.end))];
      const elsewhere = tree.problems.filter(({ range }) => range.start.line < from || range.start.line > to);
      if (lost.some((statement) => statement.line > edit.line)) failures.push(`${edit.name}: a later statement is lost`);
      if (lost.length > statementsAbove) failures.push(`${edit.name}: ${lost.length} statements above are lost`);
      if (elsewhere.length > errorsOnOtherLines) failures.push(`${edit.name}: ${elsewhere.length} errors on other lines`);
    }
    expect(failures).toEqual([]);
  });
});

function take(list: string[], item: string): boolean {
  const at = list.indexOf(item);
  if (at >= 0) list.splice(at, 1);
  return at >= 0;
}

describe('the edits', () => {
  it('are more than 800', () => {
    expect(Object.values(circuits).flatMap(editsOf).length).toBeGreaterThan(800);
  });
});

describe('reading again after an edit', () => {
  it('reads one statement for one changed line, and none for a line moved', () => {
    for (const text of Object.values(circuits)) {
      const parser = createTextParser();
      const whole = parser.parse('memory:/again.lug', text);
      const first = parser.statementsRead;
      parser.parse(
        'memory:/again.lug',
        text.replace(/part volume[^\n]*/, (line) => `${line} // changed`),
      );
      expect(parser.statementsRead - first).toBe(0);
      const changed = parser.parse(
        'memory:/again.lug',
        text.replace('pot 250k audio', 'pot 500k audio').replace('part volume : pot ?', 'part volume : pot 1M'),
      );
      expect(parser.statementsRead - first).toBe(1);
      parser.parse('memory:/again.lug', `// a line more\n\n${text}`);
      expect(parser.statementsRead - first).toBe(1);
      // What did not change is the same object still, so that later stages may keep what they made of it.
      const same = changed.statements.filter((statement, i) => statement === whole.statements[i]);
      expect(same.length).toBe(whole.statements.length - 1);
    }
  });

  it('forgets the longest unused statements first', () => {
    const parser = createTextParser(2);
    parser.parse('memory:/a.lug', 'part a : star\npart b : star\npart c : star');
    parser.parse('memory:/a.lug', 'part c : star');
    expect(parser.statementsRead).toBe(3);
    parser.parse('memory:/a.lug', 'part a : star');
    expect(parser.statementsRead).toBe(4);
  });

  it('keeps all statements of a text that has more than it holds', () => {
    const parser = createTextParser(2);
    const lines = ['part a : star', 'part b : star', 'part c : star', 'part d : star'];
    parser.parse('memory:/a.lug', lines.join('\n'));
    parser.parse('memory:/a.lug', [...lines.slice(0, 3), 'part e : star'].join('\n'));
    expect(parser.statementsRead).toBe(5);
  });
});
