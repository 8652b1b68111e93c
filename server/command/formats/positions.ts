/** The table of positions in its four forms. */
import { append, firstOf } from '../../../language/collections.js';
import { escapeMarkdown, oneLine } from '../../../language/escape.js';
import { readingNotes, type PositionRow, type PositionTable, type Sound } from '../../../language/electrics/index.js';
import { decibels, hertz, limit, ohms, sixFigures, thousandths } from '../output/figures.js';
import { csvTable, markdownTable, textTable, type Table } from '../output/table.js';

/** Settings of a row, the first of them its own. */
interface ShownRow extends PositionRow {
  readonly settings?: readonly Pick<PositionRow, 'set' | 'label'>[];
}

interface ShownTable extends PositionTable {
  readonly rows: readonly ShownRow[];
}

/** The table with rows that differ in nothing but their settings as one row, with all of those. What differs below the figures that are shown is the same. */
export function distinctRows({ rows, leftOut }: PositionTable): ShownTable {
  const alike = new Map<string, PositionRow[]>();
  for (const row of rows) append(alike, JSON.stringify({ ...forPrograms(row), set: 0, label: 0 }), row);
  return {
    rows: [...alike.values()].map((same) => ({ ...firstOf(same), settings: same.map(({ set, label }) => ({ set, label })) })),
    leftOut,
  };
}

export function positionsText(table: ShownTable): string {
  return (
    textTable(forPeople(table)) +
    notes(table)
      .map((note) => `\n${oneLine(note)}\n`)
      .join('')
  );
}

export function positionsMarkdown(table: ShownTable): string {
  return (
    markdownTable(forPeople(table)) +
    notes(table)
      .map((note) => `\n${escapeMarkdown(note)}\n`)
      .join('')
  );
}

/** The fields of the JSON as columns; a cell is empty where there is no figure, and where `cancels` or `approximate` does not hold. */
export function positionsCsv({ rows }: ShownTable): string {
  const switches = Object.keys(rows[0]?.set ?? {});
  const figures = ['ohm', 'low', 'high', 'peak_hz', 'peak_db', 'cutoff_hz', 'level_db', 'cancels', 'approximate'];
  return csvTable({
    heads: ['output', ...switches, 'setting', 'sounds', 'hum', 'hum_db', ...figures],
    rows: rows.map((row) => {
      const { output, sounds, hum, hum_db, reads, peak, cutoff_hz, level_db, cancels, approximate } = forPrograms(row);
      const cells = [hum_db, reads.ohm, reads.low, reads.high, peak?.hz, peak?.db, cutoff_hz, level_db, cancels, approximate];
      return [
        output,
        ...switches.map((name) =>
          settingsOf(row)
            .map(({ set }) => set[name] ?? '')
            .join('; '),
        ),
        settingsOf(row)
          .map(({ label }) => label)
          .join('; '),
        sounds,
        hum,
        ...cells.map((cell) => String(cell ?? '')),
      ];
    }),
  });
}

/** The JSON that the language's contract fixes. `unknown` and `note` stand in a reading, and `left_out` in the whole, only where there is something to say. */
export function positionsJson({ rows, leftOut }: ShownTable): string {
  return `${JSON.stringify({ positions: rows.map(forPrograms), ...(leftOut.length > 0 ? { left_out: leftOut } : {}) }, null, 2)}\n`;
}

function forPrograms(row: ShownRow) {
  const { reads, response } = row;
  const figure = (value: number | null) => (value === null ? null : sixFigures(value));
  return {
    output: row.output,
    set: row.set,
    label: row.label,
    ...(row.settings === undefined ? {} : { settings: row.settings }),
    sounds: row.sound.text,
    hum: row.sound.hum,
    hum_db: row.sound.humDb === null ? null : thousandths(row.sound.humDb),
    reads: {
      ohm: figure(reads.ohm),
      low: figure(reads.low),
      high: figure(reads.high),
      ...(reads.unknown ? { unknown: true } : {}),
      ...(reads.assumed ? { assumed: true } : {}),
      ...(reads.indicative ? { indicative: true } : {}),
      ...(reads.note === undefined ? {} : { note: reads.note }),
    },
    peak: response?.peak ? { hz: sixFigures(response.peak.hz), db: thousandths(response.peak.db) } : null,
    cutoff_hz: figure(response?.cutoffHz ?? null),
    level_db: typeof response?.levelDb === 'number' ? thousandths(response.levelDb) : null,
    ...(response?.cancels ? { cancels: true } : {}),
    ...(row.approximate ? { approximate: true } : {}),
  };
}

function forPeople({ rows }: ShownTable): Table {
  const isMany = hasOutputs(rows);
  return {
    heads: [...(isMany ? ['output'] : []), 'setting', 'sounds', 'hum', 'reads', 'from … to', 'peak', '-3 dB at', 'level'],
    rows: rows.map((row) => {
      const { sound, reads, response } = row;
      const isHeard = !sound.silent && response !== undefined;
      const about = row.approximate ? 'about ' : '';
      const { low, high } = reads;
      return [
        ...(isMany ? [row.output] : []),
        labelOf(row),
        sound.text,
        humText(sound),
        reads.ohm !== null ? ohms(reads.ohm) : reads.unknown ? '?' : 'open',
        low !== null && high !== null && ohms(low) !== ohms(high) ? `${limit(low)} … ${limit(high)}` : '',
        isHeard && response.peak ? `${about}${decibels(response.peak.db, true)} at ${hertz(response.peak.hz)}` : '',
        isHeard && response.cutoffHz !== null ? `${about}${hertz(response.cutoffHz)}` : '',
        !isHeard
          ? ''
          : response.levelDb === null
            ? response.cancels
              ? 'thin: the two cancel'
              : ''
            : decibels(response.levelDb, true),
      ];
    }),
  };
}

/** All settings of a row. */
function settingsOf(row: ShownRow): readonly Pick<PositionRow, 'set' | 'label'>[] {
  return row.settings ?? [row];
}

function labelOf(row: ShownRow): string {
  return settingsOf(row)
    .map(({ label }) => label || 'default')
    .join('; ');
}

/** `cancelled`, or how much is left: `partly (-9 dB)`. */
function humText({ silent, hum, humDb }: Sound): string {
  if (silent) return '';
  return hum === 'partly' && humDb !== null ? `${hum} (${decibels(humDb)})` : hum;
}

const approximateNote =
  'about: the text leaves out a value on which peak and corner rest, the coupling between the coils of a pickup or a value written ?';

/** True where the rows are of more than one output. */
function hasOutputs(rows: readonly PositionRow[]): boolean {
  return new Set(rows.map(({ output }) => output)).size > 1;
}

/** What the table leaves out, and what its readings are readings of, each once. */
function notes({ rows, leftOut }: ShownTable): string[] {
  const byNote = new Map<string, string[]>();
  const isMany = hasOutputs(rows);
  const nameOf = (row: ShownRow): string => [...(isMany ? [row.output] : []), labelOf(row)].join(' ');
  for (const row of rows) {
    const { reads, response } = row;
    for (const note of [...readingNotes(reads), ...(response?.problem === undefined ? [] : [response.problem])]) {
      byNote.set(note, [...(byNote.get(note) ?? []), nameOf(row)]);
    }
  }
  const about = rows.filter(({ approximate, response }) => approximate && typeof response?.levelDb === 'number');
  if (about.length > 0) byNote.set(approximateNote, about.map(nameOf));
  const lines = [...byNote].map(([note, labels]) => (labels.length === rows.length ? note : `${labels.join('; ')}: ${note}`));
  return [...lines, ...leftOut];
}
