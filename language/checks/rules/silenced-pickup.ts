/** A volume that, turned down, silences other pickups as well. */
import type { ControlEffect } from '../../electrics/index.js';
import { listed, placeOfPart, whereSaid, type Facts } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { defineRule, type Told } from '../rule.js';

export const silencedPickup = defineRule({
  id: 'silenced-pickup',
  severity: 'info',
  summary: 'a volume that at 0 silences another pickup too',
  check(facts): readonly Told[] {
    const { circuit } = facts;
    const said = new Map<string, ControlEffect[]>();
    for (const effect of judgedEffects(facts)) {
      if (effect.silences.length === 0) continue;
      const where = whereSo(facts, effect);
      said.set(where, [...(said.get(where) ?? []), effect]);
    }
    // Two volumes usually silence each other, and are told together.
    return [...said].map(([where, effects]) => {
      const shafts = effects.map(({ shaft }) => circuit.shafts[shaft]!);
      const phrases = effects.map(
        (effect, index) =>
          `${shafts[index]!.name} ${index === 0 ? 'at 0 silences ' : ''}${listed(pickupsOf(effect))}${index === 0 ? ' too' : ''}`,
      );
      return {
        message: `${listed(phrases)}${where && `, ${where}`}`,
        why: 'Usual with two volumes whose wipers go to the switch. To make them independent, exchange 2 and 3 on both: each pickup on its wiper, the output on 3; the treble then falls sooner as they are turned down.',
        range: placeOfPart(circuit, shafts[0]!.part),
        related: shafts.slice(1).map((shaft) => ({ message: `and ${shaft.name}`, range: placeOfPart(circuit, shaft.part) })),
        subjects: [
          ...new Set(
            effects.flatMap((effect, index) => [
              circuit.parts[shafts[index]!.part]!.name,
              shafts[index]!.name,
              ...pickupsOf(effect),
            ]),
          ),
        ],
      };
    });
  },
});

function pickupsOf({ silences }: ControlEffect): readonly string[] {
  return [...new Set(silences.flatMap(({ pickups }) => pickups))];
}

function whereSo(facts: Facts, { silences }: ControlEffect): string {
  const stands = new Set(silences.map(({ setting }) => setting.positions.join()));
  const all = facts.settings();
  return whereSaid(
    facts.circuit,
    all,
    all.filter(({ positions }) => stands.has(positions.join())),
  );
}
