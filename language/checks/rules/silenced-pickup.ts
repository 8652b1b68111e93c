/** A volume that, turned down, silences other pickups as well. */
import { partById, shaftById, type Shaft } from '../../circuit/model.js';
import { withRotation, type ControlEffect, type Setting } from '../../electrics/index.js';
import { abridged, placeOfPart, settingsOf, describeSettings, leading, type Facts } from '../facts/index.js';
import { judgedEffects } from '../facts/shafts.js';
import { hearingsOf, pickupsHeardAt, type Hearing } from '../facts/signal/hearings.js';
import { defineRule, type Report } from '../rule.js';
import { groupBy } from '../../collections.js';
import type { Statement } from '../../source.js';

interface Claim extends Statement {
  readonly subjects: { readonly volumes: readonly { readonly volume: string; readonly silences: readonly string[] }[] };
}

export const silencedPickup = defineRule<Claim>({
  id: 'silenced-pickup',
  severity: 'info',
  summary: 'a volume that at 0 also silences another pickup',
  describe({ subjects: { volumes }, ...claim }) {
    const phrases = volumes.map(({ volume, silences }) => `turning ${volume} to 0 also silences ${abridged(silences)}`);
    return leading(describeSettings(claim), abridged(phrases));
  },
  check(facts): readonly Report<Claim>[] {
    const hearings = hearingsOf(facts);
    // The same claim is reported once, however many outputs it holds for.
    const reports = hearings.flatMap((hearing) =>
      silencedAt(
        hearing.facts,
        hearings.filter((other) => other !== hearing),
      ),
    );
    return [...new Map(reports.map((report) => [JSON.stringify(report.claim.subjects), report])).values()];
  },
});

/** What volumes silence at one output. */
function silencedAt(facts: Facts, others: readonly Hearing[]): readonly Report<Claim>[] {
  const { circuit } = facts;
  const placesOf = createPlaces(facts);
  const alike = new Map<Places, Volume[]>();
  const silencesOf = createSilences(others);
  for (const effect of judgedEffects(facts)) {
    const { shaft, backwards } = effect;
    // At 0 a volume that works backwards is full up, and it is reported as such.
    if (backwards) continue;
    // It may take one pickup along here and another there.
    for (const [pickups, some] of groupBy(silencesOf(effect), (one) => one.pickups.join())) {
      const places = placesOf(some);
      const volumes = alike.get(places) ?? [];
      volumes.push({ shaft: shaftById(circuit, shaft), pickups: pickups.split(',') });
      alike.set(places, volumes);
    }
  }
  // Two volumes usually silence each other, and are reported together.
  return [...alike].flatMap(([places, volumes]) => {
    const [first, ...others] = volumes;
    if (first === undefined) return [];
    const subjects = new Set<string>();
    for (const { shaft, pickups } of volumes)
      for (const name of [partById(circuit, shaft.part).name, shaft.name, ...pickups]) subjects.add(name);
    return [
      {
        claim: {
          subjects: { volumes: volumes.map(({ shaft, pickups }) => ({ volume: shaft.name, silences: pickups })) },
          ...places,
        },
        why: 'This is usual with two volumes whose wipers go to the switch. To make them independent, exchange 2 and 3 on both: each pickup on its wiper, the output on 3. The treble then falls sooner as they are turned down.',
        range: placeOfPart(circuit, first.shaft.part),
        related: others.map(({ shaft }) => ({ message: `and ${shaft.name}`, range: placeOfPart(circuit, shaft.part) })),
        subjects: [...subjects],
      },
    ];
  });
}

interface Volume {
  readonly shaft: Shaft;
  readonly pickups: readonly string[];
}

type Silences = ControlEffect['silences'];

/** What a volume silences: a pickup that goes on at another jack is not silenced. */
function createSilences(others: readonly Hearing[]): (effect: ControlEffect) => Silences {
  return ({ shaft, silences }) => {
    if (others.length === 0) return silences;
    return silences.flatMap(({ setting, pickups }) => {
      const heard = others.map((hearing) => pickupsHeardAt(hearing, withRotation(setting, shaft, 0)));
      const silent = pickups.filter((name) => !heard.some((names) => names.has(name)));
      return silent.length === 0 ? [] : [{ setting, pickups: silent }];
    });
  };
}

type Places = ReturnType<typeof settingsOf>;

/** Where volumes silence other pickups. Many do so in the same positions, which are worked out once and are then the same object. */
function createPlaces(facts: Facts): (silences: Silences) => Places {
  const all = facts.settings();
  const keys = new Map<Setting, string>();
  const keyOf = (setting: Setting): string => {
    const key = keys.get(setting) ?? setting.positions.join();
    keys.set(setting, key);
    return key;
  };
  const known = new Map<string, Places>();
  const byContent = new Map<string, Places>();
  return (silences) => {
    const silent = new Set(silences.map(({ setting }) => keyOf(setting)));
    const key = [...silent].join(';');
    const before = known.get(key);
    if (before !== undefined) return before;
    const made = settingsOf(
      facts.circuit,
      all,
      all.filter((setting) => silent.has(keyOf(setting))),
    );
    const content = JSON.stringify(made);
    const places = byContent.get(content) ?? made;
    byContent.set(content, places);
    known.set(key, places);
    return places;
  };
}
