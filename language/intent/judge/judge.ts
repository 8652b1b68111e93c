/** One claim in one setting: whether it holds, and what the circuit does. */
import {
  elementById,
  partById,
  type Arrangement,
  type AnalysedCircuit,
  type Circuit,
  type Claim,
  type ElementId,
  type LugId,
} from '../../circuit/model.js';
import { meter, nets, sameArrangement, type MeterReading, type Setting, type Sound } from '../../electrics/index.js';
import { figure } from '../../claim.js';
import { factsOf, isShortedAt, type Found } from '../../checks/index.js';
import { judgeResponse } from './judge-response.js';
import { isKnown, usualWithin, verdict, type Heard, type Judgement } from './judgement.js';

export type { Heard, Judgement, Verdict } from './judgement.js';

/** What a meter reads as a short, its leads included (trade practice: under 1 to 2 ohms). */
const short = 2;

/** `between` are two probes inside; the jack where absent. `heard` for a circuit of which the facts are not worth keeping. */
export function judge(
  circuit: AnalysedCircuit,
  claim: Claim,
  setting: Setting,
  between?: readonly [LugId, LugId],
  heard: Heard = factsOf(circuit).signal,
): Judgement {
  const sound = (): Sound => heard.sound(setting);
  const reading = (): MeterReading => (between ? meter(circuit, setting, ...between) : heard.reading(setting));
  switch (claim.kind) {
    case 'sounds':
      return judgeSound(circuit, claim.arrangement, sound(), setting);
    case 'silent':
      return verdict(sound().silent, heardIn(sound()));
    case 'hum':
      return judgeHum(claim.hum, sound());
    case 'hums':
      return judgeHum('present', sound());
    case 'reads':
      return judgeReading(circuit, claim, reading());
    case 'reads-open': {
      const read = reading();
      return read.unknown ? unknown(circuit, read) : verdict(read.ohm === null, readingOf(read));
    }
    case 'reads-short': {
      const read = reading();
      return read.unknown ? unknown(circuit, read) : verdict(read.ohm !== null && read.ohm < short, readingOf(read));
    }
    case 'peak':
    case 'cutoff':
    case 'level':
      return judgeResponse(circuit, claim, setting, heard);
  }
}

function judgeSound(circuit: AnalysedCircuit, expected: Arrangement, sound: Sound, setting: Setting): Judgement {
  if (sound.silent || sound.arrangement === undefined) {
    const shorted = isShortedAt(circuit, nets(circuit, setting.positions), setting);
    return verdict(false, { kind: shorted ? 'shorted' : 'silent' });
  }
  const found = heardIn(sound);
  if (sameArrangement(circuit, expected, sound.arrangement, sound)) return verdict(true, found);
  return verdict(false, { ...found, subjects: { ...found.subjects, ...difference(circuit, coilsOf(circuit, expected), sound) } });
}

function heardIn(sound: Sound): Found {
  if (sound.silent || sound.arrangement === undefined) return { kind: 'silent' };
  const { kind } = sound.arrangement;
  return { kind: kind === 'pickup' || kind === 'coil' ? 'heard-alone' : 'heard', subjects: { sounds: sound.text } };
}

/** Which pickups are missing and which are too many; where they are the same, how they are joined says it all. */
function difference(
  circuit: Circuit,
  expected: ReadonlySet<ElementId>,
  sound: Sound,
): Pick<NonNullable<Found['subjects']>, 'missing' | 'extra'> {
  const heard = new Set(sound.heard.map(({ coil }) => coil));
  const missing = namesOf(
    circuit,
    [...expected].filter((coil) => !heard.has(coil)),
    expected,
  );
  const extra = namesOf(
    circuit,
    [...heard].filter((coil) => !expected.has(coil)),
    heard,
  );
  return { ...(missing.length > 0 ? { missing } : {}), ...(extra.length > 0 ? { extra } : {}) };
}

/** A pickup of which all coils of `among` are meant goes by its own name. */
function namesOf(circuit: Circuit, coils: readonly ElementId[], among: ReadonlySet<ElementId>): readonly string[] {
  const names = coils.map((id) => {
    const coil = elementById(circuit, id);
    const part = partById(circuit, coil.part);
    const whole = part.elements.filter((other) => elementById(circuit, other).kind === 'coil' && among.has(other));
    return whole.every((other) => coils.includes(other)) || coil.kind !== 'coil' || coil.name === 'main'
      ? part.name
      : `${part.name}.${coil.name}`;
  });
  return [...new Set(names)];
}

function coilsOf(circuit: Circuit, arrangement: Arrangement): ReadonlySet<ElementId> {
  switch (arrangement.kind) {
    case 'coil':
      return new Set([arrangement.coil]);
    case 'pickup':
      return new Set(partById(circuit, arrangement.part).elements.filter((id) => elementById(circuit, id).kind === 'coil'));
    default:
      return new Set(arrangement.members.flatMap((member) => [...coilsOf(circuit, member)]));
  }
}

/** Hum that cancels in part is present all the same; `cancelled` and `partly` hold for themselves alone. */
function judgeHum(expected: 'cancelled' | 'partly' | 'present', sound: Sound): Judgement {
  return verdict(
    sound.hum === expected || (expected === 'present' && sound.hum === 'partly'),
    sound.silent ? { kind: 'silent' } : sound.hum === 'none' ? { kind: 'no-hum' } : { kind: 'hum', subjects: { hum: sound.hum } },
  );
}

function judgeReading(
  circuit: Circuit,
  claim: { readonly ohm: number; readonly within?: number },
  read: MeterReading,
): Judgement {
  if (read.unknown) return unknown(circuit, read);
  const within = claim.within ?? usualWithin;
  const near = read.ohm !== null && Math.abs(read.ohm - claim.ohm) <= within * claim.ohm;
  const spread =
    claim.within === undefined && read.low !== null && read.high !== null && claim.ohm >= read.low && claim.ohm <= read.high;
  const found = readingOf(read);
  const note = found.kind === 'short' || read.note === undefined ? {} : { subjects: { note: read.note } };
  return verdict(near || spread, { ...found, ...note });
}

function readingOf({ ohm, low, high }: MeterReading): Found {
  if (ohm === null) return { kind: 'open' };
  const value = figure(ohm, 'ohm', 3);
  if (ohm < short) return { kind: 'short', figures: { value } };
  const isSpread = low !== null && high !== null && high - low > 0.001 * ohm;
  return {
    kind: 'reading',
    figures: { value, ...(isSpread ? { low: figure(low, 'ohm', 3), high: figure(high, 'ohm', 3) } : {}) },
  };
}

function unknown(circuit: Circuit, read: MeterReading): Judgement {
  // Nothing is read through a semiconductor; what hangs on a value written `?` has such a part in it.
  if (read.through.length === 0)
    return { verdict: 'unknown', found: { kind: 'not-metered', subjects: { note: read.note ?? '' } } };
  const parts = read.through
    .map((id) => elementById(circuit, id))
    .filter((element) => !isKnown(element))
    .map((element) => partById(circuit, element.part).name);
  return { verdict: 'unknown', found: { kind: 'unknown-value', subjects: { parts: [...new Set(parts)] } } };
}
