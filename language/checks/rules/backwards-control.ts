/** A control that works the wrong way round. */
import { elementById, partById, shaftById, type Circuit, type LugId, type Shaft, type ShaftId } from '../../circuit/model.js';
import { effectAnywhere } from '../../electrics/index.js';
import { lugLabels, abridged, placeOfPart, type Facts } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { hearingsOf } from '../facts/signal/hearings.js';
import { exchangeLugs, fixWith } from '../edits.js';
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
      .map(({ shaft }) => effectAnywhere(circuit, shaft))
      .filter((effect) => effect.backwards && !isPan(facts, effect.shaft))
      .map((effect) => {
        const shaft = shaftById(circuit, effect.shaft);
        const part = partById(circuit, shaft.part);
        const ends = trackEnds(circuit, shaft);
        return {
          claim: { subjects: { control: shaft.name } },
          why: `Seen from the shaft with the lugs down, lugs 1 2 3 run from left to right; from the solder side they are mirrored. A volume takes its input on 3 and ground on 1; a tone uses 2 and 1. Mark a left-handed pot with \`{ turn left }\`. ${effect.says}`,
          range: placeOfPart(circuit, shaft.part),
          fixes:
            ends?.some((lug) => joined.isWired(lug)) === true
              ? fixWith(`exchange ${abridged(lugLabels(circuit, ends))}`, exchangeLugs(circuit, ...ends))
              : [],
          subjects: [part.name, shaft.name, ...lugLabels(circuit, ends ?? [])],
        };
      });
  },
});

/** True where it works the right way round at another output: it sends the signal to one jack or the other. */
function isPan(facts: Facts, shaft: ShaftId): boolean {
  return hearingsOf(facts).some(({ facts: heard }) => {
    const { role, backwards } = heard.effect(shaft);
    return !backwards && (role === 'volume' || role === 'tone');
  });
}

/** The two ends of a pot's only track. */
function trackEnds(circuit: Circuit, { tracks }: Shaft): readonly [LugId, LugId] | undefined {
  const [first, ...others] = tracks.map((id) => elementById(circuit, id));
  return first?.kind === 'track' && others.length === 0 ? [first.a, first.leavesTo ?? first.b] : undefined;
}
