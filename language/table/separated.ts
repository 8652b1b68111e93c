/** Separated values by RFC 4180: rows of cells, each with its place; comma, semicolon or tab between them. */

export type Separator = ',' | ';' | '\t';

/** A place in the table, line and character from 0, and what is wrong there. */
export interface TableProblem {
  readonly line: number;
  readonly character: number;
  readonly message: string;
}

/** A cell without its quotes and without white space around it; inside it any white space is one space. */
export interface Cell {
  readonly text: string;
  readonly line: number;
  readonly character: number;
}

/** A row that is not empty. */
export interface TableRow {
  readonly cells: readonly Cell[];
  readonly line: number;
  /** As it was written, on one line. */
  readonly source: string;
}

export interface SeparatedTable {
  readonly separator: Separator;
  readonly rows: readonly TableRow[];
  readonly problems: readonly TableProblem[];
}

const separators: readonly Separator[] = ['\t', ';', ','];

/** Reads a table. The separator is the one that `isHeader` recognises the first row by, else the one that makes most cells of it. */
export function readSeparated(text: string, isHeader: (cells: readonly Cell[]) => boolean): SeparatedTable {
  const source = text.replace(/^\uFEFF/, '');
  const first = separators.map((separator) => ({ separator, cells: createReader(source, separator).next()?.cells ?? [] }));
  const most = Math.max(...first.map(({ cells }) => cells.length));
  const chosen = first.find(({ cells }) => isHeader(cells)) ?? first.find(({ cells }) => cells.length === most);
  const separator = (most > 1 ? chosen?.separator : undefined) ?? ',';
  const reader = createReader(source, separator);
  const rows: TableRow[] = [];
  for (let row = reader.next(); row !== undefined; row = reader.next()) rows.push(row);
  return { separator, rows, problems: reader.problems };
}

interface Reader {
  /** The next row that is not empty. */
  next(): TableRow | undefined;
  readonly problems: TableProblem[];
}

function createReader(text: string, separator: Separator): Reader {
  const problems: TableProblem[] = [];
  let offset = 0;
  let line = 0;
  let lineStart = 0;

  /** Moves on and counts the lines on the way. */
  const moveTo = (end: number): void => {
    for (; offset < end; offset++) {
      const isEnd = text[offset] === '\n' || (text[offset] === '\r' && text[offset + 1] !== '\n');
      if (!isEnd) continue;
      line += 1;
      lineStart = offset + 1;
    }
  };
  const plainEnd = (from: number): number => {
    let end = from;
    while (end < text.length && text[end] !== separator && text[end] !== '\n' && text[end] !== '\r') end++;
    return end;
  };
  const readCell = (): Cell => {
    const place = { line, character: offset - lineStart };
    const quoted = text[offset] === '"' ? quotedEnd(text, offset) : undefined;
    if (text[offset] === '"' && quoted === undefined) problems.push({ ...place, message: 'this quote is never closed' });
    const inner = quoted === undefined ? '' : text.slice(offset + 1, quoted - 1).replaceAll('""', '"');
    const start = quoted ?? offset;
    const end = plainEnd(start);
    moveTo(end);
    return { ...place, text: (inner + text.slice(start, end)).replace(/\s+/g, ' ').trim() };
  };
  const readRow = (): TableRow => {
    const start = offset;
    const place = line;
    const cells = [readCell()];
    while (text[offset] === separator) {
      moveTo(offset + 1);
      cells.push(readCell());
    }
    const source = text.slice(start, offset).replace(/\s+/g, ' ').trim();
    moveTo(offset + (text.startsWith('\r\n', offset) ? 2 : 1));
    return { cells, line: place, source };
  };

  return {
    problems,
    next() {
      while (offset < text.length) {
        const row = readRow();
        if (row.cells.some((cell) => cell.text !== '')) return row;
      }
      return undefined;
    },
  };
}

/** The offset behind the quote that closes the cell; two quotes in it are one that belongs to its text. */
function quotedEnd(text: string, start: number): number | undefined {
  for (let at = text.indexOf('"', start + 1); at >= 0; at = text.indexOf('"', at + 2)) {
    if (text[at + 1] !== '"') return at + 1;
  }
  return undefined;
}
