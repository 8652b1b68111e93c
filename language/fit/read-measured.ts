/** A measured curve from a table as a measuring program writes it: frequencies with levels, or with ohms and degrees. */
import { readSeparated, type Cell, type Separator, type TableRow } from '../table/index.js';
import { implausible } from './implausible.js';
import { columnOf, type Column, type ColumnName } from './measured-columns.js';
import type { Measured, MeasuredFault } from './measured.js';

/** Fewer points say too little of a curve with four values. */
const fewest = 12;

/**
 * Reads a table with a row of headings, in the words and units that measuring programs use (`Frequency (kHz)`, `Phase [rad]`); blank lines and lines that
 * begin with # or * are left out. The first thing that is wrong is the fault, among it numbers that can be read but can't be those of a pickup.
 */
export function readMeasured(text: string): Measured | MeasuredFault {
  const source = text.replace(/^\uFEFF/, '');
  if (/[\0\uFFFD]/.test(source)) return fault(1, 'this is no text; save the measurement as comma-separated values');
  // A comment stays as an empty line, so that lines keep their numbers.
  const { rows, separator, problems } = readSeparated(source.replace(/^[#*].*$/gm, ''), isHeading);
  const [heading, ...body] = rows;
  const [unclosed] = problems;
  if (heading === undefined)
    return fault(1, 'the file is empty; it takes a row of headings, hz,db or hz,ohm,deg, and a row for each frequency');
  const columns = columnsOf(heading);
  if (!Array.isArray(columns)) return columns;
  if (unclosed !== undefined) return fault(unclosed.line + 1, unclosed.message);
  const read: Record<ColumnName, number[]> = { hz: [], db: [], ohm: [], deg: [] };
  for (const row of body) {
    const message = tooWide(row, heading, separator) ?? readRow(row, columns, separator, read);
    if (message !== undefined) return fault(lineOf(row), message);
  }
  if (body.length < fewest)
    return fault(
      lineOf(body.at(-1) ?? heading),
      `${body.length} rows are too few: measure ${fewest} frequencies at least, better 50`,
    );
  const { hz, db, ohm, deg } = read;
  const measured: Measured = db.length > 0 ? { kind: 'response', hz, db } : { kind: 'impedance', hz, ohm, deg };
  const wrong = implausible(measured);
  return wrong === undefined ? measured : fault(lineOf(body[wrong.at ?? -1] ?? heading), wrong.message);
}

function isHeading(cells: readonly Cell[]): boolean {
  return cells.filter(({ text }, index) => columnOf(text, index) !== undefined).length > 1;
}

const forms = 'write hz,db for a response or hz,ohm,deg for an impedance';

/** The two or three columns that make a curve; the angle of a response is not needed. */
function columnsOf(heading: TableRow): Column[] | MeasuredFault {
  const line = lineOf(heading);
  const found = heading.cells.flatMap(({ text }, index) => columnOf(text, index) ?? []);
  const isSpaced = heading.cells.length === 1 && (heading.cells[0]?.text ?? '').includes(' ');
  if (found.length < (isSpaced ? 2 : 1))
    return fault(
      line,
      `the first row does not name the columns: ${forms}${isSpaced ? ', with commas, semicolons or tabs between the columns' : ''}`,
    );
  const columns = found.filter((column): column is Column => 'name' in column);
  const has = (name: ColumnName): boolean => columns.some((column) => column.name === name);
  if (columns.length < found.length && !has('db'))
    return fault(line, 'the level is in volts; make decibels of it, 20 log10 of each, and name the column db');
  const twice = columns.find(({ name, index }) => columns.some((other) => other.name === name && other.index < index));
  if (twice !== undefined) return fault(line, `two columns give the ${names[twice.name]}; leave one of them out`);
  if (has('db') && has('ohm')) return fault(line, 'there are levels and ohms in one table; leave one of them out');
  const wanted: readonly ColumnName[] = has('ohm') ? ['hz', 'ohm', 'deg'] : ['hz', 'db'];
  const missing = wanted.find((name) => !has(name));
  if (missing !== undefined) return fault(line, `there is no column for the ${names[missing]}; ${forms}`);
  return columns.filter(({ name }) => wanted.includes(name));
}

function tooWide({ cells }: TableRow, heading: TableRow, separator: Separator): string | undefined {
  if (!cells.slice(heading.cells.length).some(({ text }) => text !== '')) return undefined;
  const commas = separator === ',' ? '; if these are decimal commas, save the table with semicolons between the columns' : '';
  return `the row has ${cells.length} cells, the headings are ${heading.cells.length}${commas}`;
}

/** Adds a row's numbers, or says why not. */
function readRow(
  row: TableRow,
  columns: readonly Column[],
  separator: Separator,
  read: Readonly<Record<ColumnName, number[]>>,
): string | undefined {
  for (const column of columns) {
    const { name } = column;
    const number = numberIn(row, column, separator !== ',');
    const message = typeof number === 'string' ? number : whyNot(name, number, read[name].at(-1));
    if (typeof number === 'string' || message !== undefined) return message;
    read[name].push(number);
  }
  return undefined;
}

/** The number of a row's cell, or why there is none. Beside a separator that is no comma a number may have a decimal comma. */
function numberIn(row: TableRow, { name, index, times }: Column, mayHaveComma: boolean): number | string {
  const text = row.cells[index]?.text ?? '';
  if (text === '') return `the row has no ${names[name]}; is a column missing, or are the columns shifted?`;
  const plain = text.replace('−', '-');
  const written = mayHaveComma ? plain.replace(',', '.') : plain;
  if (/^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(written)) return Number(written) * times;
  if (/^[-+]?(nan|inf|infinity|∞)$/i.test(plain))
    return `the ${names[name]} is “${text}”: leave out the rows in which nothing was measured`;
  return `“${text.slice(0, 20)}” is no number for the ${names[name]}`;
}

function whyNot(name: ColumnName, value: number, before = 0): string | undefined {
  if (name === 'hz' && !(value > 0)) return 'a frequency is more than zero';
  if (name === 'hz' && value <= before) return 'the frequencies do not rise: sort the rows by frequency, each once';
  if (name === 'ohm' && !(value > 0)) return 'an impedance is more than zero ohms; are the columns shifted?';
  return undefined;
}

const names: Readonly<Record<ColumnName, string>> = {
  hz: 'frequency in hertz',
  db: 'level in dB',
  ohm: 'impedance in ohms',
  deg: 'angle in degrees',
};

function lineOf(row: TableRow): number {
  return row.line + 1;
}

function fault(line: number, message: string): MeasuredFault {
  return { kind: 'fault', line, message };
}
