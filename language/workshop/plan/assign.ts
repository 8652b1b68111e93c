/** In which stage each end is soldered: at the bench with the plate off the body, or later in the body. */
import type { LugId } from '../../circuit/model.js';
import { firstOf, itemAt, valueFor } from '../../collections.js';
import type { Build } from '../build.js';
import { fewestReheats, type Conflict } from './heats.js';
import { isBench } from '../places/areas.js';
import type { Places } from '../places/places.js';
import type { End, Item, Spot, SpotId, Work } from './work.js';

export type Phase = 'bench' | 'body';

export interface Assignment {
  phaseOf(end: End): Phase;
  /** Flat spots that are heated once more than once, and how many such heats there are. */
  readonly reheated: readonly SpotId[];
  readonly reheats: number;
  /** No order that keeps the rules has fewer. */
  readonly bound: number;
}

/** Lugs of a part that a small part soldered across it covers: those between its two leads in one row. */
export function hiddenBy(places: Places, item: Item): readonly LugId[] {
  if (item.kind !== 'part' || item.ends.length < 2) return [];
  const [a, b] = [firstOf(item.ends).lug, itemAt(item.ends, 1).lug];
  const part = places.partAt(a);
  if (part !== places.partAt(b)) return [];
  return part.rows.flatMap((row) => {
    const [from, to] = [row.indexOf(a), row.indexOf(b)].sort((x, y) => x - y) as [number, number];
    return from < 0 ? [] : row.slice(from + 1, to).filter((lug) => lug !== null);
  });
}

/**
 * Ends of what never leaves a plate are soldered at the bench. A pickup's own lead comes in the body. Of a wire that leaves a plate one end, at most,
 * is soldered at the bench; which one is chosen so that flat metal (a pot's case) is heated as seldom as can be: a spot whose other ends all come
 * in one stage wants this end in the same one, and where two such spots want the same wire, `fewestReheats` says who gives way.
 */
export function assign(build: Build): Assignment {
  const { work } = build;
  const { spots, items } = work;
  const phases = new Map<End, Phase>();
  const at = (spot: Spot): readonly End[] => work.endsAt(spot.id);
  const late = lateParts(build, work);
  const fixed = (end: End): Phase | undefined => {
    const item = work.item(end.item);
    const onPickup = item.kind === 'lead' ? undefined : item.ends.find((one) => work.spot(one.spot).area.kind === 'pickup');
    if (onPickup !== undefined) return end === onPickup || item.inside ? 'bench' : 'body';
    if (!isBench(work.spot(end.spot).area) || item.kind === 'lead' || late.has(item)) return 'body';
    return item.inside ? 'bench' : undefined;
  };
  const leader = (end: End): End | undefined => (end.side === 'screen' ? beside(work, end) : end);
  // A screen is tied when the end of its wire beside it is, so what its lug wants is wanted of that end.
  const open = (end: End): boolean => fixed(end) === undefined && leader(end) !== undefined;
  const { wanted, split } = wantedPhases(work, { fixed, leader, open });
  const cover = fewestReheats(items.flatMap(conflictsOf));
  for (const item of items) assignItem(item);
  const reheated = spots.filter((spot) => spot.flat && new Set(at(spot).map((end) => phases.get(end))).size > 1);
  return {
    phaseOf: (end) => valueFor(phases, end),
    reheated: reheated.map(({ id }) => id),
    reheats: reheated.length,
    bound: split.size + cover.bound,
  };

  /** Two lugs that want the bench by two ends of one wire, or one end at the bench and in the body. */
  function conflictsOf(item: Item): Conflict[] {
    const claims = item.ends.filter((end) => open(end) && wanted.has(end.spot));
    return claims.flatMap((one, i) =>
      claims.slice(i + 1).flatMap((other): Conflict[] => {
        const wants = [wanted.get(one.spot), wanted.get(other.spot)];
        const isOneEnd = leader(one) === leader(other);
        const clash = isOneEnd ? wants[0] !== wants[1] : wants.every((phase) => phase === 'bench');
        return clash && one.spot !== other.spot ? [[one.spot, other.spot]] : [];
      }),
    );
  }

  function assignItem(item: Item): void {
    const wants = (end: End, phase: Phase, firmly: boolean): boolean =>
      item.ends.some(
        (one) => open(one) && leader(one) === end && wanted.get(one.spot) === phase && !(firmly && cover.chosen.has(one.spot)),
      );
    const free = item.ends.filter((end) => end.side !== 'screen' && open(end));
    const first =
      free.find((end) => wants(end, 'bench', true) && !wants(end, 'body', true)) ??
      free.find((end) => wants(end, 'bench', false) && !wants(end, 'body', true)) ??
      free.find((end) => !wants(end, 'body', false));
    for (const end of item.ends) phases.set(end, fixed(end) ?? (end === first ? 'bench' : 'body'));
    for (const tie of item.ends.filter(({ side }) => side === 'screen')) {
      const end = leader(tie);
      if (end !== undefined) phases.set(tie, valueFor(phases, end));
    }
  }
}

