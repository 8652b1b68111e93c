/** The sheet's readings at the jack and its tap test. */
import type { Build } from '../build.js';
import { controlSentences, meterSheet, tapTest } from './readings.js';
import type { Block } from './sheet-model.js';
import { capitalised } from '../../words.js';

export function meterBlocks(build: Build): Block[] {
  const { rows, leftOut } = meterSheet(build);
  // A note that several rows share is printed once, and the rows give its number.
  const notes = [...new Set(rows.map(({ note }) => note).filter((note) => note !== ''))];
  const mark = (note: string): string => (note === '' ? '' : ` (${notes.indexOf(note) + 1})`);
  const table: Block = {
    kind: 'table',
    heads: ['setting', 'low', 'high'],
    rows: rows.map(({ setting, low, high, note }) => [`${setting}${mark(note)}`, low, high]),
    blanks: ['reads'],
  };
  const isTaken = rows.some(({ taken }) => taken !== undefined);
  const filled: Block = {
    kind: 'table',
    heads: ['setting', 'low', 'high', 'reads'],
    rows: rows.map(({ setting, low, high, note, taken }) => [
      `${setting}${mark(note)}`,
      low,
      high,
      taken === undefined ? '' : `${taken.text}${taken.fits ? '' : ': off'}`,
    ]),
  };
  const before = (build.record?.before ?? []).map((text) => `Before the work: ${text}`);
  const items = [...notes.map((note, i) => `(${i + 1}) ${capitalised(note)}.`), ...leftOut.map(capitalised), ...before];
  return [isTaken ? filled : table, ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }])];
}

export function tapBlocks(build: Build): Block[] {
  const rows = tapTest(build);
  if (rows.every(({ loud, quiet }) => loud.length + quiet.length === 0)) return [];
  const humWords: Readonly<Record<string, string>> = {
    cancelled: 'cancelled',
    partly: 'hums a little',
    present: 'hums',
    none: 'none',
    '': 'silent',
  };
  const controls = controlSentences(build).map(({ name, says }) => ({
    key: `turn ${name}`,
    number: '',
    text: `Turn ${name} from 0 to 10: ${says.startsWith(`${name} `) ? `it ${says.slice(name.length + 1)}` : says}.`.replace(
      /\.+$/,
      '.',
    ),
    isTest: true,
  }));
  return [
    { kind: 'text', text: 'Plug into a tested amplifier, turned down low. Tap each pickup’s poles lightly with a screwdriver.' },
    {
      kind: 'table',
      heads: ['setting', 'loud', 'quiet', 'hum'],
      rows: rows.map(({ setting, loud, quiet, hum }) => [
        setting,
        loud.join(', ') || 'none',
        quiet.join(', ') || 'none',
        humWords[hum] ?? hum,
      ]),
      blanks: ['ok'],
    },
    ...(controls.length === 0 ? [] : [{ kind: 'ticks' as const, rows: controls }]),
  ];
}
