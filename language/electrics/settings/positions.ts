/** The position table: a row for each setting, equal nets solved once. */
import type { AnalysedCircuit, Output } from '../../circuit/model.js';
import { enumerate } from './enumerate.js';
import { heardAt, outputLabel, outputsOf } from './outputs.js';
import { readJack } from '../meter.js';
import type { Enumeration, PositionRow, PositionTable, Setting } from '../model.js';
import { nets } from '../network/nets.js';
import { createNetwork } from '../network/network.js';
import { summaryOf } from '../response.js';
import { settingKeys, settingLabel } from './settings.js';
import { solveNetwork } from '../solver/solver.js';
import { isApproximate } from '../sound/approximate.js';
import { soundOf } from '../sound/sound.js';

export interface TableOptions {
  readonly response?: boolean;
  readonly limit?: number;
  /** The only setting that the table has; all that the switches make where none is given. */
  readonly setting?: Setting;
  /** The outputs that the table is of; all where none is given. */
  readonly outputs?: readonly Output[];
}

/**
 * A row for each enumerated setting at each output, pots at rest, or for one setting: what sounds, hum, reading at the jack. `response` adds peak, corner and level to each
 * row. Settings of the same group share their results, so the cost goes with the number of different nets.
 */
export function positionTable(circuit: AnalysedCircuit, options: TableOptions = {}): PositionTable {
  const outputs = options.outputs ?? outputsOf(circuit);
  const tables = outputs.length === 0 ? [tableAt(circuit, options, 0)] : [];
  for (const { tip } of outputs) {
    const before = tables.reduce((sum, { groups }) => sum + groups, 0);
    tables.push(tableAt(heardAt(circuit, tip), options, before));
  }
  return { rows: tables.flatMap(({ rows }) => rows), leftOut: [...new Set(tables.flatMap(({ leftOut }) => leftOut))] };
}

function tableAt(circuit: AnalysedCircuit, options: TableOptions, before: number): PositionTable & { readonly groups: number } {
  const { settings, group, groups, leftOut } = settingsOf(circuit, options);
  const output = outputLabel(circuit);
  const results = new Array<Pick<PositionRow, 'sound' | 'reads' | 'approximate' | 'response'> | undefined>(groups);
  const rows = settings.map((setting, i) => {
    const number = group[i] ?? -1;
    let result = results[number];
    if (result === undefined) {
      const folded = nets(circuit, setting.positions);
      const network = createNetwork(circuit, folded, setting);
      const sound = soundOf(network);
      const common = { sound, reads: readJack(circuit, folded, setting), approximate: isApproximate(circuit, sound) };
      result = options.response === true ? { ...common, response: summaryOf(solveNetwork(network)) } : common;
      results[number] = result;
    }
    const [set, label] = [settingKeys(circuit, setting), settingLabel(circuit, setting)];
    return { output, setting, set, label, group: before + number, ...result };
  });
  return { rows, leftOut, groups };
}

function settingsOf(circuit: AnalysedCircuit, { setting, limit }: TableOptions): Enumeration {
  if (setting !== undefined) return { settings: [setting], group: Int32Array.of(0), groups: 1, leftOut: [] };
  return enumerate(circuit, limit === undefined ? {} : { limit });
}
