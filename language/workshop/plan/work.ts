/** What there is to solder: spots, each one heat, and the things whose ends come to them. */
import {
  derive,
  derivation,
  lugById,
  partById,
  partOfLug,
  type AnalysedCircuit,
  type Circuit,
  type Joint,
  type LugId,
  type PartId,
} from '../../circuit/model.js';
import { groupBy, itemAt } from '../../collections.js';
import { jointClasses } from '../../electrics/index.js';
import { areaOfLug, hostOf, leadEnd, type Area } from '../places/places.js';
import { runsOf, type Run } from '../places/runs.js';

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
  readonly side: 'a' | 'b' | 'screen';
}

/** What has ends to be soldered: a wire or a part's own lead, a part soldered in place, a lug bent onto another. */
type ItemKind =
  | { readonly kind: 'wire' | 'lead'; readonly run: Run; readonly part?: undefined }
  | { readonly kind: 'part'; readonly part: PartId; readonly run?: undefined }
  | { readonly kind: 'bend'; readonly part?: undefined; readonly run?: undefined };

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

/** The work of a circuit. Spots and items in the order of the text. */
export function workOf(circuit: AnalysedCircuit): Work {
  return derive(circuit, work);
}

const work = derivation(['text'], makeWork);

function makeWork(circuit: AnalysedCircuit): Work {
  const home = spotHomes(circuit);
  const lugsOf = groupBy(circuit.lugs, ({ id }) => home.get(id) ?? id);
  const spots: Spot[] = [];
  const spotOf = new Map<LugId, Spot>();
  const { of } = jointClasses(circuit);
  const ground = circuit.output === undefined ? undefined : of[circuit.output.sleeve];
  const isGround = (lug: LugId): boolean => of[lug] === ground;
  const spotAt = (lug: LugId): Spot => {
    const key = home.get(lug) ?? lug;
    const known = spotOf.get(key);
    if (known !== undefined) return known;
    const lugs = (lugsOf.get(key) ?? []).map(({ id }) => id);
    const flat = lugs.some((id) => isFlat(circuit, id));
    const name = lugs.find((id) => isFlat(circuit, id)) ?? key;
    const spot: Spot = { id: spots.length, lug: name, lugs, area: areaOfLug(circuit, name), flat, ground: isGround(key) };
    spots.push(spot);
    spotOf.set(key, spot);
    return spot;
  };
  const items = unplacedItems(circuit).map(({ kind, joints, ends }, id): Item => {
    const placed = ends.map((end) => ({ end, spot: spotAt(end.lug) }));
    const areas = new Set(placed.map(({ spot }) => spot.area.key));
    // A lead that comes from a part elsewhere leaves that part's place, whatever the one end that is soldered says.
    const comes = kind.kind === 'lead' ? leadEnd(circuit, kind.run.joint) : undefined;
    if (comes !== undefined) areas.add(areaOfLug(circuit, comes).key);
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
function unplacedItems(circuit: AnalysedCircuit): UnplacedItem[] {
  const bends = circuit.joints.filter(
    (joint) => joint.kind === 'solder' && joint.a !== joint.b && placedPart(circuit, joint) === undefined,
  );
  const byPart = groupBy(circuit.joints, (joint) => placedPart(circuit, joint));
  const parts = circuit.parts.filter(({ inPlace }) => inPlace);
  return [
    ...bends.map((joint): UnplacedItem => ({
      kind: { kind: 'bend' },
      joints: [joint],
      ends: [{ lug: joint.a, side: 'a' }],
    })),
    ...wires(circuit),
    ...parts.flatMap(({ id }): UnplacedItem[] => {
      const joints = byPart.get(id) ?? [];
      const ends = joints.map(({ a, b }, i) => ({
        lug: lugById(circuit, a).part === id ? b : a,
        side: i === 0 ? ('a' as const) : ('b' as const),
      }));
      return ends.length > 0 ? [{ kind: { kind: 'part', part: id }, joints, ends }] : [];
    }),
  ];
}

function wires(circuit: AnalysedCircuit): UnplacedItem[] {
  const screens = circuit.joints.filter(({ kind }) => kind === 'screen');
  const tieEnds = screens.flatMap((tie) => [...new Set([tie.a, tie.b])].map((lug) => ({ lug, tie })));
  const tiesAt = groupBy(tieEnds, ({ lug }) => lug);
  return runsOf(circuit).map((run) => {
    const { joint, ownLead } = run;
    const ties = joint.screen === undefined ? [] : (tiesAt.get(joint.screen) ?? []).map(({ tie }) => tie);
    const far = ownLead ? leadEnd(circuit, joint) : undefined;
    const ends: Omit<End, 'item' | 'spot'>[] = [];
    if (far !== joint.a) ends.push({ lug: joint.a, side: 'a' });
    if (far !== joint.b) ends.push({ lug: joint.b, side: 'b' });
    for (const tie of ties) ends.push({ lug: tie.a === joint.screen ? tie.b : tie.a, side: 'screen' });
    return { kind: { kind: ownLead ? 'lead' : 'wire', run }, joints: [joint, ...ties], ends };
  });
}

/** The part in place whose lead this joint is. */
function placedPart(circuit: Circuit, joint: Joint): PartId | undefined {
  if (joint.kind !== 'solder') return undefined;
  const [a, b] = [partOfLug(circuit, joint.a), partOfLug(circuit, joint.b)];
  const own = (part: typeof a, lug: LugId): boolean => part.inPlace && isLead(circuit, part.id, lug);
  return own(b, joint.b) ? b.id : own(a, joint.a) ? a.id : undefined;
}

/** A lead of a two-lead part: its only joint that came with the part's own statement. */
function isLead(circuit: Circuit, part: PartId, lug: LugId): boolean {
  return partById(circuit, part).lugs.includes(lug);
}

/** Lugs bent onto others, by the lug that stands for their spot. Two-lead parts in place have no spot of their own: their lead is an end. */
function spotHomes(circuit: AnalysedCircuit): Map<LugId, LugId> {
  const home = new Map<LugId, LugId>();
  const root = (lug: LugId): LugId => {
    let at = lug;
    for (let next = home.get(at); next !== undefined && next !== at; next = home.get(at)) at = next;
    return at;
  };
  for (const joint of circuit.joints) {
    if (joint.kind !== 'solder') continue;
    const [a, b] = [root(joint.a), root(joint.b)];
    if (a < b) home.set(b, a);
    else if (b < a) home.set(a, b);
  }
  const flattened = new Map<LugId, LugId>();
  for (const lug of home.keys()) flattened.set(lug, root(lug));
  return preferHosts(circuit, flattened);
}

/** A spot bears the name of a lug that stays where it is, not of a small part's lead. */
function preferHosts(circuit: AnalysedCircuit, home: Map<LugId, LugId>): Map<LugId, LugId> {
  const named = new Map<LugId, LugId>();
  for (const [root, bent] of groupBy(home.keys(), (lug) => home.get(lug) ?? lug)) {
    const lugs = [root, ...bent];
    const firm = lugs.find((lug) => hostOf(circuit, lugById(circuit, lug).part).id === lugById(circuit, lug).part) ?? root;
    for (const lug of lugs) named.set(lug, firm);
  }
  return named;
}

/** Cases of controls, covers and bases of pickups, metal plates: solder holds there, a hook does not. */
function isFlat(circuit: Circuit, lug: LugId): boolean {
  const { metal, part, name } = lugById(circuit, lug);
  const { family } = partById(circuit, part);
  return metal && (family === 'control' || family === 'plate' || (family === 'pickup' && name !== 'shield'));
}
