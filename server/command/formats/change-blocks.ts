/** Parts of a comparison in Markdown: the table of positions, lists that fold away where they are long. */
import {
  changeSections,
  expectationGroups,
  type Change,
  type ChangeSection,
  type Figures,
  type PositionChange,
} from '../../../language/compare/index.js';
import { escapeMarkdown } from '../../../language/escape.js';
import { capitalised } from '../../../language/words.js';
import { decibels, hertz, ohms } from '../output/figures.js';
import { limitText } from '../../../language/checks/index.js';

const marks: Readonly<Record<string, string>> = { '+': 'new', '-': 'gone', '>': 'moved', '~': 'changed' };
/** Rows and lines beyond these are folded away, so that a comment stays one that is read. */
const mostRows = 24;
const folded = new Set(['cut list', 'steps']);
/** What a reviewer must not miss stands before the details. */
const FIRST = ['not read', 'findings', 'expectations', 'set aside', 'lost', 'controls'];

/** A heading and a list for each section but the table of positions; `aside` leaves out others. Findings come first; expectations of one position share a line. */
export function sectionBlocks(change: Change, aside: ReadonlySet<string> = new Set()): readonly string[] {
  const rank = ({ title }: ChangeSection): number => (FIRST.includes(title) ? FIRST.indexOf(title) : FIRST.length);
  return changeSections(change)
    .filter(({ title }) => title !== 'positions' && !aside.has(title))
    .sort((a, b) => rank(a) - rank(b))
    .map((section) => {
      const lines =
        section.title === 'expectations'
          ? expectationGroups(change).map((text) => `- ${escapeMarkdown(text)}`)
          : sectionLines(section);
      return folded.has(section.title) || lines.length > mostRows
        ? fold(`${capitalised(section.title)} (${lines.length})`, lines.join('\n'))
        : [`#### ${capitalised(section.title)}`, lines.join('\n')].join('\n\n');
    });
}

export function sectionLines({ lines }: ChangeSection): readonly string[] {
  return lines.map(
    ({ mark, says }) => `- ${mark === '' ? '' : `**${marks[mark] ?? mark}** `}${escapeMarkdown(withoutMark(mark, says))}`,
  );
}

/** The mark says `new` already. */
function withoutMark(mark: string, says: string): string {
  return mark === '+' ? says.replace(/^new /, '') : says;
}

/** Folded away; Markdown inside needs the blank lines. */
export function fold(summary: string, text: string): string {
  return `<details>\n<summary>${summary}</summary>\n\n${text}\n\n</details>`;
}

export type Column = 'sounds' | 'hum' | 'reads' | 'peak' | 'level';

/** Those of the columns in which something differs; positions that say the same share a row. Absent where there is none. */
export function positionTable(all: readonly PositionChange[], columns: readonly Column[]): string | undefined {
  const rows = rowsOf(all, columns);
  if (rows.length === 0) return undefined;
  const shown = columns.filter((_, index) => rows.some(({ cells }) => cells[index] !== ''));
  const line = (texts: readonly string[]): string => `| ${texts.join(' | ')} |`;
  const table = (some: readonly Row[]): string =>
    [
      line(['position', ...shown]),
      `|${[...shown, ''].map(() => ' --- |').join('')}`,
      ...some.map(({ labels, cells }) =>
        line([labels.map(escapeMarkdown).join('; '), ...shown.map((column) => cells[columns.indexOf(column)] ?? '')]),
      ),
    ].join('\n');
  const rest = rows.slice(mostRows);
  return [
    table(rows.slice(0, mostRows)),
    ...(rest.length === 0 ? [] : [fold(`${rest.length} more positions`, table(rest))]),
  ].join('\n\n');
}

interface Row {
  readonly labels: string[];
  readonly cells: readonly string[];
}

function rowsOf(all: readonly PositionChange[], columns: readonly Column[]): readonly Row[] {
  const byCells = new Map<string, Row>();
  for (const position of all) {
    const cells = columns.map((column) => cell(position, column));
    if (cells.every((text) => text === '')) continue;
    const key = cells.join('\n');
    const row = byCells.get(key) ?? { labels: [], cells };
    row.labels.push(position.label || 'default');
    byCells.set(key, row);
  }
  return [...byCells.values()];
}

function cell(row: PositionChange, column: Column): string {
  const { sounds, hum, reads, limits, peakHz, peakDb, cutoffHz, levelDb } = row;
  const figures = (value: Figures | undefined, write: (value: number) => string, none: string): string =>
    value === undefined
      ? ''
      : arrow(value.before === null ? none : write(value.before), value.after === null ? none : write(value.after));
  switch (column) {
    case 'sounds':
      return row.kind === 'changed' ? (sounds === undefined ? '' : arrow(sounds.before, sounds.after)) : escapeMarkdown(row.what);
    case 'hum':
      return hum === undefined ? '' : arrow(hum.before, hum.after);
    case 'reads':
      return limits === undefined
        ? figures(reads, ohms, 'open')
        : arrow(
            ...([limits.before, limits.after].map(({ low, high }) => `${limitText(low)} to ${limitText(high)}`) as [
              string,
              string,
            ]),
          );
    case 'peak':
      return [
        figures(peakHz, hertz, 'none'),
        figures(peakDb, (value) => decibels(value, true), 'none'),
        cutoffHz === undefined ? '' : `-3 dB at ${figures(cutoffHz, hertz, 'none')}`,
      ]
        .filter((text) => text !== '')
        .join('; ');
    case 'level':
      return figures(levelDb, (value) => decibels(value, true), 'none');
  }
}

function arrow(before: string, after: string): string {
  return `${escapeMarkdown(before)} → **${escapeMarkdown(after)}**`;
}
