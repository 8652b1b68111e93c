/** The position table from what the rules have solved already, or solve later with its help. */
import type { AnalysedCircuit } from '../../../circuit/model.js';
import { isApproximate, settingKeys, settingLabel, type PositionRow, type PositionTable } from '../../../electrics/index.js';
import { factsOf } from '../index.js';

/** The same as `positionTable`, made of what is kept of the circuit; `response` adds peak, corner and level to each row. */
export function knownPositions(circuit: AnalysedCircuit, options: { readonly response?: boolean } = {}): PositionTable {
  const { signal, groups, settings, leftOut } = factsOf(circuit);
  const groupOf = new Map(groups().flatMap((group, index) => group.settings.map((setting) => [setting, index] as const)));
  const rows = settings().map((setting): PositionRow => ({
    setting,
    set: settingKeys(circuit, setting),
    label: settingLabel(circuit, setting),
    group: groupOf.get(setting) ?? -1,
    sound: signal.sound(setting),
    reads: signal.reading(setting),
    approximate: isApproximate(circuit, signal.sound(setting)),
    ...(options.response === true ? { response: signal.response(setting) } : {}),
  }));
  return { rows, leftOut: leftOut() };
}

/** Solves all that the table needs, a group of settings at a time, so that a host can do something else between two. */
export function* solvePositions(
  circuit: AnalysedCircuit,
  options: { readonly response?: boolean } = {},
): Generator<undefined, void> {
  const { signal, groups } = factsOf(circuit);
  for (const { setting } of groups()) {
    yield* signal.soundSteps(setting);
    yield* signal.readingSteps(setting);
    if (options.response === true) yield* signal.responseSteps(setting);
    yield;
  }
}
