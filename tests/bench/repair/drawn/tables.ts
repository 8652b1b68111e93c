/** The outcomes of slips as tables: by intent, by kind of slip, by family of circuit. */
import type { Table } from '../../../../server/command/output/table.js';
import { intents, type Intent } from './circuits.js';
import { wilsonInterval } from './interval.js';
import { slipKinds } from './slips.js';
import type { Trial } from './trial.js';

const heads = ['cases', 'found', 'first fix restores', 'among first three'] as const;

export function byIntent(trials: readonly Trial[]): Table {
  return {
    heads: ['intent', ...heads],
    rows: intents.flatMap((intent) => rowOf([intent], of(trials, intent))),
  };
}

export function byKind(trials: readonly Trial[]): Table {
  return {
    heads: ['slip', 'intent', ...heads],
    rows: slipKinds.flatMap((kind) =>
      intents.flatMap((intent) =>
        rowOf(
          [kind, intent],
          of(trials, intent).filter((trial) => trial.kind === kind),
        ),
      ),
    ),
  };
}

export function byFamily(trials: readonly Trial[]): Table {
  const families = [...new Set(trials.flatMap((trial) => trial.families))].sort();
  return {
    heads: ['circuits with', 'intent', ...heads],
    rows: families.flatMap((family) =>
      intents.flatMap((intent) =>
        rowOf(
          [family, intent],
          of(trials, intent).filter((trial) => trial.families.includes(family)),
        ),
      ),
    ),
  };
}

function of(trials: readonly Trial[], intent: Intent): readonly Trial[] {
  return trials.filter((trial) => trial.intent === intent);
}

/** Shares of all cases, a miss counted as a fix that fails. No row where there is no case. */
function rowOf(names: readonly string[], trials: readonly Trial[]): readonly (readonly string[])[] {
  if (trials.length === 0) return [];
  const share = (isSo: (trial: Trial) => boolean): string => shareText(trials.filter(isSo).length, trials.length);
  return [
    [
      ...names,
      String(trials.length),
      share(({ rules }) => rules.length > 0),
      share(({ fixes }) => fixes[0]?.restores === true),
      share(({ fixes }) => fixes.some(({ restores }) => restores)),
    ],
  ];
}

/** `84.0 % (79.2–87.9)`. */
export function shareText(hits: number, cases: number): string {
  const [low, high] = wilsonInterval(hits, cases);
  return `${((100 * hits) / cases).toFixed(1)} % (${(100 * low).toFixed(1)}–${(100 * high).toFixed(1)})`;
}

/** Sizes at which the time of the list of fixes is reported, in parts. */
const timed = { fewest: 25, most: 35 };

/** Processor time of a list of fixes at about thirty parts. */
export function times(trials: readonly Trial[]): Table {
  return {
    heads: ['intent', `lists at ${timed.fewest} to ${timed.most} parts`, 'middle, ms', 'nine in ten, ms'],
    rows: intents.flatMap((intent) => {
      const sorted = of(trials, intent)
        .filter(({ parts }) => parts >= timed.fewest && parts <= timed.most)
        .flatMap(({ ms }) => (ms === undefined ? [] : [ms]))
        .sort((a, b) => a - b);
      const at = (share: number): string =>
        (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(0);
      return sorted.length === 0 ? [] : [[intent, String(sorted.length), at(0.5), at(0.9)]];
    }),
  };
}

/** Each slip that was missed or that the first fix does not make good, one line each. */
export function missLines(trials: readonly Trial[]): readonly string[] {
  return trials
    .filter(({ fixes }) => fixes[0]?.restores !== true)
    .map(({ seed, kind, says, intent, rules, fixes }) => {
      const later = fixes.findIndex(({ restores }) => restores);
      const what = rules.length === 0 ? 'missed' : later > 0 ? `fix ${later + 1}` : fixes.length > 0 ? 'other fix' : 'no fix';
      return [what, intent, `seed ${seed}`, kind, says, rules.join(', '), fixes[0]?.title ?? ''].join(' | ');
    });
}
