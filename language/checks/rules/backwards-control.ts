/** A control that works the wrong way round. */
import { partById, shaftById } from '../../circuit/model.js';
import { label, placeOfPart } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { exchangeLugs } from '../edits.js';
import { defineRule } from '../rule.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly control: string };
}

export const backwardsControl = defineRule<Claim>({
  id: 'backwards-control',
  severity: 'error',
  summary: 'a pot that works the wrong way round for its turn',
  describe: ({ subjects: { control } }) => `${control} works backwards: turning it up does what turning it down should do`,
  check(facts) {
    const { circuit, joined } = facts;
    return judgedEffects(facts)
      .filter((effect) => effect.backwards)
      .map((effect) => {
        const shaft = shaftById(circuit, effect.shaft);
        const part = partById(circuit, shaft.part);
        const track = shaft.tracks.length === 1 ? circuit.elements[shaft.tracks[0]!] : undefined;
        const ends = track?.kind === 'track' && part.parent === undefined ? [track.a, track.leavesTo ?? track.b] : [];
        return {
          claim: { subjects: { control: shaft.name } },
          why: `Seen from the shaft with the lugs down, lugs 1 2 3 run from left to right; from the solder side they are mirrored. A volume takes its input on 3 and ground on 1; a tone uses 2 and 1. Mark a left-handed pot with \`{ turn left }\`. ${effect.says}`,
          range: placeOfPart(circuit, shaft.part),
          fixes:
            ends.length === 2 && ends.some((lug) => joined.isWired(lug))
              ? [
                  {
                    title: `exchange ${label(circuit, ends[0]!)} and ${label(circuit, ends[1]!)}`,
                    edits: exchangeLugs(circuit, ends[0]!, ends[1]!),
                  },
                ]
              : [],
          subjects: [part.name, shaft.name, ...ends.map((lug) => label(circuit, lug))],
        };
      });
  },
});
