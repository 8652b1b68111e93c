/** The settings that an instrument has with no plug in it. */
import { partById, type Circuit } from '../../circuit/model.js';
import type { Setting } from '../model.js';
import { withPosition } from './settings.js';

/** The setting with each jack empty; a jack whose empty position has another name is tried in all of its positions. */
export function unpluggedSettings(circuit: Circuit, setting: Setting): readonly Setting[] {
  let settings: readonly Setting[] = [setting];
  for (const { part, id, positions } of circuit.switches) {
    if (partById(circuit, part).family !== 'jack') continue;
    const empty = positions.flatMap(({ key }, index) => (key === 'empty' ? [index] : []));
    const tried = empty.length > 0 ? empty : [...positions.keys()];
    settings = settings.flatMap((one) => tried.map((index) => withPosition(one, id, index)));
  }
  return settings;
}
