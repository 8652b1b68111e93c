/** The sheet's readings at the jack and of its metal, and its tap test. */
import type { Build } from '../build.js';
import { readBlanks } from './batch.js';
import { controlSentences, groundList, meterSheet, tapTest, type MeterRow } from './readings.js';
import type { Block } from './sheet-model.js';
import { capitalised } from '../../words.js';

/** Readings at the jack: one band each; blank where the text does not say enough for one. */
export function meterBlocks(build: Build, number?: number): Block[] {
  const { rows, leftOut } = meterSheet(build);
  // A note that several rows share is printed once, and the rows give its number.
  const notes = [...new Set(rows.map(({ note }) => note).filter((note) => note !== ''))];
  const mark = (note: string): string => (note === '' ? '' : ` (${notes.indexOf(note) + 1})`);
  const shown = rows.map(({ setting, low, high, note, ...row }) => ({
    ...row,
    cells: [`${setting}${mark(note)}`, bandText(low, high)],
  }));
  const isNarrow = shown.every(({ cells: [setting = ''] }) => setting.length <= 24);
  const table: Block = { ...readingTable(build, ['setting', 'must read'], shown, number), isNarrow };
  const before = (build.record?.before ?? []).map((text) => `Before the work: ${text}`);
  const items = [...notes.map((note, i) => `(${i + 1}) ${capitalised(note)}.`), ...leftOut.map(capitalised), ...before];
  return [table, ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }])];
}

/** `8.87k to 9.12k`, `open`, or nothing. */
function bandText(low: string, high: string): string {
  if (low === '?' || high === '?') return '';
  return low === high ? low : `${low} to ${high}`;
}

/** What must be read, and beside it what the `measured` lines say was read, or room to write it where they say nothing. */
function readingTable(
  build: Build,
  heads: readonly string[],
  rows: readonly (Partial<Pick<MeterRow, 'place' | 'taken'>> & { readonly cells: readonly string[] })[],
  number: number | undefined,
): Block & { readonly kind: 'table' } {
  const readings = rows.map(({ place = null }) => place);
  if (rows.every(({ taken }) => taken === undefined))
    return { kind: 'table', heads, rows: rows.map(({ cells }) => cells), blanks: readBlanks(build, 'reads', number), readings };
  const shown = rows.map(({ cells, taken }) => [...cells, takenText(taken)]);
  return { kind: 'table', heads: [...heads, 'reads'], rows: shown, readings };
}

function takenText(taken: MeterRow['taken']): string {
  return taken === undefined ? '' : `${taken.text}${taken.fits ? '' : ': off'}`;
}

/** Metal against the sleeve of the jack. */
export function groundBlocks(build: Build, number?: number): Block[] {
  if (build.jack === undefined) return [];
  const rows = groundList(build).map(({ name, expected, ...row }) => ({ ...row, cells: [name, expected] }));
  const sleeve = build.label(build.jack.sleeve);
  const paint = build.cavities.some(({ shielded }) => shielded) ? ' Paint may read more: what it read when it was dry.' : '';
  const later =
    build.plates.length > 0 && build.cavities.some(({ shielded }) => shielded)
      ? ' Cavity and plate touch only once the plate is screwed down: repeat those readings then.'
      : '';
  return [
    {
      kind: 'text',
      text: `Put one probe on ${sleeve}, the other on each of these, scraped to bare metal.${paint}${later}`,
    },
    { ...readingTable(build, ['metal', 'must read'], rows, number), isNarrow: true },
  ];
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
