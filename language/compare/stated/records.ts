/** Readings that were taken, and what the record of one instrument says, where they differ. */
import { lugById, type AnalysedCircuit, type InstrumentRecord, type Measurement } from '../../circuit/model.js';
import type { SourceRange } from '../../source.js';
import type { RecordChange } from '../change.js';
import { claimText, placeText } from './expectation-texts.js';

type Renamed = (text: string) => string;

/** A reading of the same kind at the same place is one that was taken again. */
export function compareRecords(before: AnalysedCircuit, after: AnalysedCircuit, renamed: Renamed): readonly RecordChange[] {
  return [...compareReadings(readingsOf(before), readingsOf(after), renamed), ...compareTexts(before.record, after.record)];
}

export interface Reading {
  /** What was read and where, without what it was. */
  readonly key: string;
  /** `measured selector "bridge" : reads 6.1k`. */
  readonly text: string;
  readonly claim: string;
  readonly range: SourceRange;
}

export function readingsOf(circuit: AnalysedCircuit): readonly Reading[] {
  return circuit.measurements.flatMap((line) => {
    const at = (isSorted: boolean): string =>
      [betweenText(circuit, line), placeText(circuit, line, isSorted)].filter(Boolean).join(' ');
    return line.claims.map((claim) => {
      const text = claimText(circuit, claim);
      const place = at(false);
      const shown = `measured ${place === '' ? '' : `${place} `}: ${text}`;
      return { key: `${at(true)} ${claim.kind.split('-')[0] ?? ''}`, text: shown, claim: text, range: claim.range };
    });
  });
}

function betweenText(circuit: AnalysedCircuit, { between }: Measurement): string {
  return between === undefined ? '' : `between ${between.map((lug) => lugById(circuit, lug).label).join(' and ')}`;
}

function compareReadings(old: readonly Reading[], now: readonly Reading[], renamed: Renamed): readonly RecordChange[] {
  const what = 'measured';
  // The same reading first, then the same place.
  const left = old.filter((one) => !now.some(({ text }) => text === renamed(one.text)));
  const open = now.filter((one) => !old.some(({ text }) => renamed(text) === one.text));
  const taken = new Set<Reading>();
  const changes = open.map((one): RecordChange => {
    const earlier = left.find((other) => !taken.has(other) && renamed(other.key) === one.key);
    if (earlier === undefined) return { what, kind: 'new', says: `new: ${one.text}`, after: one.range };
    taken.add(earlier);
    return { what, kind: 'changed', says: `${one.text} (before: ${earlier.claim})`, before: earlier.range, after: one.range };
  });
  const gone = left.filter((one) => !taken.has(one));
  return [
    ...changes,
    ...gone.map(({ text, range }): RecordChange => ({ what, kind: 'gone', says: `gone: ${text}`, before: range })),
  ];
}

function compareTexts(old: InstrumentRecord | undefined, now: InstrumentRecord | undefined): readonly RecordChange[] {
  const places = { ...(old === undefined ? {} : { before: old.range }), ...(now === undefined ? {} : { after: now.range }) };
  const single = (['number', 'by', 'date'] as const).flatMap((what): RecordChange[] => {
    const [was, is] = [old?.[what], now?.[what]];
    if (was === is) return [];
    const text = (value: number | string | undefined): string => (value === undefined ? 'nothing' : `“${value}”`);
    return [{ what, kind: 'changed', says: `record, ${what}: ${text(was)} becomes ${text(is)}`, ...places }];
  });
  const many = (['changed', 'before', 'done'] as const).flatMap((what): RecordChange[] => {
    const [was, is] = [old?.[what] ?? [], now?.[what] ?? []];
    const only = (texts: readonly string[], others: readonly string[]): readonly string[] =>
      texts.filter((text) => !others.includes(text));
    return [
      ...only(is, was).map((text): RecordChange => ({ what, kind: 'new', says: `record, ${what}: new “${text}”`, ...places })),
      ...only(was, is).map((text): RecordChange => ({
        what,
        kind: 'gone',
        says: `record, ${what}: “${text}” is gone`,
        ...places,
      })),
    ];
  });
  return [...single, ...many];
}
