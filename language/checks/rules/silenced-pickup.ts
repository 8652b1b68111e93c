/** A volume that, turned down, silences other pickups as well. */
import { listed, placeOfPart, whereSaid } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { defineRule } from '../rule.js';

export const silencedPickup = defineRule({
  id: 'silenced-pickup',
  severity: 'info',
  summary: 'a volume that at 0 silences another pickup too',
  check(facts) {
    const { circuit } = facts;
    return judgedEffects(facts)
      .filter((effect) => effect.silences.length > 0)
      .map(({ shaft: id, silences }) => {
        const shaft = circuit.shafts[id]!;
        const pickups = [...new Set(silences.flatMap((item) => item.pickups))];
        const where = whereSaid(circuit, facts.settings(), facts.settings().filter((setting) => silences.some((item) => item.setting.positions.join() === setting.positions.join())));
        return {
          message: `${shaft.name} at 0 silences ${listed(pickups)} too${where && ` ${where}`}`,
          why: 'Usual with two volumes whose wipers go to the switch. To make them independent, exchange 2 and 3 on both: each pickup on its wiper, the output on 3; the treble then falls sooner as they are turned down.',
          range: placeOfPart(circuit, shaft.part),
          subjects: [circuit.parts[shaft.part]!.name, shaft.name, ...pickups],
        };
      });
  },
});
