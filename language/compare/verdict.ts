/** A comparison in one line: how many positions fall silent, pickups are lost, checks weakened, findings set aside, readings changed. */
import { counted } from '../circuit/index.js';
import type { Change } from './change.js';

/** What a reviewer must not miss, counted. */
export interface Counts {
  /** Versions with errors in their text. */
  readonly unread: number;
  /** Positions, at each output, that sounded and are silent now. */
  readonly silent: number;
  /** Pickups and coils that are heard nowhere any more. */
  readonly lost: number;
  /** Expectations that are gone, narrowed or loosened. */
  readonly weakened: number;
  /** Expectations that say something else for the same settings. */
  readonly rewritten: number;
  /** Expectations that are met no longer. */
  readonly broken: number;
  /** Findings that an `allow` sets aside and that nothing set aside before. */
  readonly allow: number;
  /** Errors and warnings that are new. */
  readonly found: number;
  /** Positions whose meter reading differs. */
  readonly reading: number;
  /** Positions that sound otherwise, those that fall silent not among them. */
  readonly sounding: number;
  /** Positions in which only hum, peak, level or the limits of the reading differ. */
  readonly figures: number;
  /** Readings and texts of a record that differ. */
  readonly records: number;
  /** Pots, alone or two together, that act otherwise. */
  readonly controls: number;
}

export function countsOf(change: Change): Counts {
  const isSilenced = ({ kind, sounds, what }: Change['positions'][number]): boolean =>
    sounds?.after === 'silent' || (kind === 'new' && what === 'new, sounds silent');
  const silenced = change.positions.filter(isSilenced);
  const others = change.positions.filter((position) => !isSilenced(position));
  return {
    unread: change.unread.length,
    silent: silenced.length,
    lost: change.lost.length,
    weakened: change.expectations.filter(({ weakens }) => weakens).length,
    rewritten: change.expectations.filter(({ kind }) => kind === 'rewritten').length,
    broken: change.expectations.filter(({ kind }) => kind === 'broken').length,
    allow: change.allows.reduce((sum, { kind, hides }) => sum + (kind === 'new' ? Math.max(1, hides.length) : hides.length), 0),
    // Those of a text that can't be read are counted with it.
    found: change.findings.filter(
      ({ kind, severity }) =>
        change.unread.length === 0 && (kind === 'new' || kind === 'reopened') && (severity === 'error' || severity === 'warning'),
    ).length,
    reading: change.positions.filter(({ reads }) => reads !== undefined).length,
    sounding: others.filter(({ kind, sounds }) => kind !== 'changed' || sounds !== undefined).length,
    figures: others.filter(({ kind, sounds, reads }) => kind === 'changed' && sounds === undefined && reads === undefined).length,
    controls: change.controls.length,
    records: change.records.length,
  };
}

/** The sum of several, for a page about many circuits. */
export function sumOf(all: readonly Counts[]): Counts {
  const none = Object.fromEntries(terms.map(([name]) => [name, 0])) as unknown as Counts;
  return all.reduce(
    (sum, one) => Object.fromEntries(terms.map(([name]) => [name, sum[name] + one[name]])) as unknown as Counts,
    none,
  );
}

const terms: readonly (readonly [keyof Counts, (count: number) => string])[] = [
  ['unread', (count) => `${counted(count, 'text')} not fully read`],
  ['silent', (count) => `${counted(count, 'position')} silent`],
  ['lost', (count) => `${counted(count, 'pickup')} lost`],
  ['weakened', (count) => `${counted(count, 'check')} weakened`],
  ['broken', (count) => `${counted(count, 'check')} failing`],
  ['allow', (count) => `${counted(count, 'finding')} set aside`],
  ['found', (count) => counted(count, 'new finding')],
  ['rewritten', (count) => `${counted(count, 'check')} rewritten`],
  ['sounding', (count) => `${counted(count, 'position')} changed`],
  ['reading', (count) => `${counted(count, 'meter reading')} changed`],
  ['figures', (count) => `${counted(count, 'position')} with other figures`],
  ['controls', (count) => `${counted(count, 'control')} changed`],
  ['records', (count) => `${counted(count, 'change')} in a record`],
];

/** `1 position silent, 2 pickups lost`, what matters most first; empty where all is nought. */
export function verdictOf(counts: Counts): string {
  return terms.flatMap(([name, say]) => (counts[name] === 0 ? [] : [say(counts[name])])).join(', ');
}
