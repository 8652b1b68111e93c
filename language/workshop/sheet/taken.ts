/** Readings at the jack: where a row of the meter sheet takes one, and what was read there. */
import { knownPositions } from '../../checks/index.js';
import { readSettings } from '../../circuit/index.js';
import type { AnalysedCircuit, Measurement } from '../../circuit/model.js';
import { heardAt, outputLabel, outputsOf, settingsMatching, type PositionRow } from '../../electrics/index.js';
import { ohmText } from '../../intent/index.js';
import type { SourceRange } from '../../source.js';
import type { Steps } from '../../steps.js';
import { JOINED } from '../plan/stage-tests.js';

/** Where a reading is taken, in words of the language. */
export interface ReadingPlace {
  /** A contact of a jack (`output.ring`); empty for the usual output. */
  readonly at: string;
  /** `selector 1`; empty where no switch matters. */
  readonly setting: string;
}

/** What a `measured` line says of one row. */
export interface TakenReading {
  /** `6.6k`, `open`, `short`. */
  readonly text: string;
  /** Whether it lies within the limits. */
  readonly fits: boolean;
  /** The line, and its words from `reads` on. */
  readonly measurement: Measurement;
  readonly range: SourceRange;
  /** How many settings the line speaks of. */
  readonly settings: number;
}

/** The reading that speaks of the row; where several do, the one that speaks of the fewest settings. */
export function takenAt(circuit: AnalysedCircuit, row: PositionRow): TakenReading | undefined {
  const found: TakenReading[] = [];
  for (const measurement of circuit.measurements) {
    const heard = heardAt(circuit, measurement.at);
    if (measurement.between !== undefined || outputLabel(heard) !== row.output) continue;
    const meant = settingsMatching(heard, measurement.settings);
    if (!meant.some((setting) => isSame(setting, row.setting))) continue;
    for (const claim of measurement.claims) {
      const said = { measurement, range: claim.range, settings: meant.length };
      const { ohm, low, high } = row.reads;
      if (claim.kind === 'reads-open') found.push({ ...said, text: 'open', fits: ohm === null });
      if (claim.kind === 'reads-short') found.push({ ...said, text: 'short', fits: ohm !== null && ohm < JOINED });
      if (claim.kind !== 'reads') continue;
      const fits = low !== null && high !== null && claim.ohm >= low && claim.ohm <= high;
      found.push({ ...said, text: ohmText(claim.ohm), fits });
    }
  }
  return found.sort((a, b) => a.settings - b.settings)[0];
}

/** What was read at a place, and how many settings the place is for; undefined where the circuit has no such place. */
export function readingAt(
  circuit: AnalysedCircuit,
  { at, setting }: ReadingPlace,
  rows: readonly PositionRow[] = knownPositions(circuit).rows,
): { readonly taken?: TakenReading; readonly settings: number } | undefined {
  const heard =
    at === ''
      ? circuit
      : outputsOf(circuit)
          .map(({ tip }) => heardAt(circuit, tip))
          .find((one) => outputLabel(one) === at);
  const controls = setting === '' ? { settings: [] } : readSettings(circuit, setting);
  if (heard === undefined || 'problem' in controls) return undefined;
  const meant = settingsMatching(heard, controls.settings);
  const output = outputLabel(heard);
  const row = rows.find((one) => one.output === output && meant.some((other) => isSame(other, one.setting)));
  if (row === undefined) return undefined;
  const taken = takenAt(circuit, row);
  return { settings: meant.length, ...(taken === undefined ? {} : { taken }) };
}

/** What was read at each place, in steps of a place each. */
export function* readingsSteps(
  circuit: AnalysedCircuit,
  places: readonly ReadingPlace[],
): Steps<readonly (TakenReading | undefined)[]> {
  const { rows } = knownPositions(circuit);
  const readings: (TakenReading | undefined)[] = [];
  for (const place of places) {
    yield;
    readings.push(readingAt(circuit, place, rows)?.taken);
  }
  return readings;
}

function isSame(one: PositionRow['setting'], other: PositionRow['setting']): boolean {
  return one.positions.join() === other.positions.join() && one.rotations.join() === other.rotations.join();
}
