/** What a circuit would read, and whether a reading that was taken fits it. */
import { getOrCreate } from '../../collections.js';
import { lugById, type AnalysedCircuit, type Circuit, type Claim, type LugId, type Measurement } from '../../circuit/model.js';
import { whereSaid, factsOf } from '../../checks/index.js';
import {
  describeSound,
  groundNetwork,
  levelAt,
  meter,
  nets,
  readAtJack,
  responseSummary,
  settingLabel,
  heardAt,
  settingsMatching,
  type MeterReading,
  type Setting,
  type Sound,
} from '../../electrics/index.js';
import { judge } from '../judge/judge.js';
import { describeClaim } from '../judge/failures.js';
import type { Reading } from './model.js';
import { abridged } from '../../words.js';

/** A multimeter of the bench: 1 % of the reading and one in its third digit. */
const accuracy = 0.01;
/** Below this a meter reads a short, leads included (trade practice); above this it reads open. */
const short = 2;
const open = 20e6;

/** One reading for each claim of each `measured` line. */
export function readingsOf(circuit: AnalysedCircuit): readonly Reading[] {
  return circuit.measurements.flatMap((measurement) => {
    const settings = settingsMatching(heardAt(circuit, measurement.at), measurement.settings);
    return measurement.claims.map((claim) => ({
      measurement,
      claim,
      settings,
      says: describeReading(circuit, measurement, claim, settings),
    }));
  });
}

function describeReading(circuit: AnalysedCircuit, measurement: Measurement, claim: Claim, settings: readonly Setting[]): string {
  const { at, between } = measurement;
  const output = at === undefined ? '' : `at ${lugById(circuit, at).label}`;
  const probes =
    between === undefined ? output : `between ${lugById(circuit, between[0]).label} and ${lugById(circuit, between[1]).label}`;
  const all = factsOf(circuit).settings();
  const [first] = settings;
  const switches = whereSaid(circuit, all, settings).replace(/^(at|in every position) ?/, '');
  const pots =
    first === undefined ? '' : settingLabel(circuit, { positions: circuit.switches.map(() => -1), rotations: first.rotations });
  return `${[abridged([probes, switches, pots].filter(Boolean)) || 'at the jack', describeClaim(circuit, claim)].join(': ')}`;
}

/** What can be observed of one circuit, each setting solved once. */
export interface Observer {
  readonly circuit: Circuit;
  /** `unknown` where a value written `?` stands in it. */
  fits(reading: Reading): 'yes' | 'no' | 'unknown';
  read(setting: Setting, between?: readonly [LugId, LugId]): MeterReading;
  sound(setting: Setting): Sound;
}

export function createObserver(circuit: AnalysedCircuit): Observer {
  const sounds = new Map<string, Sound>();
  const meters = new Map<string, MeterReading>();
  const atOutput = new Map<LugId, Observer>();
  const keyOf = ({ positions, rotations }: Setting): string => `${positions.join()}|${rotations.join()}`;
  const sound = (setting: Setting): Sound => {
    const known = sounds.get(keyOf(setting)) ?? describeSound(circuit, setting);
    sounds.set(keyOf(setting), known);
    return known;
  };
  const read = (setting: Setting, between?: readonly [LugId, LugId]): MeterReading => {
    const key = `${keyOf(setting)}|${between?.join() ?? ''}`;
    const known = meters.get(key) ?? (between === undefined ? readAtJack(circuit, setting) : meter(circuit, setting, ...between));
    meters.set(key, known);
    return known;
  };
  const fitsAt = ({ claim, measurement }: Reading, setting: Setting): 'yes' | 'no' | 'unknown' => {
    switch (claim.kind) {
      case 'reads':
      case 'reads-open':
      case 'reads-short': {
        const found = read(setting, measurement.between);
        return found.unknown ? 'unknown' : yes(isRead(claim, found));
      }
      case 'hums':
        return yes(humsIn(circuit, setting, sound(setting)));
      default: {
        const sources = {
          sound,
          reading: read,
          response: (at: Setting) => responseSummary(circuit, at),
          level: (at: Setting, hz?: number) => levelAt(circuit, at, hz),
        };
        const { verdict } = judge(circuit, claim, setting, undefined, sources);
        return verdict === 'unknown' ? 'unknown' : yes(verdict === 'held');
      }
    }
  };
  return {
    circuit,
    read,
    sound,
    fits(reading) {
      const { at, ...rest } = reading.measurement;
      if (at !== undefined && at !== circuit.output?.tip)
        return getOrCreate(atOutput, at, () => createObserver(heardAt(circuit, at))).fits({ ...reading, measurement: rest });
      let isKnown = reading.settings.length > 0;
      for (const setting of reading.settings) {
        const verdict = fitsAt(reading, setting);
        if (verdict === 'no') return 'no';
        if (verdict === 'unknown') isKnown = false;
      }
      return isKnown ? 'yes' : 'unknown';
    },
  };
}

function isRead(claim: Extract<Claim, { kind: 'reads' | 'reads-open' | 'reads-short' }>, found: MeterReading): boolean {
  if (claim.kind === 'reads') return isWithin(claim.ohm, found, claim.within);
  if (claim.kind === 'reads-short') return found.ohm !== null && found.ohm < short;
  return found.ohm === null || (found.high ?? found.ohm) > open;
}

function yes(isSo: boolean): 'yes' | 'no' {
  return isSo ? 'yes' : 'no';
}

/** True inside the limits of the reading, and where it and the meter both say that the two points are joined. The limits include the meter's 1 %, which a larger `within` replaces. Below 100 Ω the test leads add up to 1 Ω. */
export function isWithin(ohm: number, { low, high, ohm: nominal }: MeterReading, within?: number): boolean {
  if (nominal === null || low === null || high === null) return ohm > open;
  if (nominal < short && ohm < short) return true;
  const margin = (value: number): number => Math.max(0, (within ?? accuracy) - accuracy) * value + (value < 100 ? 1 : 0);
  return ohm >= low - margin(low) && ohm <= high + margin(high);
}

/** Hum that is heard: from coils, from metal that hangs free, or because the tip leads nowhere. */
function humsIn(circuit: AnalysedCircuit, setting: Setting, sound: Sound): boolean {
  if (sound.hum === 'present' || sound.hum === 'partly') return true;
  const free = groundNetwork(circuit).ungrounded.some(
    ({ always, settings }) => always || settings.some(({ positions }) => positions.join() === setting.positions.join()),
  );
  if (free) return true;
  const { tip, ground } = nets(circuit, setting.positions);
  return tip !== ground && sound.silent && readAtJack(circuit, setting).ohm === null;
}
