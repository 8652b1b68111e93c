/** What each lug of a part is for in its role, by the usual way of wiring that the part is nearest to. */
import type { AnalysedCircuit, LugId } from '../circuit/model.js';
import { lugsOfTrack, matchTracks } from './practice.js';
import type { RoleWord, Unit } from './role.js';
import type { Side } from './surroundings.js';

const words: Readonly<Record<Side, string | undefined>> = {
  input: 'input',
  output: 'output',
  signal: 'signal',
  controls: 'signal',
  capacitor: 'capacitor',
  ground: 'ground',
  bare: undefined,
};

/** Lugs that have something to do in the role; those that stay free are left out. */
export function purposesOf(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): ReadonlyMap<LugId, string> {
  const purposes = new Map<LugId, string>();
  for (const { track, pattern } of matchTracks(circuit, unit, role)) {
    const lugs = lugsOfTrack(track);
    for (const end of ['hot', 'wiper', 'cold'] as const) {
      const word = words[pattern[end]];
      if (word !== undefined) purposes.set(lugs[end], word);
    }
  }
  return purposes;
}
