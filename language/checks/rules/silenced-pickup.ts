/** A volume that, turned down, silences other pickups as well. */
import { partById, shaftById, type Shaft } from '../../circuit/model.js';
import type { ControlEffect, Setting } from '../../electrics/index.js';
import { listed, placeOfPart, whereSaid, type Facts } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { defineRule, type Report } from '../rule.js';

export const silencedPickup = defineRule({
  id: 'silenced-pickup',
  severity: 'info',
  summary: 'a volume that at 0 silences another pickup too',
  check(facts): readonly Report[] {
    const { circuit } = facts;
    const whereSo = createWhere(facts);
    const said = new Map<string, Volume[]>();
    for (const { shaft, silences } of judgedEffects(facts)) {
      if (silences.length === 0) continue;
      const where = whereSo(silences);
      const alike = said.get(where) ?? [];
      alike.push({ shaft: shaftById(circuit, shaft), pickups: pickupsOf(silences) });
      said.set(where, alike);
    }
    // Two volumes usually silence each other, and are told together.
    return [...said].map(([where, volumes]) => {
      const phrases = volumes.map(
        ({ shaft, pickups }, index) =>
          `${shaft.name} ${index === 0 ? 'at 0 silences ' : ''}${listed(pickups)}${index === 0 ? ' too' : ''}`,
      );
      const subjects = new Set<string>();
      for (const { shaft, pickups } of volumes)
        for (const name of [partById(circuit, shaft.part).name, shaft.name, ...pickups]) subjects.add(name);
      return {
        message: `${listed(phrases)}${where && `, ${where}`}`,
        why: 'Usual with two volumes whose wipers go to the switch. To make them independent, exchange 2 and 3 on both: each pickup on its wiper, the output on 3; the treble then falls sooner as they are turned down.',
        range: placeOfPart(circuit, volumes[0]!.shaft.part),
        related: volumes.slice(1).map(({ shaft }) => ({ message: `and ${shaft.name}`, range: placeOfPart(circuit, shaft.part) })),
        subjects: [...subjects],
      };
    });
  },
});

interface Volume {
  readonly shaft: Shaft;
  readonly pickups: readonly string[];
}

type Silences = ControlEffect['silences'];

/** Settings that fold the same nets share one list of pickups, which is gone through once. */
function pickupsOf(silences: Silences): readonly string[] {
  const lists = new Set(silences.map(({ pickups }) => pickups));
  return [...new Set([...lists].flat())];
}

/** Says where volumes silence other pickups. Many do so in the same positions, which are worked out once. */
function createWhere(facts: Facts): (silences: Silences) => string {
  const all = facts.settings();
  const keys = new Map<Setting, string>();
  const keyOf = (setting: Setting): string => {
    const key = keys.get(setting) ?? setting.positions.join();
    keys.set(setting, key);
    return key;
  };
  const known = new Map<string, string>();
  return (silences) => {
    const stands = new Set(silences.map(({ setting }) => keyOf(setting)));
    const key = [...stands].join(';');
    const where =
      known.get(key) ??
      whereSaid(
        facts.circuit,
        all,
        all.filter((setting) => stands.has(keyOf(setting))),
      );
    known.set(key, where);
    return where;
  };
}
