/** Positions and responses in the form in which a screen shows them. */
import { formatQuantity, type StringNote } from '../circuit/index.js';
import type { PositionTable as SolvedTable, Response, ResponseSummary, StringResponse } from '../electrics/index.js';
import { listed } from '../words.js';

export interface PositionTable {
  readonly rows: readonly PositionRow[];
  /** What was not enumerated and why, a sentence each. */
  readonly leftOut: readonly string[];
}

/** One switch setting; texts are ready to be shown. */
export interface PositionRow {
  /** Position number or bare name by switch. */
  readonly set: Readonly<Record<string, string>>;
  readonly label: string;
  readonly sounds: string;
  readonly hum: 'cancelled' | 'partly' | 'present' | 'none';
  readonly reads: string;
  readonly peak: string;
}

/** A response, its points in lists of equal length. */
export interface ResponseCurve extends ResponseSummary {
  /** What is said of the curve where peak and corner aren't: of one that is shown as a string sounds. */
  readonly says?: string;
  readonly hz: readonly number[];
  /** Against one unloaded pickup of output 100 %. */
  readonly db: readonly number[];
  /** Phase, degrees. */
  readonly deg: readonly number[];
}

export function curveOf({ points, ...summary }: Response): ResponseCurve {
  return { ...summary, hz: points.map(({ hz }) => hz), db: points.map(({ db }) => db), deg: points.map(({ deg }) => deg) };
}

/** The curve as one string sounds; empty, with the reason, where the place of a pickup that is heard isn't known. */
export function curveOfString({ points, missing, problem }: StringResponse, string: StringNote): ResponseCurve {
  const names = listed(missing.map(({ name }) => name));
  const why = missing.length === 0 ? problem : `It isn’t known where ${names} senses the string: state from-bridge.`;
  return {
    ...curveOf({ points, peak: null, cutoffHz: null, levelDb: null }),
    says:
      why ??
      `As ${string.name} sounds, ${formatQuantity(string.hz, 'hertz')}: all partials equally strong, each pickup at its place.`,
  };
}

export function shownPositions({ rows, leftOut }: SolvedTable): PositionTable {
  const [first] = rows;
  return {
    rows: rows.map((row): PositionRow => ({
      set: row.set,
      label: row.output === first?.output ? row.label : [row.output, row.label].filter(Boolean).join(', '),
      sounds: row.sound.text,
      hum: row.sound.hum,
      reads: row.reads.unknown ? '?' : row.reads.ohm === null ? 'open' : formatQuantity(row.reads.ohm, 'ohm'),
      peak: peakOf(row),
    })),
    leftOut,
  };
}

function peakOf({ sound, response, approximate }: SolvedTable['rows'][number]): string {
  if (sound.silent || response === undefined) return '';
  if (response.cancels) return 'thin';
  return response.peak === null ? '' : `${approximate ? '≈ ' : ''}${formatQuantity(response.peak.hz, 'hertz')}`;
}
