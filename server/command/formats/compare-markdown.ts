/** A comparison as Markdown for a comment in a review: a table of what is heard, lists of the rest, long lists folded away. */
import { escapeMarkdown } from '../../../language/escape.js';
import { changeSections, type Change, type Figures, type PositionChange } from '../../../language/compare/index.js';
import type { Sides } from '../compare-sides.js';
import { decibels, hertz, ohms } from '../output/figures.js';
import { capitalised } from '../../../language/words.js';

const marks: Readonly<Record<string, string>> = { '+': 'new', '-': 'gone', '>': 'moved', '~': 'changed' };
/** Rows and lines beyond these are folded away, so that a comment stays one that is read. */
const mostRows = 24;
const folded = new Set(['cut list', 'steps']);

export function compareMarkdown(change: Change, { name }: Sides): string {
  const title = change.title.after || change.title.before;
  const blocks = [
    `### ${title === '' ? 'Wiring' : escapeMarkdown(title)}: ${change.summary}`,
    escapeMarkdown(name),
    ...positionBlocks(change.positions),
    ...changeSections(change)
      .filter((section) => section.title !== 'positions')
      .map((section) => {
        const lines = section.lines.map(
          ({ mark, says }) => `- ${mark === '' ? '' : `**${marks[mark] ?? mark}** `}${escapeMarkdown(withoutMark(mark, says))}`,
        );
        return folded.has(section.title) || lines.length > mostRows
          ? fold(`${capitalised(section.title)} (${lines.length})`, lines.join('\n'))
          : [`#### ${capitalised(section.title)}`, lines.join('\n')].join('\n\n');
      }),
  ];
  return `${blocks.join('\n\n')}\n`;
}

/** The mark says `new` already. */
function withoutMark(mark: string, says: string): string {
  return mark === '+' ? says.replace(/^new /, '') : says;
}

function fold(summary: string, text: string): string {
  return `<details>\n<summary>${summary}</summary>\n\n${text}\n\n</details>`;
}

/** Positions that tell the same share a row. */
function positionBlocks(all: readonly PositionChange[]): readonly string[] {
  const byWhat = new Map<string, PositionChange>();
  for (const row of all) {
    const label = row.label || 'default';
    const before = byWhat.get(row.what);
    byWhat.set(row.what, before === undefined ? { ...row, label } : { ...before, label: `${before.label}; ${label}` });
  }
  const positions = [...byWhat.values()];
  if (positions.length === 0) return [];
  const heads = ['position', 'sounds', 'hum', 'reads', 'peak', 'level'];
  const columns = heads.map((_, index) => index === 0 || positions.some((row) => cells(row)[index] !== ''));
  const line = (texts: readonly string[]): string => `| ${texts.filter((_, index) => columns[index]).join(' | ')} |`;
  const table = (rows: readonly PositionChange[]): string =>
    [
      line(heads),
      `|${columns
        .filter(Boolean)
        .map(() => ' --- |')
        .join('')}`,
      ...rows.map((row) => line(cells(row))),
    ].join('\n');
  const rest = positions.slice(mostRows);
  return [
    '#### Positions',
    table(positions.slice(0, mostRows)),
    ...(rest.length === 0 ? [] : [fold(`${rest.length} more positions`, table(rest))]),
  ];
}

function cells(row: PositionChange): readonly string[] {
  const { label, sounds, hum, reads, peakHz, peakDb, cutoffHz, levelDb } = row;
  const figures = (value: Figures | undefined, write: (value: number) => string, none: string): string =>
    value === undefined
      ? ''
      : arrow(value.before === null ? none : write(value.before), value.after === null ? none : write(value.after));
  const peak = [
    figures(peakHz, hertz, 'none'),
    figures(peakDb, (value) => decibels(value, true), 'none'),
    cutoffHz === undefined ? '' : `-3 dB at ${figures(cutoffHz, hertz, 'none')}`,
  ];
  return [
    escapeMarkdown(label),
    row.kind === 'changed' ? (sounds === undefined ? '' : arrow(sounds.before, sounds.after)) : escapeMarkdown(row.what),
    hum === undefined ? '' : arrow(hum.before, hum.after),
    figures(reads, ohms, 'open'),
    peak.filter((text) => text !== '').join('; '),
    figures(levelDb, (value) => decibels(value, true), 'none'),
  ];
}

function arrow(before: string, after: string): string {
  return `${escapeMarkdown(before)} → **${escapeMarkdown(after)}**`;
}
