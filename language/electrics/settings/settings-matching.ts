/** Which settings an expectation or a reading speaks of. */
import type { AnalysedCircuit, ControlSetting } from '../../circuit/model.js';
import { settledPositions } from './driven.js';
import { enumerate } from './enumerate.js';
import type { Setting } from '../model.js';
import { restingSetting, withSettings } from './settings.js';

/**
 * Every enumerated setting in which the named switches stand as said, with the named shafts turned: what an expectation speaks of.
 * A switch that rests, or one that was left out of the enumeration, is put where it is said to stand.
 */
export function settingsMatching(circuit: AnalysedCircuit, controls: readonly ControlSetting[]): readonly Setting[] {
  const rotations = controls.some((control) => control.kind === 'shaft')
    ? withSettings(circuit, controls).rotations
    : restingSetting(circuit).rotations;
  const named: number[] = [];
  const switches = controls.flatMap((control) => (control.kind === 'switch' ? [control.switch] : []));
  for (const control of controls) if (control.kind === 'switch') named[control.switch] = control.position;
  const seen = new Set<string>();
  const settings: Setting[] = [];
  for (const { positions } of enumerate(circuit).settings) {
    const moved =
      named.length === 0
        ? positions
        : settledPositions(
            circuit,
            positions.map((at, index) => named[index] ?? at),
            switches,
          );
    const key = moved.join();
    if (seen.has(key)) continue;
    seen.add(key);
    settings.push({ positions: moved, rotations });
  }
  return settings;
}
