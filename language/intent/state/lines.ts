/** `expect` lines from claims by setting: switches that make no difference left out, columns aligned. */
import type { Circuit, Switch } from '../../circuit/model.js';
import { settingLabel, type Setting } from '../../electrics/index.js';

export interface Stated {
  readonly setting: Setting;
  readonly claims: readonly string[];
}

/** What stands before the colon of a line and after it. */
export type Line = readonly [setting: string, claims: string];

/** One line for all settings that claim the same and differ only in switches that do not matter there. */
export function stated(circuit: Circuit, rows: readonly Stated[]): readonly Line[] {
  const switches = circuit.switches.filter(({ rest, positions }) => rest === undefined && positions.length > 1);
  const left = new Set(rows.filter(({ claims }) => claims.length > 0));
  const lines: Line[] = [];
  for (const row of rows) {
    if (!left.has(row)) continue;
    const claims = row.claims.join(', ');
    let named: readonly Switch[] = switches;
    for (const device of switches) {
      const fewer = named.filter((other) => other !== device);
      if (meant(rows, row, fewer).every((other) => other.claims.join(', ') === claims)) named = fewer;
    }
    for (const other of meant(rows, row, named)) left.delete(other);
    lines.push([labelOf(circuit, row.setting, named), claims]);
  }
  return lines;
}

/** Rows in which these switches, and all pots, stand as in this one. */
function meant(rows: readonly Stated[], { setting }: Stated, named: readonly Switch[]): readonly Stated[] {
  return rows.filter(
    (other) =>
      other.setting.rotations.join() === setting.rotations.join() &&
      named.every(({ id }) => other.setting.positions[id] === setting.positions[id]),
  );
}

/** The setting as it is written, switches that are not named left out. */
function labelOf(circuit: Circuit, setting: Setting, named: readonly Switch[]): string {
  const unnamed = -1;
  const positions = circuit.switches.map((device) =>
    device.rest !== undefined || named.includes(device) ? setting.positions[device.id]! : unnamed,
  );
  return settingLabel(circuit, { positions, rotations: setting.rotations });
}

/** `expect` lines in one layout. */
export function written(lines: readonly Line[]): readonly string[] {
  const width = Math.max(0, ...lines.map(([setting]) => setting.length));
  return lines.map(([setting, claims]) => (width === 0 ? `expect : ${claims}` : `expect ${setting.padEnd(width)} : ${claims}`));
}
