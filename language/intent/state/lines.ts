/** `expect` lines from claims by setting: switches that make no difference left out, columns aligned. */
import type { Circuit, Switch } from '../../circuit/model.js';
import { settingLabel, type Setting } from '../../electrics/index.js';
import type { Steps } from '../../steps.js';

export interface Stated {
  readonly setting: Setting;
  readonly claims: readonly string[];
}

/** What stands before the colon of a line and after it, and the settings that it speaks of. */
export type Line = readonly [setting: string, claims: string, settings: readonly Setting[]];

/** A row with what is compared of it. */
interface Row {
  readonly setting: Setting;
  readonly claims: string;
  readonly rotations: string;
}

/** One line for all settings that claim the same and differ only in switches that do not matter there; it stops once there are more than `most`. */
export function* stated(circuit: Circuit, given: readonly Stated[], most = Infinity): Steps<readonly Line[]> {
  const switches = circuit.switches.filter(({ rest, positions }) => rest === undefined && positions.length > 1);
  const rows: Row[] = [];
  for (const { setting, claims } of given) {
    rows.push({ setting, claims: claims.join(', '), rotations: setting.rotations.join() });
    if (rows.length % 64 === 0) yield;
  }
  const left = new Set(rows.filter(({ claims }) => claims !== ''));
  const lines: Line[] = [];
  for (const row of rows) {
    if (!left.has(row)) continue;
    let named: readonly Switch[] = switches;
    for (const device of switches) {
      const fewer = named.filter((other) => other !== device);
      if (meant(rows, row, fewer).every((other) => other.claims === row.claims)) named = fewer;
      yield;
    }
    const covered = meant(rows, row, named);
    for (const other of covered) left.delete(other);
    lines.push([labelOf(circuit, row.setting, named), row.claims, covered.map(({ setting }) => setting)]);
    if (lines.length > most) break;
  }
  return lines;
}

/** Rows in which these switches, and all pots, stand as in this one. */
function meant(rows: readonly Row[], { setting, rotations }: Row, named: readonly Switch[]): readonly Row[] {
  return rows.filter(
    (other) => other.rotations === rotations && named.every(({ id }) => other.setting.positions[id] === setting.positions[id]),
  );
}

/** The setting as it is written, switches that are not named left out. */
function labelOf(circuit: Circuit, setting: Setting, named: readonly Switch[]): string {
  const unnamed = -1;
  const positions = circuit.switches.map((device) =>
    device.rest !== undefined || named.includes(device) ? (setting.positions[device.id] ?? unnamed) : unnamed,
  );
  return settingLabel(circuit, { positions, rotations: setting.rotations });
}

/** Lines of what is heard at another contact of a jack than the usual one. */
export function heardOnlyAt(contact: string, lines: readonly string[]): readonly string[] {
  return lines.map((line) =>
    line.replace(/^expect (:?)/, (_, sign: string) => (sign === ':' ? `expect at ${contact} :` : `expect at ${contact}, `)),
  );
}

/** `expect` lines in one layout. */
export function written(lines: readonly Line[]): readonly string[] {
  const width = Math.max(0, ...lines.map(([setting]) => setting.length));
  return lines.map(([setting, claims]) => (width === 0 ? `expect : ${claims}` : `expect ${setting.padEnd(width)} : ${claims}`));
}
