/** Wires, joints and leads by their ends: new, gone, with an end moved, or of another look. */
import { amount } from '../../circuit/index.js';
import { buildOf } from '../../workshop/index.js';
import {
  isOwnLead,
  leadEnd,
  lugLabel,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type LugId,
  type PartId,
} from '../../circuit/model.js';
import type { WireChange } from '../change.js';
import type { Match } from '../match/match.js';
import type { Moved, WirePairs } from '../match/pair-wires.js';

/** In the order of the old text, what is new behind it in that of the new. Leads of parts in place that are new or gone come and go with the part. */
export function compareWires(
  before: AnalysedCircuit,
  after: AnalysedCircuit,
  match: Match,
  pairs: WirePairs,
): readonly WireChange[] {
  const { parts } = match;
  const isWithPart = (circuit: Circuit, joint: Joint, isUnpaired: (part: PartId) => boolean): boolean =>
    [joint.a, joint.b].some((lug) => {
      const part = partOfLug(circuit, lug);
      const isPlaced = (part.inPlace && joint.kind === 'solder') || part.family === 'screen';
      return isPlaced && isUnpaired(part.id);
    });
  const looks = pairs.same.flatMap(([old, now]): WireChange[] => {
    const says = describeLooks(old, now);
    return says.length === 0
      ? []
      : [
          {
            ...changed('changed', before, after, old, now),
            says: `${named(before, old)}: ${says.join(', ')}`,
            // A wire of another colour that is soldered already stays.
            ...(isOfColour(old, now) ? {} : { work: `Replace the ${named(after, now)}: ${says.join(', ')}.` }),
          },
        ];
  });
  const moved = pairs.moved.map((move): WireChange => {
    const { before: old, after: now, leaves, arrives } = move;
    const moves = `the end at ${lugLabel(before, leaves)} moves to ${lugLabel(after, arrives)}`;
    const other = pairs.moved.find((partner) => isExchanged(match, move, partner));
    const exchanged = other === undefined ? [] : [`exchanged with that from ${lugLabel(before, other.keeps)}`];
    return {
      ...changed('moved', before, after, old, now),
      says: `${named(before, old)}: ${[moves, ...exchanged, ...describeLooks(old, now)].join(', ')}`,
      work: isOfColour(old, now)
        ? `Unsolder the ${inHand(before, old)} at ${lugLabel(before, leaves)} and solder it to ${lugLabel(after, arrives)}.`
        : `Replace the ${named(before, old)} by a ${named(after, now)}: ${describeLooks(old, now).join(', ')}.`,
    };
  });
  const gone = pairs.gone
    .filter((old) => !isWithPart(before, old, (part) => !parts.to.has(part)))
    .map((old): WireChange => {
      const has = looksOf(old);
      const says = `${named(before, old)}${has === '' ? '' : `, ${has},`} is gone`;
      const { id, kind, range } = old;
      const work = takingOff(before, old);
      return { kind: 'gone', joint: kind, ends: { before: ends(before, old) }, ids: { before: id }, before: range, says, work };
    });
  const added = pairs.added
    .filter((now) => !isWithPart(after, now, (part) => !parts.from.has(part)))
    .map((now): WireChange => {
      const has = looksOf(now);
      const says = `new ${named(after, now)}${has === '' ? '' : `, ${has}`}`;
      const { id, kind, range } = now;
      const work = puttingOn(after, now, says);
      return { kind: 'new', joint: kind, ends: { after: ends(after, now) }, ids: { after: id }, after: range, says, work };
    });
  const old = [...looks, ...moved, ...gone].sort((a, b) => (a.ids.before ?? 0) - (b.ids.before ?? 0));
  return [...old, ...added];
}

/** True where each of two ends moves to the lug that the other leaves. */
function isExchanged({ lugs }: Match, one: Moved, other: Moved): boolean {
  return lugs.to.get(one.leaves) === other.arrives && lugs.to.get(other.leaves) === one.arrives;
}

function changed(kind: 'changed' | 'moved', before: Circuit, after: Circuit, old: Joint, now: Joint): Omit<WireChange, 'says'> {
  return {
    kind,
    joint: now.kind,
    ends: { before: ends(before, old), after: ends(after, now) },
    ids: { before: old.id, after: now.id },
    before: old.range,
    after: now.range,
  };
}

