/** A control that does nothing in any position. */
import { elementById, lugById, partById, shaftById, type LugId, type Shaft } from '../../circuit/model.js';
import { lugLabel, abridged, placeOfPart, type Facts } from '../facts/index.js';
import { lazy } from '../../lazy.js';
import { idleEffects, trackLugs } from '../facts/shafts.js';
import { everywhere, triedIn } from '../facts/tried.js';
import { defineRule } from '../rule.js';
import { looseLeads } from '../facts/wiring/leads.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly control: string; readonly free?: readonly string[] };
}

export const idleControl = defineRule<Claim>({
  id: 'idle-control',
  severity: 'error',
  summary: 'a wired pot that changes nothing in any position',
  describe: ({ subjects: { control, free = [] }, ...claim }) =>
    `${control} does nothing ${everywhere('any', claim)}${free.length > 0 ? `: nothing is soldered to ${abridged(free, 'or')}` : ''}`,
  check(facts) {
    const { circuit, signal } = facts;
    // What a pickup that is never heard would have passed cannot be judged, nor what a control does in an instrument silent as it rests.
    if (signal.neverHeard().size > 0 || facts.groups().every(({ setting }) => signal.sound(setting).silent)) return [];
    const isExplained = explainedIn(facts);
    return (
      idleEffects(facts)
        .filter(({ shaft }) => !isExplained(shaftById(circuit, shaft)))
        // Where it was not turned in every position, only a pot that its own lugs leave idle is reported.
        .filter(({ shaft, isWhole }) => isWhole || missedLugs(facts, shaftById(circuit, shaft)).length > 0)
        .map(({ shaft: id }) => {
          const shaft = shaftById(circuit, id);
          const free = missedLugs(facts, shaft).map((lug) => lugLabel(circuit, lug));
          return {
            claim: { subjects: { control: shaft.name, ...(free.length > 0 ? { free } : {}) }, ...triedIn(facts) },
            why: 'A volume needs its input on 3, its output on 2 and ground on 1; a tone needs the signal on 2 and a capacitor from 1 to ground.',
            range: placeOfPart(circuit, shaft.part),
            subjects: [partById(circuit, shaft.part).name, shaft.name],
          };
        })
    );
  },
});

/** A part behind the pot with a loose lead, or a wire of the pot's that comes back to its own lug, is reported already. */
function explainedIn(facts: Facts): (shaft: Shaft) => boolean {
  const { circuit, joined } = facts;
  const loose = lazy(() => {
    const parts = circuit.parts.filter((part) => looseLeads(facts, part).length > 0);
    return new Set(parts.flatMap(({ lugs }) => lugs.map((lug) => joined.classOf(lug))));
  });
  const toItself = lazy(
    () => new Set(circuit.joints.filter(({ a, b }) => a === b).map((joint) => lugById(circuit, joint.a).part)),
  );
  return (shaft) => trackLugs(circuit, shaft).some((lug) => loose().has(joined.classOf(lug))) || toItself().has(shaft.part);
}

/** The wiper, or both ends: a pot does without one end of its track. */
function missedLugs({ circuit, joined }: Facts, shaft: Shaft): readonly LugId[] {
  return shaft.tracks.flatMap((id) => {
    const track = elementById(circuit, id);
    if (track.kind !== 'track') return [];
    const ends = [track.a, track.leavesTo ?? track.b].filter((lug) => !joined.isWired(lug));
    return [...(joined.isWired(track.wiper) ? [] : [track.wiper]), ...(ends.length === 2 ? ends : [])];
  });
}
