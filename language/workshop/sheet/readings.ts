/** Meter sheet, tap test, controls and ground list: what the finished instrument must answer. */
import { knownPositions } from '../../checks/index.js';
import { elementById, lugById, shaftById, type LugId, type PartId } from '../../circuit/model.js';
import { effectsAnywhere, groundNetwork, outputsOf, readingNotes, type PositionRow } from '../../electrics/index.js';
import { limitText } from '../../intent/index.js';
import type { Build } from '../build.js';
import { mergedRows } from './merge-rows.js';
import { JOINED } from '../plan/stage-tests.js';
import { readingAt, takenAt, type ReadingPlace, type TakenReading } from './taken.js';

/** One setting at the jack. Ohms as text; `open` where the meter must read open. */
export interface MeterRow {
  readonly setting: string;
  readonly low: string;
  readonly high: string;
  readonly note: string;
  /** Where a `measured` line says that it is taken. */
  readonly place: ReadingPlace;
  /** What was read there, as the `measured` lines say. */
  readonly taken?: Pick<TakenReading, 'text' | 'fits'>;
}

export function meterSheet(build: Build): {
  readonly rows: readonly MeterRow[];
  readonly leftOut: readonly string[];
} {
  const { rows, leftOut } = knownPositions(build.circuit);
  const merged = mergedRows(build.circuit, rows, (row) => JSON.stringify([spanOf(row), noteOf(row)]));
  const [usual] = outputsOf(build.circuit);
  const usualLabel = usual === undefined ? '' : lugById(build.circuit, usual.tip).label;
  return {
    leftOut,
    rows: merged.map(({ row, setting, label }) => {
      const taken = takenAt(build.circuit, row);
      return {
        setting,
        ...spanOf(row),
        note: noteOf(row),
        place: { at: row.output === usualLabel ? '' : row.output, setting: label },
        ...(taken === undefined ? {} : { taken: { text: taken.text, fits: taken.fits } }),
      };
    }),
  };
}

/** Which pickup answers a tap in one setting, and whether it hums. */
export interface TapRow {
  readonly setting: string;
  readonly loud: readonly string[];
  readonly quiet: readonly string[];
  readonly hum: string;
}

export function tapTest(build: Build): readonly TapRow[] {
  const pickups = build.parts.filter((part) => part.elements.some((id) => elementById(build.circuit, id).kind === 'coil'));
  const answer = (row: PositionRow): string => JSON.stringify([row.sound.silent, row.sound.text, row.sound.hum]);
  return mergedRows(build.circuit, knownPositions(build.circuit).rows, answer).map(({ row, setting }) => {
    const heard = new Set(row.sound.heard.map(({ coil }) => elementById(build.circuit, coil).part));
    const isLoud = (id: PartId): boolean => !row.sound.silent && heard.has(id);
    return {
      setting,
      loud: pickups.filter(({ id }) => isLoud(id)).map(({ name }) => name),
      quiet: pickups.filter(({ id }) => !isLoud(id)).map(({ name }) => name),
      hum: row.sound.silent ? '' : row.sound.hum,
    };
  });
}

/** What each shaft does, a sentence each. */
export function controlSentences(build: Build): readonly { readonly name: string; readonly says: string }[] {
  return effectsAnywhere(build.circuit).map((effect) => ({
    name: shaftById(build.circuit, effect.shaft).name,
    says: effect.says,
  }));
}

/** Metal against the jack's sleeve. */
export interface GroundRow {
  readonly lug: LugId;
  readonly name: string;
  readonly expected: string;
  /** Where a `measured` line says that it is taken. Absent where the text knows no limit: the resistance of paint, metal without ground. */
  readonly place?: ReadingPlace;
  /** What was read there. */
  readonly taken?: Pick<TakenReading, 'text' | 'fits'>;
}

/**
 * Every metal thing with what the meter must say between it and the sleeve: under 2 Ω, leads subtracted (common practice). Paint reads higher by its length
 * and width, so the sheet asks for about what it read when it was dry. Metal without ground is named.
 */
export function groundList(build: Build): readonly GroundRow[] {
  const loose = new Set(groundNetwork(build.circuit).ungrounded.map(({ lug }) => lug));
  return build.lugs
    .filter((lug) => lug.metal && lug.inner !== true && lug.id !== build.jack?.sleeve)
    .map((lug) => {
      const row = { lug: lug.id, name: build.label(lug.id) };
      if (loose.has(lug.id)) return { ...row, expected: 'as the text is now, not on ground in every setting' };
      const expected = `less than ${JOINED} Ω`;
      if (build.jack === undefined || build.part(lug.part).family === 'cavity') return { ...row, expected };
      const place: ReadingPlace = { at: '', setting: '', between: [build.label(build.jack.sleeve), row.name] };
      const taken = readingAt(build.circuit, place, [])?.taken;
      return { ...row, expected, place, ...(taken === undefined ? {} : { taken: { text: taken.text, fits: taken.fits } }) };
    });
}

function noteOf({ reads }: PositionRow): string {
  return readingNotes(reads).join('; ');
}

function spanOf({ reads }: PositionRow): { low: string; high: string } {
  if (reads.unknown) return { low: '?', high: '?' };
  if (reads.ohm === null) return { low: 'open', high: 'open' };
  return { low: limitText(reads.low ?? reads.ohm), high: limitText(reads.high ?? reads.ohm) };
}
