/** The rows of a table as wires: the two lugs of each, what is said of the wire, and what could not be read. */
import { gaugeText, parseColour, colours, parseValue, visible } from '../grammar/index.js';
import { nearest } from '../nearest.js';
import { columnsOf, isHeaderRow, partAndLug, type Column, type ColumnName, type Columns } from './columns.js';
import { readSeparated, type Cell, type Separator, type TableProblem, type TableRow } from './separated.js';

/** One end of a wire as the table names it; without a lug the part is named alone. */
export interface WireEnd {
  readonly part: string;
  readonly lug?: string;
  readonly cell: Cell;
}

export interface WireRow {
  readonly row: TableRow;
  /** The two ends; absent where the row does not name them. */
  readonly ends?: readonly [WireEnd, WireEnd];
  /** Colour, gauge and length as the language writes them. */
  readonly looks: readonly string[];
  readonly note?: string;
  readonly problems: readonly TableProblem[];
}

export interface WireTable {
  /** True where the first row names the columns. */
  readonly hasHeader: boolean;
  readonly separator: Separator;
  readonly wires: readonly WireRow[];
  /** What is wrong with the table itself, such as a quote that is never closed. */
  readonly problems: readonly TableProblem[];
  /** What the reader should know though nothing is wrong, each a sentence. */
  readonly remarks: readonly string[];
}

/** Reads a table of wires, or says why it is none. */
export function readWires(text: string): WireTable | { readonly problem: TableProblem } {
  const { separator, rows, problems } = readSeparated(text, isHeaderRow);
  const [first] = rows;
  if (first === undefined) return { problem: { line: 0, character: 0, message: 'the table is empty' } };
  const columns = columnsOf(first);
  if ('problem' in columns) return columns;
  const reader = createRowReader(columns, separator);
  const wires = (columns.isNamed ? rows.slice(1) : rows).map(reader.read);
  const unread = columns.unread.map((name) => `the column “${visible(name)}” is not read`);
  const bare = reader.hasBareLength() ? ['lengths without a unit are taken as millimetres'] : [];
  return { hasHeader: columns.isNamed, separator, wires, problems, remarks: [...unread, ...bare] };
}

interface RowReader {
  read(row: TableRow): WireRow;
  /** True once a length had no unit. */
  hasBareLength(): boolean;
}

type Looked = { readonly words: readonly string[] } | { readonly message: string };

function createRowReader({ columns }: Columns, separator: Separator): RowReader {
  let isBare = false;
  const readers: readonly (readonly [ColumnName, (text: string, column: Column) => Looked])[] = [
    ['colour', colourOf],
    ['gauge', (text, { unit }) => gaugeOf(withPoint(text, separator), unit, text)],
    [
      'length',
      (text, { unit }) => {
        const plain = withPoint(text, separator);
        const isNumber = /^\d*\.?\d+$/.test(plain);
        if (isNumber && unit === undefined) isBare = true;
        return lengthOf(isNumber ? plain + (unit ?? 'mm') : plain, text);
      },
    ],
  ];
  return {
    hasBareLength: () => isBare,
    read(row) {
      const cellOf = (name: ColumnName): Cell | undefined => row.cells[columns.get(name)?.index ?? -1];
      const problems: TableProblem[] = [];
      const looks = readers.flatMap(([name, look]) => {
        const [cell, column] = [cellOf(name), columns.get(name)];
        if (cell === undefined || column === undefined || cell.text === '') return [];
        const read = look(cell.text, column);
        if ('words' in read) return read.words;
        problems.push({ line: cell.line, character: cell.character, message: read.message });
        return [];
      });
      const ends = (['from', 'to'] as const).map((name) => endOf(name, cellOf(name), row));
      const [from, to] = ends;
      const note = cellOf('note')?.text;
      const wrong = ends.flatMap((end) => (end !== undefined && 'message' in end ? [end] : []));
      return {
        row,
        looks,
        problems: [...wrong, ...problems],
        ...(from === undefined || to === undefined || 'message' in from || 'message' in to ? {} : { ends: [from, to] }),
        ...(note === undefined || note === '' ? {} : { note }),
      };
    },
  };
}

function endOf(name: 'from' | 'to', cell: Cell | undefined, row: TableRow): WireEnd | TableProblem {
  const place = { line: cell?.line ?? row.line, character: cell?.character ?? row.cells.at(-1)?.character ?? 0 };
  if (cell === undefined || cell.text === '') return { ...place, message: `the wire has no lug under “${name}”` };
  const named = partAndLug(cell.text);
  if (named !== undefined) return { ...named, cell };
  if (!cell.text.includes('.') && /[\p{L}\p{N}]/u.test(cell.text)) return { part: cell.text, cell };
  return { ...place, message: `“${visible(cell.text)}” is not a lug; a lug is written as PART.LUG, such as volume.3` };
}

/** A decimal comma is a point where the comma does not separate the cells. */
function withPoint(text: string, separator: Separator): string {
  const plain = text.replaceAll(' ', '').replace('²', '2');
  return separator === ',' ? plain : plain.replace(/^(\D*\d*),(?=\d)/, '$1.');
}

function colourOf(text: string): Looked {
  const plain = text.toLowerCase().replace(/ (?:and|with) | ?[/,+-] ?| /g, '-');
  if (plain === 'bare') return { words: ['bare'] };
  const colour = parseColour(plain) ?? parseColour(plain.toUpperCase());
  if (colour !== undefined) return { words: [colour.name] };
  const near = nearest(
    plain,
    colours.map(({ name }) => name),
  );
  const hint = near === undefined ? 'colours are words such as black, or two such as white-red' : `did you mean ${near}?`;
  return { message: `“${visible(text)}” is not a colour of wire; ${hint}` };
}

function gaugeOf(value: string, unit: string | undefined, text: string): Looked {
  const [, before = '', digits = '', behind = ''] = /^(awg)?#?(\d*\.?\d+)(awg|mm2)?$/i.exec(value) ?? [];
  // A whole number from 10 on is a gauge number wherever it stands: no wire in a guitar has 10 mm².
  const isNumber = /^[1-4]\d$/.test(digits);
  const given = (behind || before || (unit ?? (isNumber ? 'awg' : ''))).toLowerCase();
  const gauge = digits === '' || given === '' ? undefined : parseValue(digits + given);
  if (gauge?.unit === 'awg') return { words: [gaugeText(gauge.value)] };
  return { message: `“${visible(text)}” is not a gauge; a gauge is a number such as 22awg, or a section such as 0.25mm2` };
}

function lengthOf(value: string, text: string): Looked {
  const plain = value.replace(/["”]$|inch(es)?$/i, 'in');
  const length = parseValue(plain);
  if (length?.unit === 'metre' && length.value > 0) return { words: [plain] };
  return { message: `“${visible(text)}” is not a length; a length is a number and its unit, such as 120mm` };
}