/** What the spots go by: where an end must be soldered, if it must, the end that decides for it, and whether it is free to choose. */
interface Rules {
  fixed(this: void, end: End): Phase | undefined;
  leader(this: void, end: End): End | undefined;
  open(this: void, end: End): boolean;
}

/** The one stage in which each flat spot of the bench wants its ends, and the spots that are heated in both whatever is chosen. */
function wantedPhases(
  work: Work,
  { fixed, leader, open }: Rules,
): { readonly wanted: ReadonlyMap<SpotId, Phase>; readonly split: ReadonlySet<SpotId> } {
  const wanted = new Map<SpotId, Phase>();
  const split = new Set<SpotId>();
  const flat = work.spots.filter((spot) => spot.flat && isBench(spot.area));
  for (const spot of flat) {
    const [phase, other] = new Set(work.endsAt(spot.id).flatMap((end) => (open(end) ? [] : [fixed(end) ?? 'body'])));
    if (other !== undefined) split.add(spot.id);
    else if (phase !== undefined) wanted.set(spot.id, phase);
  }
  // A spot that nothing binds takes one stage for all: the bench, unless a bound spot at the other end needs it there.
  for (const spot of flat.filter(({ id }) => !wanted.has(id) && !split.has(id))) {
    const mine = work.endsAt(spot.id).filter(open);
    const of = ({ item }: End): readonly End[] => work.item(item).ends;
    const rivals = mine.flatMap((end) => of(end).filter((other) => open(other) && leader(other) !== leader(end)));
    const allies = mine.flatMap((end) => of(end).filter((other) => other !== end && leader(other) === leader(end)));
    const isLate =
      rivals.some((end) => wanted.get(end.spot) === 'bench') || allies.some((end) => wanted.get(end.spot) === 'body');
    wanted.set(spot.id, isLate ? 'body' : 'bench');
  }
  return { wanted, split };
}

/** The end of a wire beside which its screen is tied: the one in the same place of work. */
function beside({ spot, item }: Work, tie: End): End | undefined {
  const { key } = spot(tie.spot).area;
  return item(tie.item).ends.find((end) => end.side !== 'screen' && spot(end.spot).area.key === key);
}

/** Small parts that wait for the body stage, since a lug that they cover gets its last wire only there. */
function lateParts(places: Places, { items, spots, item: itemOf, endsAt }: Work): Set<Item> {
  return new Set(
    items.filter((item) => {
      const hidden = hiddenBy(places, item);
      if (hidden.length === 0) return false;
      const covered = spots.filter((spot) => spot.lugs.some((lug) => hidden.includes(lug)));
      return covered.some(({ id }) =>
        endsAt(id)
          .map((end) => itemOf(end.item))
          .some((other) => other.kind === 'lead' || !other.inside),
      );
    }),
  );
}
