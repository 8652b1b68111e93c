/** What every page about many circuits says first: the verdict, checks that are weaker, findings set aside, files. */
import { append } from '../../../language/collections.js';
import { counted } from '../../../language/circuit/index.js';
import { type Change, sumOf, verdictOf } from '../../../language/compare/index.js';
import { abridged } from '../../../language/words.js';
import type { CircuitChange, FileChange, FolderChange } from './folder-change.js';

/** Circuits that change in the same way, one at least. */
export type Group = readonly [CircuitChange, ...CircuitChange[]];

/** In the order of their first. */
export function groupsOf({ circuits }: FolderChange): readonly Group[] {
  const groups = new Map<string, [CircuitChange, ...CircuitChange[]]>();
  for (const circuit of circuits) {
    const group = groups.get(circuit.effect);
    if (group === undefined) groups.set(circuit.effect, [circuit]);
    else group.push(circuit);
  }
  return [...groups.values()];
}

/** `3 circuits: 1 position silent, 2 pickups lost; 1 file added`. */
export function headline({ circuits, files, compared }: FolderChange): string {
  const said = [
    ...(circuits.length === 0 ? [] : [`${counted(circuits.length, 'circuit')}: ${effectsOf(circuits)}`]),
    ...(['added', 'deleted', 'renamed'] as const).flatMap((kind) => {
      const count = files.filter((file) => file.kind === kind).length;
      return count === 0 ? [] : [`${counted(count, 'file')} ${kind}`];
    }),
  ];
  const broken = files.filter(({ kind, errors = 0 }) => kind === 'unused' && errors > 0).length;
  if (broken > 0) said.unshift(`${counted(broken, 'file')} of parts with errors`);
  return said.length === 0 ? `nothing differs in ${counted(compared, 'circuit')}` : said.join('; ');
}

/** What happens to circuits that differ, in one line. */
export function effectsOf(circuits: readonly CircuitChange[]): string {
  const verdict = verdictOf(sumOf(circuits.map(({ counts }) => counts)));
  if (verdict !== '') return verdict;
  if (circuits.some(({ change }) => change.electrical)) return 'electrical change that is neither heard nor read in any position';
  return circuits.some(({ change }) => change.build) ? 'no electrical change, but the build changes' : 'no electrical change';
}

export interface Alarm {
  /** The circuits that it is about. */
  readonly paths: readonly string[];
  readonly says: string;
}

/** What stands above all circuits. */
export interface Alarms {
  readonly unread: readonly Alarm[];
  readonly weakened: readonly Alarm[];
  readonly aside: readonly Alarm[];
}

export function alarmsOf({ circuits }: FolderChange): Alarms {
  const of = (said: (circuit: CircuitChange) => readonly { readonly says: string }[]): readonly Alarm[] => {
    const byText = new Map<string, string[]>();
    for (const circuit of circuits) for (const { says } of said(circuit)) append(byText, says, circuit.path);
    return [...byText].map(([says, paths]) => ({ paths, says }));
  };
  return {
    unread: of(({ change }) => change.unread),
    weakened: of(({ change }) => change.expectations.filter(({ weakens }) => weakens)),
    aside: of(({ change }) => change.allows.filter(({ kind, hides }) => kind === 'new' || hides.length > 0)),
  };
}

/** A change without what stands above all circuits. */
export function withoutAlarms(change: Change): Change {
  return {
    ...change,
    unread: [],
    expectations: change.expectations.filter(({ weakens }) => weakens !== true),
    allows: change.allows.filter(({ kind, hides }) => kind !== 'new' && hides.length === 0),
  };
}

/** `a.lug, b.lug: gone: expect …`. */
export function alarmLine({ paths, says }: Alarm): string {
  return `${abridged([...new Set(paths)])}: ${says}`;
}

/** `added: b.lug, “Alder Lane no. 3”, 1 error`. */
export function fileLine({ kind, before, after, title, errors = 0, warnings = 0 }: FileChange): string {
  const called = title === '' ? '' : `, “${title}”`;
  const found = [...(errors === 0 ? [] : [counted(errors, 'error')]), ...(warnings === 0 ? [] : [counted(warnings, 'warning')])];
  switch (kind) {
    case 'renamed':
      return `renamed: ${before ?? ''} is now ${after ?? ''}${called}`;
    case 'deleted':
      return `deleted: ${before ?? ''}${called}`;
    case 'unused':
      return `changed: ${after ?? ''}, parts that no circuit here uses${errors === 0 ? '' : `, ${counted(errors, 'error')} in its text`}`;
    case 'added':
      return [`added: ${after ?? ''}${called}`, ...found].join(', ');
  }
}

/** Paths of a group and why they change, where that is another file. */
export function causeOf([{ because }]: Group): string {
  return because.length === 0 ? '' : `through ${because.join(', ')}`;
}
