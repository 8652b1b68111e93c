/** The position table: a row for each setting, equal nets solved once. */
import type { AnalysedCircuit } from '../../circuit/model.js';
import { enumerate } from './enumerate.js';
import { readJack } from '../meter.js';
import type { PositionRow, PositionTable } from '../model.js';
import { nets } from '../network/nets.js';
import { createNetwork } from '../network/network.js';
import { summaryOf } from '../response.js';
import { settingKeys, settingLabel } from './settings.js';
import { solveNetwork } from '../solver/solver.js';
import { isApproximate } from '../sound/approximate.js';
import { soundOf } from '../sound/sound.js';

/**
 * A row for each enumerated setting, pots at rest: what sounds, hum, reading at the jack. `response` adds peak, corner and level to each
 * row. Settings of the same group share their results, so the cost goes with the number of different nets.
 */
export function positionTable(
  circuit: AnalysedCircuit,
  options: { readonly response?: boolean; readonly limit?: number } = {},
): PositionTable {
  const { settings, group, groups, leftOut } = enumerate(circuit, options.limit === undefined ? {} : { limit: options.limit });
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
    return { setting, set: settingKeys(circuit, setting), label: settingLabel(circuit, setting), group: number, ...result };
  });
  return { rows, leftOut };
}
