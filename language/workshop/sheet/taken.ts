/** Readings of the finished instrument: where a row of the sheet takes one, and what was read there. */
import { knownPositions } from '../../checks/index.js';
import { readSettings } from '../../circuit/index.js';
import type { AnalysedCircuit, Claim, Measurement } from '../../circuit/model.js';
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
  /** The names of the two lugs for the probes; absent at the jack. */
  readonly between?: readonly [string, string];
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

/** Whether a claim about ohms says that two points are joined as they must be, see `JOINED`; undefined for other claims. */
function joinedAs(claim: Claim): Pick<TakenReading, 'text' | 'fits'> | undefined {
  if (claim.kind === 'reads-open') return { text: 'open', fits: false };
  if (claim.kind === 'reads-short') return { text: 'short', fits: true };
  return claim.kind === 'reads' ? { text: ohmText(claim.ohm), fits: claim.ohm < JOINED } : undefined;
}

/** The reading between two lugs that must be joined in every setting; undefined where the circuit has no such lugs. */
function joinedAt(circuit: AnalysedCircuit, between: readonly [string, string]): PlaceReading | undefined {
  const lugs = between.map((name) => circuit.lugs.find(({ label }) => label === name)?.id);
  if (lugs.includes(undefined)) return undefined;
  const settings = settingsMatching(circuit, []).length;
  for (const measurement of circuit.measurements) {
    const probes = measurement.between;
    if (probes === undefined || measurement.settings.length > 0 || !lugs.every((lug) => probes.some((one) => one === lug)))
      continue;
    for (const claim of measurement.claims) {
      const said = joinedAs(claim);
      if (said !== undefined) return { settings, taken: { ...said, measurement, range: claim.range, settings } };
    }
  }
  return { settings };
}

/** What was read at a place, and how many settings the place is for. */
export interface PlaceReading {
  readonly taken?: TakenReading;
  readonly settings: number;
}

/** The reading at a place; undefined where the circuit has no such place. */
export function readingAt(
  circuit: AnalysedCircuit,
  { at, setting, between }: ReadingPlace,
  rows: readonly PositionRow[] = knownPositions(circuit).rows,
): PlaceReading | undefined {
  if (between !== undefined) return joinedAt(circuit, between);
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
