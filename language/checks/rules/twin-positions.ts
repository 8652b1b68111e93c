/** Two positions of a switch that sound exactly alike. */
import { partById, type Switch } from '../../circuit/model.js';
import { withSwitchMoved, type Setting } from '../../electrics/index.js';
import { type Facts, controlAt, abridged, placeOfPart } from '../facts/index.js';
import { lazy } from '../../lazy.js';
import { createComparison } from '../facts/signal/comparison.js';
import { defineRule, reportsOf, type Rule } from '../rule.js';
import { bridgedThrows } from './bridged-throws.js';
import { bypassedThrow } from './bypassed-throw.js';
import { idleWire } from './idle-wire.js';
import { leadOnCommon } from './lead-on-common.js';
import type { SettingsClaim } from '../../claim.js';
import { positionText } from '../facts/words.js';
import type { Statement } from '../../source.js';

/** Of more settings than this the positions are not compared. */
const most = 64;

interface Claim extends Statement {
  readonly subjects: { readonly switch: string };
  readonly settings: SettingsClaim;
}

export const twinPositions = defineRule<Claim>({
  id: 'twin-positions',
  severity: 'warning',
  summary: 'two positions of a switch that sound exactly alike, and no expectation asks for it',
  describe({ subjects, settings }) {
    const pairs = settings.map((pair) => abridged(pair.flatMap(({ at }) => at.map(positionText))));
    return `Positions ${pairs.join(', ')} of ${subjects.switch} sound exactly alike`;
  },
  check(facts) {
    const { circuit, signal, unread } = facts;
    if (facts.outputFault() !== undefined || facts.isBroken() || unread.any || facts.settings().length > most) return [];
    if (signal.pickups.length === 0 || signal.neverHeard().size > 0) return [];
    const isSame = lazy(() => createComparison(facts));
    return circuit.switches.flatMap((device) => {
      if (!mayDiffer(facts, device)) return [];
      // What is alike at rest may differ with a pot turned, or at another output.
      const isSameAt = (one: number, other: number): boolean =>
        facts
          .settings()
          .filter(({ positions }) => positions[device.id] === one)
          .every((setting) => isSame()(setting, withSwitchMoved(circuit, setting, device.id, other)));
      const plain = device.positions.map((_, at) => keyOf(facts, device, at, soundIn));
      // The response is dear, and asked only where everything else is alike.
      const keys = plain.map((key, at) =>
        key !== '' && isRepeated(plain, key) ? keyOf(facts, device, at, heardIn) : `${key} ${at}`,
      );
      const twins = keys.flatMap((key, at) => {
        const before = keys.findIndex((other, i) => i < at && other === key && isSameAt(i, at));
        return before >= 0 && plain[at] !== '' ? [[before, at] as const] : [];
      });
      // A switch of which all positions sound alike is idle, and reported as such.
      const isIdle = twins.length === keys.length - 1 && twins.every(([before]) => before === 0);
      if (twins.length === 0 || isIdle || isExplained(facts, device)) return [];
      return [
        {
          claim: { subjects: { switch: device.name }, settings: twins.map((pair) => [controlAt(device, pair)]) },
          why: 'Usually a jumper was forgotten, or a lead is one throw too far. If it is intended, say so with an `expect` line for each of the two.',
          range: placeOfPart(circuit, device.part),
          subjects: [device.name],
        },
      ];
    });
  },
});

/** Enough pickups for a sound of its own in each position (each, two together, two in series), and no position that is off. */
function mayDiffer({ circuit, signal }: Facts, { rest, positions, part }: Switch): boolean {
  if (rest !== undefined || positions.length < 3 || positions.length > 2 * signal.pickups.length) return false;
  return partById(circuit, part).family === 'switch' && positions.every(({ joins }) => joins.length > 0);
}

/** Throws that are bridged, bypassed or idle, and a pickup on a common, are reported by their own rules, and what the positions sound like follows from it. */
export function isExplained(facts: Facts, device: Switch): boolean {
  return [bridgedThrows, bypassedThrow, idleWire, leadOnCommon].some((rule: Rule) =>
    reportsOf(facts, rule).some(({ subjects }) => subjects.some((subject) => subject.startsWith(`${device.name}.`))),
  );
}

/** What is heard and read in all settings with that position; empty where it is silent somewhere or an expectation speaks of all of them. */
function keyOf(facts: Facts, device: Switch, at: number, describe: (facts: Facts, setting: Setting) => string): string {
  const settings = facts.settings().filter(({ positions }) => positions[device.id] === at);
  if (settings.some((setting) => facts.signal.sound(setting).silent)) return '';
  if (settings.every((setting) => facts.intended.asksSound(setting))) return '';
  return settings.map((setting) => describe(facts, setting)).join('|');
}

function isRepeated(keys: readonly string[], key: string): boolean {
  return keys.indexOf(key) !== keys.lastIndexOf(key);
}

function soundIn({ signal }: Facts, setting: Setting): string {
  return `${signal.sound(setting).text} ${rounded(signal.reading(setting).ohm)}`;
}

function heardIn(facts: Facts, setting: Setting): string {
  const { peak, cutoffHz, levelDb } = facts.signal.response(setting);
  return [soundIn(facts, setting), ...[peak?.hz, peak?.db, cutoffHz, levelDb].map(rounded)].join(' ');
}

function rounded(value: number | null | undefined): string {
  return value === null || value === undefined ? '-' : value.toPrecision(3);
}
