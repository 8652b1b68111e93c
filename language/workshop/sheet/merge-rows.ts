/** Settings with the same answer, merged into one row: switches that make no difference are left out of the row's name. */
import type { Circuit, SwitchId } from '../../circuit/model.js';
import { groupBy } from '../../collections.js';
import { settingLabel, type PositionRow, type Setting } from '../../electrics/index.js';

export interface MergedRow {
  readonly setting: string;
  /** The setting as a statement writes it, switches that make no difference left out. */
  readonly label: string;
  /** The switches whose positions make the row; empty in a row for every setting. */
  readonly fixed: readonly SwitchId[];
  /** One of the rows that it stands for, and how many they are. */
  readonly row: PositionRow;
  readonly count: number;
}

/** With more rows than this, none are merged. */
const most = 512;

/** Splits the rows of each output by one switch after another until all rows of a branch give the same answer. */
export function mergedRows(
  circuit: Circuit,
  rows: readonly PositionRow[],
  answer: (row: PositionRow) => string,
): readonly MergedRow[] {
  const answers = new Map(rows.map((row) => [row, answer(row)]));
  const free = circuit.switches.filter((device) => device.rest === undefined).map(({ id }) => id);
  const outputs = [...groupBy(rows, ({ output }) => output)];
  return outputs.flatMap(([output, own]) => {
    const merged =
      own.length > most
        ? own.map((row) => ({ setting: row.label || 'default', label: row.label, fixed: free, row, count: 1 }))
        : split(own, free, new Set());
    return outputs.length < 2 ? merged : merged.map((row) => ({ ...row, setting: `${output}, ${row.setting}` }));
  });

  function split(here: readonly PositionRow[], open: readonly SwitchId[], fixed: ReadonlySet<SwitchId>): MergedRow[] {
    const [first] = here;
    if (first === undefined) return [];
    if (isUniform(here))
      return [{ ...namesOf(first.setting, fixed, open.length), fixed: [...fixed], row: first, count: here.length }];
    const [chosen] = [...open].sort((a, b) => uniformRows(here, b) - uniformRows(here, a));
    if (chosen === undefined)
      return here.map((row) => ({ setting: row.label || 'default', label: row.label, fixed: free, row, count: 1 }));
    const rest = open.filter((id) => id !== chosen);
    return branches(here, chosen).flatMap((branch) => split(branch, rest, new Set([...fixed, chosen])));
  }

  function isUniform(here: readonly PositionRow[]): boolean {
    return new Set(here.map((row) => answers.get(row))).size <= 1;
  }

  function uniformRows(here: readonly PositionRow[], id: number): number {
    return branches(here, id).reduce((sum, branch) => sum + (isUniform(branch) ? branch.length : 0), 0);
  }

  function namesOf(setting: Setting, fixed: ReadonlySet<number>, open: number): Pick<MergedRow, 'setting' | 'label'> {
    // A switch that makes no difference is shown to the label as one that rests where it stands.
    const switches = circuit.switches.map((device) =>
      fixed.has(device.id) || device.rest !== undefined ? device : { ...device, rest: setting.positions[device.id] ?? 0 },
    );
    const label = settingLabel({ ...circuit, switches }, setting);
    if (label === '') return { setting: 'in every setting', label };
    return { setting: open > 0 ? `${label}, others anywhere` : label, label };
  }
}

function branches(rows: readonly PositionRow[], id: number): PositionRow[][] {
  const groups = groupBy(rows, ({ setting }) => setting.positions[id] ?? 0);
  return [...groups].sort(([a], [b]) => a - b).map(([, group]) => group);
}