function ends(circuit: Circuit, { a, b }: Joint): readonly [string, string] {
  return [lugLabel(circuit, a), lugLabel(circuit, b)];
}

/** `wire A to B`, `joint A onto B`, `lead A to B` of a part in place, `screen A to B`. */
export function named(circuit: Circuit, { kind, a, b }: Joint): string {
  const isLead = (lug: LugId): boolean => partOfLug(circuit, lug).inPlace;
  if (kind === 'wire') return `wire ${lugLabel(circuit, a)} to ${lugLabel(circuit, b)}`;
  if (kind === 'screen') return `tie of the ${lugLabel(circuit, a)} to ${lugLabel(circuit, b)}`;
  if (isLead(a) !== isLead(b)) {
    const [own, other] = isLead(a) ? [a, b] : [b, a];
    return `lead ${lugLabel(circuit, own)} to ${lugLabel(circuit, other)}`;
  }
  return `joint ${lugLabel(circuit, a)} onto ${lugLabel(circuit, b)}`;
}

const flags = ['bare', 'twisted', 'shielded'] as const;

/** `yellow 22 AWG`, `bare 24 AWG`, `white 180 mm shielded`. */
export function looksOf(joint: Joint): string {
  const { colour, gauge, length, bare, twisted, shielded, make = [] } = joint;
  return [
    bare ? 'bare' : undefined,
    colour,
    gauge === undefined ? undefined : amount(gauge, 'awg'),
    length === undefined ? undefined : amount(length, 'metre'),
    twisted ? 'twisted' : undefined,
    shielded ? 'shielded' : undefined,
    ...make,
  ]
    .filter((word) => word !== undefined)
    .join(' ');
}

function takingOff(circuit: AnalysedCircuit, joint: Joint): string {
  const lead = ownLead(circuit, joint);
  if (lead === undefined) return `Unsolder the ${named(circuit, joint)} at both ends and take it out.`;
  return `Unsolder the lead ${lugLabel(circuit, lead.from)} at ${lugLabel(circuit, lead.to)} and insulate its end.`;
}

function puttingOn(circuit: AnalysedCircuit, joint: Joint, says: string): string {
  const lead = ownLead(circuit, joint);
  return lead === undefined
    ? `Solder the ${says}.`
    : `Solder the lead ${lugLabel(circuit, lead.from)} to ${lugLabel(circuit, lead.to)}.`;
}

/** Where a wire is a part's own lead: the lug that it comes from, and the one that it is soldered to. */
function ownLead(circuit: AnalysedCircuit, joint: Joint): { readonly from: LugId; readonly to: LugId } | undefined {
  const build = buildOf(circuit);
  if (!isOwnLead(build, joint)) return undefined;
  const from = leadEnd(build, joint);
  return from === undefined ? undefined : { from, to: from === joint.a ? joint.b : joint.a };
}

function inHand(circuit: AnalysedCircuit, joint: Joint): string {
  const lead = ownLead(circuit, joint);
  return lead === undefined ? named(circuit, joint) : `lead ${lugLabel(circuit, lead.from)}`;
}

function isOfColour(old: Joint, now: Joint): boolean {
  return looksOf({ ...old, colour: undefined }) === looksOf({ ...now, colour: undefined });
}

function describeLooks(old: Joint, now: Joint): readonly string[] {
  const size = (value: number | undefined, unit: 'awg' | 'metre'): string => (value === undefined ? 'none' : amount(value, unit));
  const pairs: readonly (readonly [string, string, string])[] = [
    ['colour', old.colour ?? 'none', now.colour ?? 'none'],
    ['gauge', size(old.gauge, 'awg'), size(now.gauge, 'awg')],
    ['length', size(old.length, 'metre'), size(now.length, 'metre')],
    ['make', (old.make ?? ['not given']).join(' '), (now.make ?? ['not given']).join(' ')],
  ];
  return [
    ...pairs.flatMap(([name, was, is]) => (was === is ? [] : [`${name} ${was} becomes ${is}`])),
    ...flags.flatMap((flag) => (old[flag] === now[flag] ? [] : [now[flag] ? `now ${flag}` : `no longer ${flag}`])),
  ];
}
