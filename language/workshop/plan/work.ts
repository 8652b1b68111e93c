/** What there is to solder: spots, each one heat, and the things whose ends come to them. */
import { leadEnd, type Joint, type LugId, type PartId } from '../../circuit/model.js';
import { firstOf, groupBy, itemAt } from '../../collections.js';
import { pickupArea, type Area } from '../places/areas.js';
import type { Places } from '../places/places.js';
import type { Run } from '../places/runs.js';

export type SpotId = number;
export type ItemId = number;

/** Lugs that are soldered in one heat: one lug, with what is bent onto it. */
export interface Spot {
  readonly id: SpotId;
  /** The lug by which it goes: a case before the lug bent onto it. */
  readonly lug: LugId;
  readonly lugs: readonly LugId[];
  readonly area: Area;
  /** No eyelet: nothing can be hooked there and wait, so each stage in which something arrives heats it anew. */
  readonly flat: boolean;
  /** On ground in every setting. */
  readonly ground: boolean;
}

/** One end of an item, brought to a spot. */
export interface End {
  readonly item: ItemId;
  readonly spot: SpotId;
  /** The lug itself. */
  readonly lug: LugId;
  /** `pass` where a bare wire lies on a lug on its way to others. */
  readonly side: 'a' | 'b' | 'pass' | 'screen';
}

/**
 * What has ends to be soldered: a wire or a part's own lead, a part soldered in place, a lug bent onto another. A bare wire that one statement leads over
 * several lugs of one place is one piece, of which `runs` are the stretches and `run` is the first.
 */
type ItemKind =
  | { readonly kind: 'wire' | 'lead'; readonly run: Run; readonly runs: readonly Run[]; readonly part?: undefined }
  | { readonly kind: 'part'; readonly part: PartId; readonly run?: undefined; readonly runs?: undefined }
  | { readonly kind: 'bend'; readonly part?: undefined; readonly run?: undefined; readonly runs?: undefined };

export type Item = ItemKind & {
  readonly id: ItemId;
  readonly joints: readonly Joint[];
  readonly ends: readonly End[];
  /** All of it on ground. */
  readonly ground: boolean;
  /** Both ends in one area: it never leaves the plate. */
  readonly inside: boolean;
};

export interface Work {
  readonly spots: readonly Spot[];
  readonly items: readonly Item[];
  spot(this: void, id: SpotId): Spot;
  item(this: void, id: ItemId): Item;
  /** The ends that come to a spot, in the order of the items. */
  endsAt(this: void, spot: SpotId): readonly End[];
}

/** What the work follows from: where things lie, the wires to run between them, and what is on ground. */
export interface Wiring extends Places {
  /** Every wire in the order of the text. */
  readonly runs: readonly Run[];
  /** True for a lug that is on ground in every setting. */
  isGround(this: void, lug: LugId): boolean;
}

/** The work that a wiring makes. Spots and items in the order of the text. */
export function makeWork(wiring: Wiring): Work {
  const { isGround } = wiring;
  const home = spotHomes(wiring);
  const lugsOf = groupBy(wiring.lugs, ({ id }) => home.get(id) ?? id);
  const spots: Spot[] = [];
  const spotOf = new Map<LugId, Spot>();
  const spotAt = (lug: LugId): Spot => {
    const key = home.get(lug) ?? lug;
    const known = spotOf.get(key);
    if (known !== undefined) return known;
    const lugs = (lugsOf.get(key) ?? []).map(({ id }) => id);
    const flat = lugs.some((id) => isFlat(wiring, id));
    const name = lugs.find((id) => isFlat(wiring, id)) ?? key;
    const { family, ...part } = wiring.partAt(name);
    const area = flat && family === 'pickup' ? pickupArea(part) : wiring.areaOf(name);
    const spot: Spot = { id: spots.length, lug: name, lugs, area, flat, ground: isGround(key) };
    spots.push(spot);
    spotOf.set(key, spot);
    return spot;
  };
  const items = unplacedItems(wiring).map(({ kind, joints, ends }, id): Item => {
    const placed = ends.map((end) => ({ end, spot: spotAt(end.lug) }));
    const areas = new Set(placed.map(({ spot }) => spot.area.key));
    // A lead that comes from a part elsewhere leaves that part's place, whatever the one end that is soldered says.
    const comes = kind.kind === 'lead' ? leadEnd(wiring, kind.run.joint) : undefined;
    if (comes !== undefined) areas.add(wiring.areaOf(comes).key);
    return {
      ...kind,
      joints,
      id,
      ends: placed.map(({ end, spot }): End => ({ ...end, item: id, spot: spot.id })),
      ground: ends.every((end) => isGround(end.lug)),
      inside: areas.size === 1,
    };
  });
  const bySpot = groupBy(
    items.flatMap((item) => item.ends),
    (end) => end.spot,
  );
  return {
    spots,
    items,
    spot: (id) => itemAt(spots, id),
    item: (id) => itemAt(items, id),
    endsAt: (spot) => bySpot.get(spot) ?? [],
  };
}

/** An item before its ends are brought to spots. */
interface UnplacedItem {
  readonly kind: ItemKind;
  readonly joints: readonly Joint[];
  readonly ends: readonly Omit<End, 'item' | 'spot'>[];
}

