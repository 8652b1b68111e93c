/** Titles of repairs: what to change, and what the change achieves. */
import {
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type LugId,
  type PartId,
} from '../../circuit/model.js';
import { enumerate } from '../../electrics/index.js';
import type { Finding } from '../../source.js';
import { isBentOver, isScreen, type Change, type Move, type Turn } from './change.js';
import { farEnd, jointOf, leadOf, type Mention } from './wiring.js';
import { firstOf } from '../../collections.js';
import { lugLabel } from '../../circuit/model.js';
import { abridged } from '../../words.js';

/** `move the white wire of neck from selector.A2 to selector.A1: then all three positions are as expected`. */
export function titleOf(
  circuit: AnalysedCircuit,
  changes: readonly Change[],
  cured: readonly Finding[],
  left: readonly Finding[],
): string {
  return `${changes.map((change) => describeChange(circuit, change)).join('; and ')}: ${outcome(circuit, cured, left)}`;
}

/** The same change seen as a mistake that was made: what is wrong, and where. */
export function describeMistake(circuit: Circuit, change: Change): { readonly says: string; readonly where: string } {
  const lugs = [...new Set(change.moves.flatMap(({ mention, to }) => [mention.lug, to]))].map((lug) => lugLabel(circuit, lug));
  const where = abridged(lugs, 'and', 6);
  if (change.kind === 'move') {
    const [{ mention, to }] = change.moves;
    return {
      says: `${describeEnd(circuit, mention)} is on ${lugLabel(circuit, to)} instead of ${lugLabel(circuit, mention.lug)}`,
      where,
    };
  }
  if (change.kind === 'exchange')
    return {
      says: describeChange(circuit, change)
        .replace(/^exchange (.*)$/, '$1 are exchanged')
        .replace(/^turn (.*) around$/, '$1 is the wrong way round'),
      where,
    };
  return { says: `the connections of ${where} are exchanged`, where };
}

function describeChange(circuit: Circuit, change: Change): string {
  switch (change.kind) {
    case 'move':
      return describeMove(circuit, change.moves[0]);
    case 'exchange':
      return describeExchange(circuit, change.moves);
    case 'turn':
      return describeTurn(circuit, change);
    case 'remove':
      return `take out ${describeJoint(circuit, change.removes)}`;
    case 'add': {
      const [a, b] = change.adds;
      if (isScreen(circuit, a)) return `connect the ${partOfLug(circuit, a).name} to ${lugLabel(circuit, b)}`;
      return `${isBentOver(circuit, a, b) ? 'solder' : 'wire'} ${lugLabel(circuit, a)} to ${lugLabel(circuit, b)}`;
    }
  }
}

function describeMove(circuit: Circuit, { mention, to }: Move): string {
  return `move ${describeEnd(circuit, mention)} from ${lugLabel(circuit, mention.lug)} to ${lugLabel(circuit, to)}`;
}

function describeExchange(circuit: Circuit, [one, other]: readonly [Move, Move]): string {
  const others = farParts(circuit, other.mention);
  const common = farParts(circuit, one.mention).find((part) => others.includes(part));
  if (common !== undefined && partById(circuit, common).inPlace) return `turn ${partById(circuit, common).name} around`;
  const [a, b] = [one.mention.lug, other.mention.lug];
  const { part, name } = lugById(circuit, a);
  if (part === lugById(circuit, b).part && partById(circuit, part).family === 'pickup') {
    const { name: pickup, lugs } = partById(circuit, part);
    const isOnly = lugs.filter((lug) => !lugById(circuit, lug).metal).length === 2;
    return isOnly ? `exchange the leads of ${pickup}` : `exchange ${name} and ${lugById(circuit, b).name} of ${pickup}`;
  }
  return `exchange ${describeEnd(circuit, one.mention)} on ${lugLabel(circuit, a)} and ${describeEnd(circuit, other.mention)} on ${lugLabel(circuit, b)}`;
}

