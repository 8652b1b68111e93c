/** One claim in one setting: does it hold, and what is so instead. */
import {
  elementById,
  partById,
  type Arrangement,
  type Circuit,
  type Claim,
  type Coil,
  type ElementId,
  type LugId,
} from '../../circuit/model.js';
import { meter, nets, sameArrangement, type MeterReading, type Setting, type Sound } from '../../electrics/index.js';
import { factsOf, isShortedAt, listed } from '../../checks/index.js';
import { ohmText } from './amounts.js';
import { judgeResponse } from './judge-response.js';
import { isKnown, usualWithin, verdict, type Heard, type Judgement } from './judgement.js';

export type { Heard, Judgement, Verdict } from './judgement.js';

/** What a meter reads as a short, its leads included (trade practice: under 1 to 2 ohms). */
const short = 2;

/** `between` are two probes inside; the jack where absent. `heard` for a circuit of which the facts are not worth keeping. */
export function judge(
  circuit: Circuit,
  claim: Claim,
  setting: Setting,
  between?: readonly [LugId, LugId],
  heard: Heard = factsOf(circuit).hearing,
): Judgement {
  const sound = (): Sound => heard.sound(setting);
  const reading = (): MeterReading => (between ? meter(circuit, setting, ...between) : heard.reading(setting));
  switch (claim.kind) {
    case 'sounds':
      return judgeSound(circuit, claim.arrangement, sound(), setting);
    case 'silent':
      return verdict(sound().silent, heardSaid(circuit, sound()));
    case 'hum':
      return judgeHum(claim.hum, sound());
    case 'hums':
      return judgeHum('present', sound());
    case 'reads':
      return judgeReading(circuit, claim, reading());
    case 'reads-open': {
      const read = reading();
      return read.unknown ? unknown(circuit, read) : verdict(read.ohm === null, readingSaid(read));
    }
    case 'reads-short': {
      const read = reading();
      return read.unknown ? unknown(circuit, read) : verdict(read.ohm !== null && read.ohm < short, readingSaid(read));
    }
    case 'peak':
    case 'cutoff':
    case 'level':
      return judgeResponse(circuit, claim, setting, heard);
  }
}

function judgeSound(circuit: Circuit, expected: Arrangement, sound: Sound, setting: Setting): Judgement {
  if (sound.silent || sound.arrangement === undefined) {
    const shorted = isShortedAt(circuit, nets(circuit, setting.positions), setting);
    return verdict(false, 'it is silent', shorted ? 'nothing lies between tip and sleeve' : undefined);
  }
  const held = sameArrangement(circuit, expected, sound.arrangement, sound);
  return verdict(held, heardSaid(circuit, sound), held ? undefined : difference(circuit, coilsOf(circuit, expected), sound));
}

function heardSaid(circuit: Circuit, sound: Sound): string {
  if (sound.silent || sound.arrangement === undefined) return 'it is silent';
  const { kind } = sound.arrangement;
  const alone = kind === 'pickup' || kind === 'coil' ? ' alone' : '';
  return `heard is ${sound.text}${alone}`;
}

/** Which pickups are missing and which are too many; where they are the same, how they are joined says it all. */
function difference(circuit: Circuit, expected: ReadonlySet<ElementId>, sound: Sound): string | undefined {
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
  const sentences = [
    ...(missing.length > 0 ? [`${listed(missing)} ${missing.length > 1 ? 'do' : 'does'} not reach the output`] : []),
    ...(extra.length > 0 ? [`${listed(extra)} ${extra.length > 1 ? 'are' : 'is'} heard too`] : []),
  ];
  return sentences.length > 0 ? sentences.join(', and ') : undefined;
}

/** A pickup of which all coils of `among` are meant goes by its own name. */
function namesOf(circuit: Circuit, coils: readonly ElementId[], among: ReadonlySet<ElementId>): readonly string[] {
  const names = coils.map((id) => {
    const coil = circuit.elements[id] as Coil;
    const part = partById(circuit, coil.part);
    const whole = part.elements.filter((other) => elementById(circuit, other).kind === 'coil' && among.has(other));
    return whole.every((other) => coils.includes(other)) || coil.name === 'main' ? part.name : `${part.name}.${coil.name}`;
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

function judgeHum(expected: 'cancelled' | 'present', sound: Sound): Judgement {
  return verdict(
    sound.hum === expected,
    sound.silent ? 'it is silent' : sound.hum === 'none' ? 'there is no hum' : `hum is ${sound.hum}`,
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
  return verdict(near || spread, readingSaid(read), read.ohm !== null && read.ohm < short ? undefined : read.note);
}

function readingSaid(read: MeterReading): string {
  if (read.ohm === null) return 'the meter reads open';
  if (read.ohm < short) return `the meter reads ${ohmText(read.ohm)}, a short`;
  const spread = read.low !== null && read.high !== null && read.high - read.low > 0.001 * read.ohm;
  return `the meter reads ${ohmText(read.ohm)}${spread ? ` (${ohmText(read.low)} to ${ohmText(read.high)})` : ''}`;
}

function unknown(circuit: Circuit, read: MeterReading): Judgement {
  const parts = read.through
    .map((id) => elementById(circuit, id))
    .filter((element) => !isKnown(element))
    .map((element) => partById(circuit, element.part).name);
  return {
    verdict: 'unknown',
    so: parts.length > 0 ? `the value of ${listed([...new Set(parts)])} is not known yet` : 'a value on the way is not known yet',
  };
}
