/** One table, written for a terminal, as Markdown or as comma-separated values. */
import { columnsOf, padTo, printable } from './terminal.js';

export interface Table {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Columns aligned by spaces, two between them. */
export function textTable({ heads, rows }: Table): string {
  const lines = [heads, ...rows].map((line) => line.map(printable));
  const widths = heads.map((_, index) => Math.max(...lines.map((line) => columnsOf(line[index]!))));
  return lines
    .map((line) =>
      line
        .map((cell, index) => padTo(cell, widths[index]!))
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

/** Comma-separated values after RFC 4180, with line feeds. A cell that a spreadsheet would run as a formula gets an apostrophe before it. */
export function csvTable({ heads, rows }: Table): string {
  return [heads, ...rows]
    .map((line) => line.map(csvCell).join(','))
    .join('\n')
    .concat('\n');
}

function csvCell(text: string): string {
  const isNumber = /^-?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(text);
  const shown = printable(text);
  const safe = !isNumber && /^[=+\-@\t\r]/.test(text) ? `'${shown}` : shown;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function escapeMarkdown(text: string): string {
  return printable(text)
    .replace(/[\\|*_`<>[\]]/g, (mark) => `\\${mark}`)
    .replace(/\s+/g, ' ');
}
