/** What the columns of a table of wires are, by its first row: in any order and case, also with a unit, as in `Length (mm)`. */
import { listed } from '../words.js';
import type { Cell, TableProblem, TableRow } from './separated.js';

/** What a column may hold. */
export type ColumnName = 'from' | 'to' | 'colour' | 'gauge' | 'length' | 'note';

export interface Column {
  readonly index: number;
  /** The unit that a bare number in it has. */
  readonly unit?: string;
}

export interface Columns {
  readonly columns: ReadonlyMap<ColumnName, Column>;
  /** True where the first row names them and is no wire. */
  readonly isNamed: boolean;
  /** Names of columns that are not read. */
  readonly unread: readonly string[];
}

const order: readonly ColumnName[] = ['from', 'to', 'colour', 'gauge', 'length', 'note'];

const headers: Readonly<Record<string, ColumnName>> = {
  ...Object.fromEntries(order.map((name) => [name, name])),
  color: 'colour',
  awg: 'gauge',
  size: 'gauge',
  notes: 'note',
};

/** Units that a header may give, as the language writes them. */
const units: Readonly<Record<string, string>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  awg: 'awg',
  mm2: 'mm2',
  'mm²': 'mm2',
};

/** True for a row that names at least the two columns that every table has. */
export function isHeaderRow(cells: readonly Cell[]): boolean {
  const names = cells.map((cell) => headerOf(cell.text)?.name);
  return names.includes('from') && names.includes('to');
}

/**
 * The columns by the first row. Where it has no header but two lugs, they are `from`, `to`, `colour`, `gauge`, `length`, `note` in this order.
 * A problem where it has neither, or where two columns say the same.
 */
export function columnsOf(first: TableRow): Columns | { readonly problem: TableProblem } {
  const { cells } = first;
  if (!isHeaderRow(cells)) {
    const [from, to] = cells.slice(0, 2).map((cell) => partAndLug(cell.text));
    if (from === undefined || to === undefined) return { problem: noHeader(first) };
    return { columns: new Map(order.map((name, index) => [name, { index }])), isNamed: false, unread: [] };
  }
  const columns = new Map<ColumnName, Column>();
  const unread: string[] = [];
  for (const [index, cell] of cells.entries()) {
    const header = headerOf(cell.text);
    if (header === undefined) {
      if (cell.text !== '') unread.push(cell.text);
      continue;
    }
    const other = columns.get(header.name);
    if (other !== undefined) return { problem: twice(cell, cells[other.index], header.name) };
    columns.set(header.name, { index, ...(header.unit === undefined ? {} : { unit: header.unit }) });
  }
  return { columns, isNamed: true, unread };
}

/** The part and the lug of `neck.hot`, a lug being what follows the last dot; undefined for a cell that names none. */
export function partAndLug(text: string): { readonly part: string; readonly lug: string } | undefined {
  const dot = text.lastIndexOf('.');
  const [part, lug] = [text.slice(0, dot).trim(), text.slice(dot + 1).trim()];
  return dot > 0 && /[\p{L}\p{N}]/u.test(part) && /^[\p{L}\p{M}\p{N}_-]+$/u.test(lug) ? { part, lug } : undefined;
}

function headerOf(text: string): { readonly name: ColumnName; readonly unit?: string } | undefined {
  const words = text
    .toLowerCase()
    .replace(/[_\s()[\],]+/g, ' ')
    .trim();
  const plain = headers[words];
  if (plain !== undefined) return { name: plain, ...(words === 'awg' ? { unit: 'awg' } : {}) };
  const [, head = '', unit = ''] = /^(.+?)(?: in)? (\S+)$/.exec(words) ?? [];
  const [name, known] = [headers[head], units[unit]];
  return name === undefined || known === undefined ? undefined : { name, unit: known };
}

function noHeader({ line, cells }: TableRow): TableProblem {
  const near = cells.find((cell) => headerOf(cell.text) !== undefined);
  const missing = (['from', 'to'] as const).filter((name) => !cells.some((cell) => headerOf(cell.text)?.name === name));
  const needs = 'the first row must name the columns, such as from,to,colour,gauge,length,note';
  const found = near === undefined ? '' : `; there is no column ${listed(missing, 'and')}`;
  return { line, character: cells[0]?.character ?? 0, message: needs + found };
}

function twice(cell: Cell, other: Cell | undefined, name: ColumnName): TableProblem {
  const message = `two columns give the ${name} of the wire, “${other?.text ?? name}” and “${cell.text}”; leave one of them out`;
  return { line: cell.line, character: cell.character, message };
}
