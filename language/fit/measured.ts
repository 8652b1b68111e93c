/** A measured curve from a table as a measuring program writes it: frequencies with levels, or with ohms and degrees. */
import { readSeparated, type Cell, type TableRow } from '../table/index.js';

/** Levels in dB, of no certain zero, at rising frequencies in hertz. */
export interface MeasuredResponse {
  readonly kind: 'response';
  readonly hz: readonly number[];
  readonly db: readonly number[];
}

/** Ohms and degrees at rising frequencies in hertz. */
export interface MeasuredImpedance {
  readonly kind: 'impedance';
  readonly hz: readonly number[];
  readonly ohm: readonly number[];
  readonly deg: readonly number[];
}

export type Measured = MeasuredResponse | MeasuredImpedance;

/** Why a table is no measured curve; its line counts from 1. */
export interface MeasuredFault {
  readonly kind: 'fault';
  readonly line: number;
  readonly message: string;
}

/** Fewer points say too little of a curve with four values. */
const fewest = 12;
/** A response that moves less than this over the whole range is that of nothing, dB. */
const flat = 0.5;

type Quantity = 'hz' | 'db' | 'ohm' | 'deg';

/** What a heading says: the quantity, and by what its numbers are multiplied. */
interface Heading {
  readonly quantity: Quantity;
  readonly scale: number;
}

interface Column extends Heading {
  readonly index: number;
}

