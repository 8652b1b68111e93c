/** One table, written for a terminal, as Markdown or as comma-separated values. */
import { itemAt } from '../../../language/collections.js';
import { csvCell, escapeMarkdown, oneLine } from '../../../language/escape.js';
import { columnsOf, padTo } from './terminal.js';

export interface Table {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Columns aligned by spaces, two between them. */
export function textTable({ heads, rows }: Table): string {
  const lines = [heads, ...rows].map((line) => line.map(oneLine));
  const widths = heads.map((_, index) => Math.max(...lines.map((line) => columnsOf(line[index] ?? ''))));
  return lines
    .map((line) =>
      line
        .map((cell, index) => padTo(cell, itemAt(widths, index)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
    .concat('\n');
}

/** A Markdown table; what Markdown would read as marks is escaped. */
export function markdownTable({ heads, rows }: Table): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
  return [line(heads), `|${' --- |'.repeat(heads.length)}`, ...rows.map(line)].join('\n').concat('\n');
}

/** Comma-separated values after RFC 4180, with line feeds. */
export function csvTable({ heads, rows }: Table): string {
  return [heads, ...rows]
    .map((line) => line.map(csvCell).join(','))
    .join('\n')
    .concat('\n');
}