/** Bent lugs, then wires and leads, then parts in place. */
function unplacedItems(wiring: Wiring): UnplacedItem[] {
  const bends = wiring.joints.filter(
    (joint) => joint.kind === 'solder' && joint.a !== joint.b && placedPart(wiring, joint) === undefined,
  );
  const byPart = groupBy(wiring.joints, (joint) => placedPart(wiring, joint));
  const parts = wiring.parts.filter(({ inPlace }) => inPlace);
  return [
    ...bends.map((joint): UnplacedItem => ({
      kind: { kind: 'bend' },
      joints: [joint],
      ends: [{ lug: joint.a, side: 'a' }],
    })),
    ...wires(wiring),
    ...parts.flatMap(({ id }): UnplacedItem[] => {
      const joints = byPart.get(id) ?? [];
      const ends = joints.map(({ a, b }, i) => ({
        lug: wiring.lug(a).part === id ? b : a,
        side: i === 0 ? ('a' as const) : ('b' as const),
      }));
      return ends.length > 0 ? [{ kind: { kind: 'part', part: id }, joints, ends }] : [];
    }),
  ];
}

function wires(wiring: Wiring): UnplacedItem[] {
  const screens = wiring.joints.filter(({ kind }) => kind === 'screen');
  const tieEnds = screens.flatMap((tie) => [...new Set([tie.a, tie.b])].map((lug) => ({ lug, tie })));
  const tiesAt = groupBy(tieEnds, ({ lug }) => lug);
  return pieces(wiring).map((runs) => {
    const run = firstOf(runs);
    const { joint, ownLead } = run;
    if (runs.length > 1) return busPiece(run, runs);
    const ties = joint.screen === undefined ? [] : (tiesAt.get(joint.screen) ?? []).map(({ tie }) => tie);
    const far = ownLead ? leadEnd(wiring, joint) : undefined;
    const ends: Omit<End, 'item' | 'spot'>[] = [];
    if (far !== joint.a) ends.push({ lug: joint.a, side: 'a' });
    if (far !== joint.b) ends.push({ lug: joint.b, side: 'b' });
    for (const tie of ties) ends.push({ lug: tie.a === joint.screen ? tie.b : tie.a, side: 'screen' });
    return { kind: { kind: ownLead ? 'lead' : 'wire', run, runs }, joints: [joint, ...ties], ends };
  });
}

/** The runs by pieces of wire: bare ones of one statement, from lug to lug in one place of work, are one piece. */
function pieces(wiring: Wiring): readonly (readonly Run[])[] {
  const made: Run[][] = [];
  for (const run of wiring.runs) {
    const piece = made.at(-1);
    const before = piece?.at(-1);
    if (piece !== undefined && before !== undefined && goesOn(wiring, before, run)) piece.push(run);
    else made.push([run]);
  }
  return made;
}

function goesOn({ areaOf }: Places, { joint: before, ownLead }: Run, { joint, ownLead: isLead }: Run): boolean {
  const isBare = [before, joint].every(({ bare, shielded }) => bare && !shielded);
  if (!isBare || ownLead || isLead || before.statement !== joint.statement || before.b !== joint.a) return false;
  const places = [before.a, before.b, joint.b].map((lug) => areaOf(lug).key);
  return places.every((key) => key === places[0]);
}

function busPiece(run: Run, runs: readonly Run[]): UnplacedItem {
  const lugs = [...new Set([run.joint.a, ...runs.map(({ joint }) => joint.b)])];
  const ends = lugs.map((lug, i) => ({
    lug,
    side: i === 0 ? ('a' as const) : i === lugs.length - 1 ? ('b' as const) : ('pass' as const),
  }));
  return { kind: { kind: 'wire', run, runs }, joints: runs.map(({ joint }) => joint), ends };
}

/** The part in place whose lead this joint is. */
function placedPart(places: Places, joint: Joint): PartId | undefined {
  if (joint.kind !== 'solder') return undefined;
  const [a, b] = [places.partAt(joint.a), places.partAt(joint.b)];
  const own = (part: typeof a, lug: LugId): boolean => part.inPlace && isLead(places, part.id, lug);
  return own(b, joint.b) ? b.id : own(a, joint.a) ? a.id : undefined;
}

/** A lead of a two-lead part: its only joint that came with the part's own statement. */
function isLead(places: Places, part: PartId, lug: LugId): boolean {
  return places.part(part).lugs.includes(lug);
}

/** Lugs bent onto others, by the lug that stands for their spot. Two-lead parts in place have no spot of their own: their lead is an end. */
function spotHomes(places: Places): Map<LugId, LugId> {
  const home = new Map<LugId, LugId>();
  const root = (lug: LugId): LugId => {
    let at = lug;
    for (let next = home.get(at); next !== undefined && next !== at; next = home.get(at)) at = next;
    return at;
  };
  for (const joint of places.joints) {
    if (joint.kind !== 'solder') continue;
    const [a, b] = [root(joint.a), root(joint.b)];
    if (a < b) home.set(b, a);
    else if (b < a) home.set(a, b);
  }
  const flattened = new Map<LugId, LugId>();
  for (const lug of home.keys()) flattened.set(lug, root(lug));
  return preferHosts(places, flattened);
}

/** A spot bears the name of a lug that stays where it is, not of a small part's lead. */
function preferHosts(places: Places, home: Map<LugId, LugId>): Map<LugId, LugId> {
  const named = new Map<LugId, LugId>();
  for (const [root, bent] of groupBy(home.keys(), (lug) => home.get(lug) ?? lug)) {
    const lugs = [root, ...bent];
    const firm = lugs.find((lug) => places.hostOf(places.lug(lug).part).id === places.lug(lug).part) ?? root;
    for (const lug of lugs) named.set(lug, firm);
  }
  return named;
}

/** Cases of controls, covers and bases of pickups, metal plates: solder holds there, a hook does not. */
function isFlat(places: Places, lug: LugId): boolean {
  const { metal, part, name } = places.lug(lug);
  const { family } = places.part(part);
  return metal && (family === 'control' || family === 'plate' || (family === 'pickup' && name !== 'shield'));
}