/** Reads a table with a row of headings; blank lines and lines that begin with # or * are left out. */
export function readMeasured(text: string): Measured | MeasuredFault {
  if (text.trim() === '')
    return fault(1, 'the file is empty; it takes a row of headings, hz,db or hz,ohm,deg, and a row for each frequency');
  if (text.includes('\0')) return fault(1, 'this is no text; save the measurement as comma-separated values');
  // A comment stays as an empty line, so that lines keep their numbers.
  const { rows, separator } = readSeparated(text.replace(/^[#*].*$/gm, ''), isHeading);
  const [heading, ...body] = rows;
  if (heading === undefined || !isHeading(heading.cells))
    return fault(
      (heading?.line ?? 0) + 1,
      'the first row does not name the columns: write hz,db for a response or hz,ohm,deg for an impedance',
    );
  const columns = columnsOf(heading.cells);
  const wanted: readonly Quantity[] = columns.has('ohm') ? ['hz', 'ohm', 'deg'] : ['hz', 'db'];
  const missing = wanted.find((quantity) => !columns.has(quantity));
  if (missing !== undefined)
    return fault(
      lineOf(heading),
      `there is no column for the ${names[missing]}; write hz,db for a response or hz,ohm,deg for an impedance`,
    );
  const found = new Map<Quantity, number[]>(wanted.map((quantity) => [quantity, []]));
  for (const row of body) {
    for (const [quantity, values] of found) {
      const read = numberIn(row, quantity, columns.get(quantity), separator !== ',');
      const message = typeof read === 'string' ? read : whyNot(quantity, read, values.at(-1));
      if (typeof read === 'string' || message !== undefined) return fault(lineOf(row), message ?? '');
      values.push(read);
    }
  }
  return plausible(found, lineOf(body.at(-1) ?? heading));
}

/** The first column of each quantity. */
function columnsOf(cells: readonly Cell[]): ReadonlyMap<Quantity, Column> {
  const columns = new Map<Quantity, Column>();
  cells.forEach(({ text }, index) => {
    const known = headingOf(text);
    if (known !== undefined && !columns.has(known.quantity)) columns.set(known.quantity, { ...known, index });
  });
  return columns;
}

/** The number of a row's cell, or why there is none. Beside a separator that is no comma a number may have a decimal comma. */
function numberIn(row: TableRow, quantity: Quantity, column: Column | undefined, mayHaveComma: boolean): number | string {
  const text = row.cells[column?.index ?? -1]?.text ?? '';
  if (text === '') return `the row has no ${names[quantity]}; is a column missing, or are the columns shifted?`;
  const plain = text.replace('−', '-');
  const value = Number(mayHaveComma ? plain.replace(',', '.') : plain);
  if (!Number.isFinite(value)) return `“${text.slice(0, 20)}” is no number for the ${names[quantity]}`;
  return value * (column?.scale ?? 1);
}

function whyNot(quantity: Quantity, value: number, before = 0): string | undefined {
  if (quantity === 'hz' && !(value > 0)) return 'a frequency is more than zero';
  if (quantity === 'hz' && value <= before) return 'the frequencies do not rise: sort the rows by frequency, each once';
  if (quantity === 'ohm' && !(value > 0)) return 'an impedance is more than zero ohms; are the columns shifted?';
  return undefined;
}

const names: Readonly<Record<Quantity, string>> = {
  hz: 'frequency in hertz',
  db: 'level in dB',
  ohm: 'impedance in ohms',
  deg: 'angle in degrees',
};

/** Headings in whole words, and what they say. */
const headings: readonly (readonly [words: RegExp, heading: Heading])[] = [
  [/^(khz|frequency khz|freq khz|f khz)$/, { quantity: 'hz', scale: 1000 }],
  [/^(hz|f|freq|frequency|frequency hz|freq hz|f hz)$/, { quantity: 'hz', scale: 1 }],
  [/^(db|level|gain|magnitude db|level db|gain db|amplitude db|spl db|db spl)$/, { quantity: 'db', scale: 1 }],
  [/^(kohm|kohms|kω|impedance kohm|impedance kω|magnitude kohm|z kohm)$/, { quantity: 'ohm', scale: 1000 }],
  [
    /^(ohm|ohms|ω|z|impedance|impedance ohm|impedance ohms|impedance ω|magnitude ohm|magnitude ohms|z ohm|z ω)$/,
    { quantity: 'ohm', scale: 1 },
  ],
  [/^(deg|degrees|phase|phase deg|phase degrees|angle|angle deg)$/, { quantity: 'deg', scale: 1 }],
];

function headingOf(text: string): Heading | undefined {
  const words = text
    .toLowerCase()
    .normalize('NFKC')
    .replace('°', 'deg')
    .replace(/[^a-zω]+/g, ' ')
    .trim();
  return headings.find(([pattern]) => pattern.test(words))?.[1];
}

function isHeading(cells: readonly Cell[]): boolean {
  return cells.some(({ text }) => headingOf(text)?.quantity === 'hz');
}

/** What numbers of the right form give away: wrong units, too little, nothing connected. */
function plausible(found: ReadonlyMap<Quantity, readonly number[]>, last: number): Measured | MeasuredFault {
  const [hz = [], db, ohm = [], deg = []] = (['hz', 'db', 'ohm', 'deg'] as const).map((quantity) => found.get(quantity));
  if (hz.length < fewest) return fault(last, `${hz.length} rows are too few: measure ${fewest} frequencies at least, better 50`);
  const [from, to] = [hz[0] ?? 1, hz.at(-1) ?? 1];
  if (to < 25) return fault(last, 'all frequencies are below 25 Hz: are they kilohertz? Then name the column khz');
  if (to < 4 * from) return fault(last, 'the frequencies span less than two octaves: measure from 100 Hz to 15 kHz');
  if (db !== undefined) {
    if (Math.max(...db) - Math.min(...db) < flat)
      return fault(
        last,
        'the level is the same everywhere: nothing of a pickup was measured. Is the pickup connected, and not the loop of the interface itself?',
      );
    return { kind: 'response', hz, db };
  }
  if (Math.max(...ohm) < 200) return fault(last, 'no impedance reaches 200 Ω: are they kilohms? Then name the column kohm');
  if (Math.max(...deg.map(Math.abs)) <= Math.PI / 2 + 0.05)
    return fault(last, 'no angle is over 1.6: are they radians? The angle is needed in degrees');
  return { kind: 'impedance', hz, ohm, deg };
}

function lineOf(row: TableRow): number {
  return row.line + 1;
}

function fault(line: number, message: string): MeasuredFault {
  return { kind: 'fault', line, message };
}