function describeTurn(circuit: Circuit, { moves, part }: Turn): string {
  const { name, family, lugs } = partById(circuit, part);
  const pairs = new Map(
    moves.map(({ mention, to }) => [[mention.lug, to].sort((a, b) => a - b).join(), [mention.lug, to] as const]),
  );
  if (
    family === 'passive' ||
    (family === 'pickup' && pairs.size === 1 && lugs.filter((lug) => !lugById(circuit, lug).metal).length === 2)
  )
    return family === 'pickup' ? `exchange the leads of ${name}` : `turn ${name} around`;
  const exchanges = [...pairs.values()].map(([a, b]) => `${lugLabel(circuit, a)} and ${lugLabel(circuit, b)}`);
  return `exchange the connections of ${abridged(exchanges, 'and', 9)}`;
}

/** The wire that ends here, by its colour and by where it comes from; a lead of a part by its name. */
function describeEnd(circuit: Circuit, mention: Mention): string {
  const end = firstOf(mention.ends);
  const joint = jointOf(circuit, end);
  const other = farEnd(circuit, end);
  const lead = leadOf(circuit, joint);
  if (lead !== undefined) {
    const names = mention.ends.map((one) => {
      const part = partById(circuit, leadOf(circuit, jointOf(circuit, one)) ?? lead);
      return `${lugById(circuit, farEnd(circuit, one)).name} of ${part.name}`;
    });
    return `lead ${abridged(names)}`;
  }
  if (joint.kind === 'screen') return `the ${lugLabel(circuit, joint.a)}`;
  if (joint.kind === 'solder') return `the solder joint of ${lugLabel(circuit, other)}`;
  const wire = joint.colour === undefined ? 'wire' : `${joint.colour} wire`;
  if (mention.ends.length > 1)
    return `the ${wire} between ${abridged(mention.ends.map((one) => lugLabel(circuit, farEnd(circuit, one))))}`;
  const isNamed = joint.ownLead && joint.colour !== undefined && hasLead(circuit, other);
  return `the ${wire} of ${isNamed ? partOfLug(circuit, other).name : lugLabel(circuit, other)}`;
}

/** True where the lug's lead can be distinguished from the part's other leads by its colour. */
function hasLead(circuit: Circuit, lug: LugId): boolean {
  const leads = partOfLug(circuit, lug).leads ?? [];
  const own = leads.find((lead) => lead.lug === lug);
  return own?.colour !== undefined && leads.filter(({ colour }) => colour === own.colour).length === 1;
}

function describeJoint(circuit: Circuit, { kind, colour, a, b }: Joint): string {
  const run = kind === 'solder' ? 'the solder joint' : `the ${colour === undefined ? '' : `${colour} `}wire`;
  return `${run} from ${lugLabel(circuit, a)} to ${lugLabel(circuit, b)}`;
}

function farParts(circuit: Circuit, mention: Mention): readonly PartId[] {
  return mention.ends.map((end) => lugById(circuit, farEnd(circuit, end)).part);
}

function outcome(circuit: AnalysedCircuit, cured: readonly Finding[], left: readonly Finding[]): string {
  const failing = left.filter(({ rule }) => rule === 'expectation').length;
  const rest = left.length - failing;
  const stays = [
    failing > 0 ? `${counted(failing, 'expectation')} ${failing === 1 ? 'is' : 'are'} still not met` : '',
    rest > 0 ? `${counted(rest, 'other problem')} ${rest === 1 ? 'remains' : 'remain'}` : '',
  ]
    .filter(Boolean)
    .join(' and ');
  const then =
    cured.some(({ rule }) => rule === 'expectation') && failing === 0
      ? `then ${describeMet(circuit)}`
      : `then ${describeCure(cured)}`;
  const unstated = circuit.expectations.length === 0 ? ' (no expectation confirms this)' : '';
  return `${then}${stays === '' ? '' : `, but ${stays}`}${unstated}`;
}

