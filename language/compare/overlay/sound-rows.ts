/** What sounds in each position before and now, as the short table of a picture. */
import { amount } from '../../circuit/index.js';
import { writeDistinct } from '../amounts.js';
import type { Figures, PositionChange } from '../change.js';

export interface SoundRow {
  readonly position: string;
  /** Sound, hum, level and other figures, one piece each. */
  readonly before: readonly string[];
  readonly after: readonly string[];
}

export interface SoundTable {
  readonly rows: readonly SoundRow[];
  /** How many more positions differ. */
  readonly omitted: number;
}

const none = '–';
const most = 12;

/** The positions that differ, those with another sound first. */
export function soundTable(positions: readonly PositionChange[]): SoundTable {
  const isHeard = ({ kind, sounds, hum }: PositionChange): boolean => kind !== 'changed' || (sounds ?? hum) !== undefined;
  const ordered = [...positions.filter(isHeard), ...positions.filter((row) => !isHeard(row))];
  return { rows: ordered.slice(0, most).map(rowOf), omitted: Math.max(0, ordered.length - most) };
}

function rowOf(change: PositionChange): SoundRow {
  const position = change.label || 'default';
  if (change.kind === 'new') return { position, before: [none], after: [change.what] };
  if (change.kind === 'gone') return { position, before: [change.what], after: [none] };
  const cells = cellsOf(change);
  // Anything without two figures is worded as in the other formats.
  if (cells.length === 0) return { position, before: [none], after: [change.what] };
  return { position, before: cells.map(([old]) => old), after: cells.map(([, now]) => now) };
}

/** Sound, hum and level; the other figures only where neither sound nor hum differs. */
function cellsOf({
  sounds,
  hum,
  reads,
  peakHz,
  peakDb,
  cutoffHz,
  levelDb,
}: PositionChange): readonly (readonly [string, string])[] {
  const heard: readonly (readonly [string, string])[] = [
    ...(sounds === undefined ? [] : [[sounds.before, sounds.after] as const]),
    ...(hum === undefined ? [] : [[`hum ${hum.before}`, `hum ${hum.after}`] as const]),
  ];
  const figures =
    heard.length > 0
      ? []
      : [
          ...figureCells('reads', reads, ohm, 'open'),
          ...figureCells('peak', peakHz, hertz),
          ...figureCells('peak height', peakDb, decibel),
          ...figureCells('-3 dB at', cutoffHz, hertz),
        ];
  return [...heard, ...figures, ...figureCells('level', levelDb, decibel)];
}

function figureCells(
  name: string,
  figures: Figures | undefined,
  write: Writer,
  missing = 'none',
): readonly (readonly [string, string])[] {
  if (figures === undefined) return [];
  const text = (value: number | null, digits: number): string => (value === null ? missing : write(value, digits));
  const [before, after] = writeDistinct((digits) => [text(figures.before, digits), text(figures.after, digits)]);
  return [[`${name} ${before}`, `${name} ${after}`]];
}

type Writer = (value: number, digits: number) => string;
const ohm: Writer = (value, digits) => amount(value, 'ohm', digits);
const hertz: Writer = (value, digits) => amount(value, 'hertz', digits);
const decibel: Writer = (value, digits) => `${value.toFixed(digits - 2)} dB`;
