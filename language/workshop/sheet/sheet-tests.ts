/** The sheet's readings at the jack and its tap test. */
import type { Build } from '../build.js';
import { readBlanks } from './batch.js';
import { controlSentences, meterSheet, tapTest, type MeterRow } from './readings.js';
import type { Block } from './sheet-model.js';
import { capitalised } from '../../words.js';

/** Readings at the jack: one band each; blank where the text does not say enough for one. */
export function meterBlocks(build: Build, number?: number): Block[] {
  const { rows, leftOut } = meterSheet(build);
  // A note that several rows share is printed once, and the rows give its number.
  const notes = [...new Set(rows.map(({ note }) => note).filter((note) => note !== ''))];
  const mark = (note: string): string => (note === '' ? '' : ` (${notes.indexOf(note) + 1})`);
  const isTaken = rows.some(({ taken }) => taken !== undefined);
  const cells = rows.map(({ setting, low, high, note, taken }) => [
    `${setting}${mark(note)}`,
    bandText(low, high),
    ...(isTaken ? [takenText(taken)] : []),
  ]);
  const heads = ['setting', 'must read'];
  const readings = rows.map(({ place }) => place);
  const isNarrow = cells.every(([setting = '']) => setting.length <= 24);
  const table: Block = isTaken
    ? { kind: 'table', heads: [...heads, 'reads'], rows: cells, readings, isNarrow }
    : { kind: 'table', heads, rows: cells, blanks: readBlanks(build, 'reads', number), readings, isNarrow };
  const before = (build.record?.before ?? []).map((text) => `Before the work: ${text}`);
  const items = [...notes.map((note, i) => `(${i + 1}) ${capitalised(note)}.`), ...leftOut.map(capitalised), ...before];
  return [table, ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }])];
}

/** `8.87k to 9.12k`, `open`, or nothing. */
function bandText(low: string, high: string): string {
  if (low === '?' || high === '?') return '';
  return low === high ? low : `${low} to ${high}`;
}

function takenText(taken: MeterRow['taken']): string {
  return taken === undefined ? '' : `${taken.text}${taken.fits ? '' : ': off'}`;
}

export function tapBlocks(build: Build, number?: number): Block[] {
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
      blanks: readBlanks(build, 'ok', number),
    },
    ...(controls.length === 0 ? [] : [{ kind: 'ticks' as const, rows: controls }]),
  ];
}
