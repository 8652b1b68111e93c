/** The position table from what the rules have solved already, or solve later with its help. */
import type { AnalysedCircuit } from '../../../circuit/model.js';
import {
  heardAt,
  isApproximate,
  outputLabel,
  outputsOf,
  settingKeys,
  settingLabel,
  type PositionRow,
  type PositionTable,
} from '../../../electrics/index.js';
import { factsOf } from '../index.js';

/** The same as `positionTable`, made of what is kept of the circuit; `response` adds peak, corner and level to each row. */
export function knownPositions(circuit: AnalysedCircuit, options: { readonly response?: boolean } = {}): PositionTable {
  const tables = circuitsOf(circuit).map((here) => rowsAt(here, options));
  let before = 0;
  const rows = tables.flatMap(({ rows: own, groups }) => {
    const first = before;
    before += groups;
    return own.map((row): PositionRow => ({ ...row, group: first + row.group }));
  });
  return { rows, leftOut: [...new Set(tables.flatMap(({ leftOut }) => leftOut))] };
}

/** The circuit once for each output. */
function circuitsOf(circuit: AnalysedCircuit): readonly AnalysedCircuit[] {
  const outputs = outputsOf(circuit);
  return outputs.length === 0 ? [circuit] : outputs.map(({ tip }) => heardAt(circuit, tip));
}

function rowsAt(circuit: AnalysedCircuit, options: { readonly response?: boolean }): PositionTable & { readonly groups: number } {
  const { signal, groups, settings, leftOut } = factsOf(circuit);
  const groupOf = new Map(groups().flatMap((group, index) => group.settings.map((setting) => [setting, index] as const)));
  const output = outputLabel(circuit);
  const rows = settings().map((setting): PositionRow => ({
    output,
    setting,
    set: settingKeys(circuit, setting),
    label: settingLabel(circuit, setting),
    group: groupOf.get(setting) ?? -1,
    sound: signal.sound(setting),
    reads: signal.reading(setting),
    approximate: isApproximate(circuit, signal.sound(setting)),
    ...(options.response === true ? { response: signal.response(setting) } : {}),
  }));
  return { rows, leftOut: leftOut(), groups: groups().length };
}

/** Solves all that the table needs, a group of settings at a time, so that a host can do something else between two. */
export function* solvePositions(
  circuit: AnalysedCircuit,
  options: { readonly response?: boolean } = {},
): Generator<undefined, void> {
  for (const here of circuitsOf(circuit)) {
    const { signal, groups } = factsOf(here);
    for (const { setting } of groups()) {
      yield* signal.soundSteps(setting);
      yield* signal.readingSteps(setting);
      if (options.response === true) yield* signal.responseSteps(setting);
      yield;
    }
  }
}
