/** The setting in which a pickup is best looked at: by itself where there is one. */
import type { Circuit, PartId } from '../../circuit/model.js';
import { enumerate } from '../enumerate.js';
import type { Setting } from '../model.js';
import { describeSound } from '../sound.js';

/** Groups of equal nets looked through at most. */
const most = 256;

/** The first setting in which the pickup is heard alone, else the first in which it is heard at all. */
export function whereHeard(circuit: Circuit, part: PartId): Setting | undefined {
  const { settings, group } = enumerate(circuit);
  const seen = new Set<number>();
  let found: Setting | undefined;
  for (let i = 0; i < settings.length && seen.size < most; i++) {
    if (seen.has(group[i]!)) continue;
    seen.add(group[i]!);
    const parts = new Set(describeSound(circuit, settings[i]!).heard.map(({ coil }) => circuit.elements[coil]!.part));
    if (!parts.has(part)) continue;
    if (parts.size === 1) return settings[i];
    found ??= settings[i];
  }
  return found;
}
