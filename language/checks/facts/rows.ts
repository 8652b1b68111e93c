/** Settings put in rows, one for each switch. */
import type { Switch } from '../../circuit/model.js';
import { append } from '../../collections.js';
import type { Setting } from '../../electrics/index.js';
import type { Facts } from './facts.js';

/** The settings by position, once for each way in which the other switches can stand. */
export function rowsOf({ settings }: Facts, device: Switch): readonly (readonly Setting[])[] {
  const rows = new Map<string, Setting[]>();
  for (const setting of settings()) {
    const others = setting.positions.filter((_, id) => id !== device.id).join();
    append(rows, others, setting);
  }
  return [...rows.values()].filter((row) => row.length === device.positions.length);
}
