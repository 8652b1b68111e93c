/** The setting in which a pickup is best looked at: by itself where there is one. */
import { elementById, type AnalysedCircuit, type PartId } from '../../circuit/model.js';
import { enumerate } from '../settings/enumerate.js';
import type { Setting, Sound } from '../model.js';
import { finished, type Steps } from '../../steps.js';
import { describeSound } from '../sound/sound.js';

/** Groups of equal nets looked through at most. */
const most = 256;

/** The first setting in which the pickup is heard alone, else the first in which it is heard at all. */
export function whereHeard(circuit: AnalysedCircuit, part: PartId): Setting | undefined {
  return finished(whereHeardSteps(circuit, part, describeSound));
}

/** What is heard in a setting; a caller that has solved it before gives what it knows. */
export type SoundIn = (circuit: AnalysedCircuit, setting: Setting) => Sound;

/** The same in steps of one solved setting each. */
export function* whereHeardSteps(circuit: AnalysedCircuit, part: PartId, soundIn: SoundIn): Steps<Setting | undefined> {
  const { settings, group } = enumerate(circuit);
  const seen = new Set<number>();
  let found: Setting | undefined;
  for (const [i, setting] of settings.entries()) {
    const number = group[i] ?? -1;
    if (seen.has(number)) continue;
    if (seen.size >= most) break;
    seen.add(number);
    yield;
    const parts = new Set(soundIn(circuit, setting).heard.map(({ coil }) => elementById(circuit, coil).part));
    if (!parts.has(part)) continue;
    if (parts.size === 1) return setting;
    found ??= setting;
  }
  return found;
}
