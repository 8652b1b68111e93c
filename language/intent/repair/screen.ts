/** What a repaired circuit must do, asked as cheaply as it can be: claims and plausibility by nets that are kept once they are solved. */
import type { Circuit, Claim, LugId } from '../../circuit/model.js';
import { describeSound, readAtJack, responseSummary, settingsMatching, type Setting, type Sound } from '../../electrics/index.js';
import { factsOf, type Facts } from '../../checks/index.js';
import { judge } from '../judge.js';
import type { Folding } from './folding.js';

/** How far a circuit is from doing what it should: nothing is wanting where all are 0. */
export interface Wanting {
  /** Claims that fail, counted setting by setting. */
  readonly claims: number;
  /** Pickups never heard, settings silent that nobody asked to be, leads on nothing, metal not on ground. */
  readonly silence: number;
  readonly loose: number;
}

export interface Screen {
  /** `made` makes the circuit, where it has to be solved; counts no further than `most` claims. */
  ask(classes: Int32Array, made: () => Circuit, most: number): Wanting;
  /** Equal where no element, in any setting that is asked, and no metal can tell two circuits apart. */
  keys(classes: Int32Array, folding: Folding): string;
}

interface Asked {
  readonly setting: Setting;
  readonly claims: readonly Claim[];
  /** True for a setting of the switches with the pots at rest, in which something should be heard unless silence is asked for. */
  readonly isResting: boolean;
  readonly mayBeSilent: boolean;
}

interface Answer {
  readonly failed: number;
  readonly sound: Sound;
}

/** Settings asked, at most: of more, some of each position. */
const mostSettings = 64;

/** For a circuit and whatever comes of it by changed joints; `folding` is that of any of them. */
export function createScreen(circuit: Circuit, folding: Folding): Screen {
  const facts = factsOf(circuit);
  const asked = askedOf(circuit, facts);
  const kept = asked.map(() => new Map<number, Answer>());
  const leads = neededLeads(circuit);
  const metal = circuit.lugs.flatMap((lug) => (lug.metal ? [lug.id] : []));
  const order = asked.map((_, index) => index);

  const answer = (index: number, classes: Int32Array, made: () => Circuit): Answer => {
    const { setting, claims } = asked[index]!;
    const key = folding.netKey(classes, setting);
    const known = kept[index]!.get(key);
    if (known !== undefined) return known;
    const solved = answerOf(made(), setting, claims);
    kept[index]!.set(key, solved);
    return solved;
  };

  return {
    keys: (classes, { netKey }) =>
      [looseCount(circuit, classes, leads, metal), ...asked.map(({ setting }) => netKey(classes, setting))].join(),
    ask(classes, made, most) {
      let [claims, silent] = [0, 0];
      const heard = new Set<number>();
      for (let at = 0; at < order.length; at++) {
        const index = order[at]!;
        const { failed, sound } = answer(index, classes, made);
        claims += failed;
        if (claims > most) {
          // What failed once is asked first the next time: most changes leave the same position wrong.
          if (at > 0) order.splice(0, 0, ...order.splice(at, 1));
          return { claims, silence: Infinity, loose: Infinity };
        }
        for (const { coil } of sound.heard) heard.add(circuit.elements[coil]!.part);
        if (asked[index]!.isResting && !asked[index]!.mayBeSilent && sound.silent) silent++;
      }
      const dead = facts.hearing.pickups.filter(({ id }) => !heard.has(id)).length;
      return { claims, silence: dead + silent, loose: looseCount(circuit, classes, leads, metal) };
    },
  };
}

/** Claims by setting, and every different setting of the switches besides. */
function askedOf(circuit: Circuit, facts: Facts): readonly Asked[] {
  const asked = new Map<string, { setting: Setting; claims: Claim[]; isResting: boolean }>();
  const at = (setting: Setting): { claims: Claim[]; isResting: boolean } => {
    const key = `${setting.positions.join()}|${setting.rotations.join()}`;
    const known = asked.get(key) ?? { setting, claims: [], isResting: false };
    asked.set(key, known);
    return known;
  };
  for (const line of circuit.expectations) {
    for (const setting of settingsMatching(circuit, line.settings)) at(setting).claims.push(...line.claims);
  }
  for (const setting of facts.settings()) at(setting).isResting = true;
  return spread([...asked.values()]).map((one) => ({ ...one, mayBeSilent: facts.intended.asksSilence(one.setting) }));
}

/** All of a few; of many those that claim something and some of the others, evenly spread. */
function spread<T extends { readonly claims: readonly Claim[] }>(asked: readonly T[]): readonly T[] {
  if (asked.length <= mostSettings) return asked;
  const claiming = asked.filter(({ claims }) => claims.length > 0);
  const others = asked.filter(({ claims }) => claims.length === 0);
  return [...evenly(claiming, (3 * mostSettings) / 4), ...evenly(others, mostSettings / 4)];
}

function evenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)]!);
}

/** What is heard decides first; meter and peak are asked only where that is as it should be. */
function answerOf(circuit: Circuit, setting: Setting, claims: readonly Claim[]): Answer {
  const sound = describeSound(circuit, setting);
  const sources = {
    sound: () => sound,
    reading: () => readAtJack(circuit, setting),
    response: () => responseSummary(circuit, setting),
  };
  const first = claims.filter(({ kind }) => kind === 'sounds' || kind === 'silent' || kind === 'hum' || kind === 'hums');
  const fails = (claim: Claim): boolean => judge(circuit, claim, setting, undefined, sources).verdict === 'failed';
  const failed = first.filter(fails).length;
  if (failed > 0) return { failed: failed + claims.length - first.length, sound };
  return { failed: claims.filter((claim) => !first.includes(claim)).filter(fails).length, sound };
}

/** Lugs at which a current has to go on: where one element alone ends, and it is a pickup's or a two-lead part's. */
function neededLeads(circuit: Circuit): readonly LugId[] {
  return circuit.parts.flatMap((part) => {
    if (part.family !== 'pickup' && part.family !== 'passive') return [];
    const ends = part.elements.flatMap((id) => [circuit.elements[id]!.a, circuit.elements[id]!.b]);
    return part.lugs.filter((lug) => ends.filter((end) => end === lug).length === 1);
  });
}

function looseCount(circuit: Circuit, classes: Int32Array, leads: readonly LugId[], metal: readonly LugId[]): number {
  const sizes = new Map<number, number>();
  for (const root of classes) sizes.set(root, (sizes.get(root) ?? 0) + 1);
  const ground = circuit.output === undefined ? -1 : classes[circuit.output.sleeve]!;
  let count = 0;
  for (const lug of leads) if (sizes.get(classes[lug]!) === 1) count++;
  for (const lug of metal) if (classes[lug] !== ground) count++;
  return count;
}