/** `all three positions are as expected` if every position of the instrument has an expectation; else the number of expectations. */
function describeMet(circuit: AnalysedCircuit): string {
  const positions = enumerate(circuit).settings.length;
  const switched = new Set(circuit.switches.filter(({ rest }) => rest === undefined).map(({ id }) => id));
  const spoken = circuit.expectations.filter(({ settings }) =>
    settings.some((set) => set.kind === 'switch' && switched.has(set.switch)),
  );
  if (positions > 1 && spoken.length >= positions) return `${all(positions)} positions are as expected`;
  const lines = circuit.expectations.length;
  return lines === 1 ? 'the expectation is met' : `${all(lines)} expectations are met`;
}

function all(count: number): string {
  return count === 2 ? 'both' : `all ${numeral(count)}`;
}

function numeral(count: number): string {
  return (
    ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'][count] ??
    String(count)
  );
}

function counted(count: number, word: string): string {
  return `${numeral(count)} ${word}${count === 1 ? '' : 's'}`;
}

/** What is right once the first of the cured findings no longer occurs. */
function describeCure(cured: readonly Finding[]): string {
  const [first] = cured;
  const subject = first?.subjects[0] ?? 'it';
  return (first === undefined ? undefined : cures[first.rule]?.(subject)) ?? 'the problem is fixed';
}

const cures: Readonly<Record<string, (subject: string) => string>> = {
  expectation: () => 'more of the expectations are met',
  'never-heard': (subject) => `${subject} is heard`,
  'silent-at-rest': () => 'something is heard with the controls at rest',
  'supply-on-signal': (subject) => `${subject} is off the signal`,
  'live-battery': (subject) => `${subject} can be switched off`,
  'silent-position': (subject) => `no position of ${subject} is silent`,
  'floating-metal': (subject) => `${subject} is on ground`,
  'loose-lead': (subject) => `${subject} is connected`,
  'open-pole': (subject) => `the signal at ${subject} continues`,
  'out-of-phase': (subject) => `${subject} is in phase`,
  'backwards-control': (subject) => `${subject} works in the right direction`,
  'idle-control': (subject) => `${subject} has an effect`,
  'idle-switch': (subject) => `${subject} changes the sound`,
  'turned-diode': (subject) => `${subject} is the right way round`,
  'reversed-connector': (subject) => `${subject} does no harm either way round`,
  'loud-kill': (subject) => `${subject} silences the output`,
  'idle-wire': () => 'every wire connects something',
  'bypassed-throw': (subject) => `${subject} is on in its own positions only`,
  'bridged-throws': (subject) => `the pole of ${subject} selects again`,
  'hanging-coil': (subject) => `no coil of ${subject} hangs from the hot side`,
  'odd-volume': (subject) => `${subject} works as a volume`,
  'one-sided-control': (subject) => `${subject} acts in every position`,
  // What a lug of it is reported for is said of the part.
  'unusual-control': (subject) => `${subject.split('.')[0] ?? subject} is wired as usual`,
  'unusual-part': (subject) => `${subject} lies where it usually does`,
  'unusual-position': (subject) => `${subject} plays what it usually does`,
  'unlike-twin': (subject) => `${subject} is wired as its twins are`,
  'ground-lead': (subject) => `${subject} is on ground`,
  'silent-coil': (subject) => `each coil of ${subject} is heard`,
  'idle-part': (subject) => `${subject} has an effect`,
  'constant-cut': () => 'treble is no longer always cut',
  'twin-positions': (subject) => `no two positions of ${subject} sound alike`,
  'lead-on-common': (subject) => `${subject} is selected like the others`,
  'shorted-output': () => 'the output is not shorted',
  'no-output': () => 'the signal reaches the jack',
  'swapped-jack': () => 'tip and sleeve are the right way round',
  'no-supply': (subject) => `${subject} has its supply`,
  'crowded-lug': (subject) => `${subject} has fewer wires`,
  'full-star': (subject) => `${subject} has fewer ends`,
  'floating-screen': () => 'the screen is connected',
  'self-joint': () => 'the wire joins two lugs',
  'repeated-joint': () => 'nothing is joined twice',
};
