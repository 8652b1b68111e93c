/** A control that does nothing in any position. */
import { controlEffects } from '../../electrics/index.js';
import { label, listed, placeOfPart } from '../facts/index.js';
import { judgedEffects, trackLugs } from '../facts/shafts.js';
import { defineRule } from '../rule.js';

export const idleControl = defineRule({
  id: 'idle-control',
  severity: 'error',
  summary: 'a wired pot that changes nothing in any position',
  check(facts) {
    const { circuit, hearing, joined } = facts;
    // What a pickup that is never heard would have passed cannot be judged.
    if (hearing.dead().size > 0) return [];
    const idle = judgedEffects(facts).filter((effect) => effect.role === 'nothing');
    if (idle.length === 0) return [];
    const elsewhere = hearing.views().slice(1).map((view) => controlEffects(view.circuit));
    return idle
      .filter(({ shaft }) => elsewhere.every((effects) => effects.every((other) => other.shaft !== shaft || other.role === 'nothing' || other.role === 'unwired')))
      .map(({ shaft: id }) => {
        const shaft = circuit.shafts[id]!;
        const lugs = trackLugs(circuit, shaft);
        const free = lugs.filter((lug) => !joined.isWired(lug)).map((lug) => label(circuit, lug));
        return {
          message: `${shaft.name} does nothing in any position${free.length > 0 ? `: ${listed(free)} ${free.length > 1 ? 'are' : 'is'} soldered to nothing` : ''}`,
          why: 'A volume needs its input on 3, its output on 2 and ground on 1; a tone needs the signal on 2 and, behind 1, a capacitor to ground.',
          range: placeOfPart(circuit, shaft.part),
          subjects: [circuit.parts[shaft.part]!.name, shaft.name],
        };
      });
  },
});
