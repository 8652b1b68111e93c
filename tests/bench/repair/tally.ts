/** Outcomes counted by kind of mistake. */
import type { Table } from '../../../server/command/output/table.js';
import type { Outcome } from './case.js';

/** A row for each kind and one for all; shares in percent of what can be observed. */
export function tally(outcomes: readonly Outcome[]): Table {
  const kinds = [...new Set(outcomes.map(({ mistake }) => mistake.kind))];
  return {
    heads: [
      'mistake',
      'cases',
      'unread',
      'same nets',
      'same outside',
      'hangs on ?',
      'detected',
      'first fixes',
      'first three',
      'very wire',
      'of three',
      'no repair',
    ],
    rows: [
      ...kinds.map((kind) =>
        row(
          kind,
          outcomes.filter(({ mistake }) => mistake.kind === kind),
        ),
      ),
      row('all', outcomes),
    ],
  };
}

function row(name: string, outcomes: readonly Outcome[]): string[] {
  const count = (seen: Outcome['seen']): number => outcomes.filter((one) => one.seen === seen).length;
  const found = outcomes.filter(({ seen }) => seen === 'found');
  const share = (isSo: (one: Outcome) => boolean): string => percent(found.filter(isSo).length, found.length);
  return [
    name,
    String(outcomes.length),
    String(count('unread')),
    String(count('nets')),
    String(count('outside')),
    String(count('open')),
    percent(found.length, found.length + count('missed')),
    share(({ offered }) => offered[0]?.behaves === true),
    share(({ offered }) => offered.some(({ behaves }) => behaves)),
    share(({ offered }) => offered[0]?.isVery === true),
    share(({ offered }) => offered.some(({ isVery }) => isVery)),
    String(found.filter(({ offered }) => offered.length === 0).length),
  ];
}

export function percent(part: number, whole: number): string {
  return whole === 0 ? '' : `${((100 * part) / whole).toFixed(1)} %`;
}

/** Each mistake that was missed or repaired in another way, one line each. */
export function misses(outcomes: readonly Outcome[]): readonly string[] {
  return outcomes.flatMap(({ example, mistake, seen, rules, offered }): readonly string[] => {
    const case_ = `${example}: ${mistake.kind}: ${mistake.says}`;
    if (seen === 'missed') return [`missed    ${case_}`];
    if (seen === 'open') return [`hangs on ? ${case_}`];
    if (seen === 'outside' || seen === 'nets') return [`${seen === 'nets' ? 'same nets' : 'no sign  '} ${case_}`];
    if (seen !== 'found' || offered[0]?.behaves === true) return [];
    const later = offered.findIndex(({ behaves }) => behaves);
    const reported = [...new Set(rules)].join(', ');
    return [
      `${later > 0 ? `fixed ${later + 1}. ` : offered.length > 0 ? 'other    ' : 'nothing  '} ${case_} | ${reported} | ${offered.map(({ title }) => title).join(' / ')}`,
    ];
  });
}

/** Times of the repairs: the middle, nine in ten, the longest. */
export function times(outcomes: readonly Outcome[]): string[] {
  const sorted = outcomes
    .filter(({ seen }) => seen === 'found')
    .map(({ ms }) => ms)
    .sort((a, b) => a - b);
  return [0.5, 0.9, 1].map((share) => (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(0));
}
