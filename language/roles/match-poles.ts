/** Usual practice for switches: the poles of one compared with the patterns for its role, whichever pole and whichever throw comes first. */
import { type AnalysedCircuit, partById } from '../circuit/model.js';
import { firstOf, itemAt } from '../collections.js';
import { polesOf } from '../electrics/index.js';
import { connectionOf, type Connected, type Connection } from './connections.js';
import { fit, isAlike, nearest, type PracticeMatch } from './fit.js';
import { PRACTICE } from './generated/practice.js';
import type { PolePattern, PolesPattern } from './practice-table.js';
import type { RoleWord, Unit } from './role.js';

interface SeenPole {
  readonly common?: Connected;
  readonly throws: readonly Connected[];
}

/** On a switch with more throws or poles any throw may carry what any throw of the pattern carries: which position sounds what is the builder's choice. */
const mostThrows = 3;
const mostPoles = 2;

/** Roles whose patterns a switch may have as well: names and positions alone don't tell a split from what else is done with two coils. */
const kin: Partial<Readonly<Record<RoleWord, readonly RoleWord[]>>> = {
  parallel: ['series'],
  split: ['tap', 'series'],
  circuit: ['series'],
};

/**
 * The patterns that a switch in a role is nearest to: one of several poles together, or one for each pole that is in use, as where one switch splits
 * two pickups. Empty for a switch of which nothing is wired, and for a role without patterns.
 */
export function matchPoles(circuit: AnalysedCircuit, unit: Unit, role: RoleWord): readonly PracticeMatch<PolesPattern>[] {
  const poles = seenPoles(circuit, unit);
  const used = poles.filter(isInUse);
  if (used.length === 0) return [];
  const patterns = [role, ...(kin[role] ?? [])].flatMap((word) => PRACTICE.poles.filter((pattern) => pattern.role === word));
  const single = patterns.filter((pattern) => pattern.poles.length === 1);
  const { ancestry } = partById(circuit, unit.part);
  const onPoles = (pattern: PolesPattern, chosen: readonly SeenPole[]): readonly PracticeMatch<PolesPattern>[] =>
    fitPoles(pattern, chosen, isLarge(poles)).map((match) => ({
      ...match,
      loose: match.loose + distance(ancestry, pattern.type),
    }));
  const rests = (others: readonly SeenPole[]): readonly PracticeMatch<PolesPattern>[] =>
    others.flatMap((pole) => nearest(single.flatMap((pattern) => onPoles(pattern, [pole]))) ?? []);
  const together = patterns
    .filter((pattern) => pattern.poles.length > 1)
    .flatMap((pattern) =>
      choices(poles, pattern.poles.length).flatMap((chosen) => {
        const others = rests(used.filter((pole) => !chosen.includes(pole)));
        return onPoles(pattern, chosen).map((match) => [match, ...others]);
      }),
    );
  const ways = [...together, rests(used)].map((matches) => ({
    matches,
    departs: [...matches.flatMap(({ departs }) => departs), ...wired(used, matches)],
    loose: matches.reduce((sum, match) => sum + match.loose, 0),
  }));
  return nearest(ways)?.matches ?? [];
}

/** Steps between types: none, one where the first word is the same (`lever-3`, `lever-5`), else two. */
function distance(ancestry: readonly string[], type: string): number {
  if (ancestry.includes(type)) return 0;
  const family = (name: string): string => name.replace(/-.*/, '');
  return ancestry.some((name) => family(name) === family(type)) ? 1 : 2;
}

/** The poles of a switch that are in use, as a pattern. On a large switch only what the throws carry counts, and poles that are then alike are one. */
export function polesPattern(circuit: AnalysedCircuit, unit: Unit): Pick<PolesPattern, 'poles' | 'isLarge'> {
  const seen = seenPoles(circuit, unit);
  const poles = seen.filter(isInUse).map(({ common, throws }) => ({
    ...(common === undefined ? {} : { common: common.is }),
    throws: throws.map(({ is }) => is),
  }));
  if (!isLarge(seen)) return { poles };
  const keyOf = ({ common, throws }: PolePattern): string => [common, ...[...new Set(throws)].sort()].join();
  return { poles: [...new Map(poles.map((pole) => [keyOf(pole), pole])).values()], isLarge: true };
}

function seenPoles(circuit: AnalysedCircuit, unit: Unit): readonly SeenPole[] {
  if (unit.kind !== 'switch') return [];
  const see = (lug: Connected['lug']): Connected => ({ lug, is: connectionOf(circuit, lug) });
  return polesOf(circuit)
    .filter(({ device }) => device.id === unit.switch)
    .map(({ common, throws }) => ({ ...(common === undefined ? {} : { common: see(common) }), throws: throws.map(see) }));
}

function isLarge(poles: readonly SeenPole[]): boolean {
  return poles.length > mostPoles || poles.some(({ throws }) => throws.length > mostThrows);
}

function isInUse({ common, throws }: SeenPole): boolean {
  return [...(common === undefined ? [] : [common]), ...throws].some(({ is }) => is !== 'bare');
}

/** Wired lugs of the poles that no match speaks of. */
function wired(used: readonly SeenPole[], matches: readonly PracticeMatch[]): PracticeMatch['departs'] {
  const known = new Set(matches.flatMap(({ lugs }) => lugs));
  return used
    .flatMap(({ common, throws }) => [...(common === undefined ? [] : [common]), ...throws])
    .flatMap(({ lug, is }) => (is === 'bare' || known.has(lug) ? [] : [{ lug, is, usually: 'bare' }]));
}

/** A pattern on these poles, few throws in every order; none where the poles are of another form. */
function fitPoles(pattern: PolesPattern, poles: readonly SeenPole[], large: boolean): readonly PracticeMatch<PolesPattern>[] {
  const usual = poles.map((_, index) => itemAt(pattern.poles, index));
  if (pattern.isLarge === true && !large) return [];
  if (poles.some(({ common }, index) => (common === undefined) !== (itemAt(usual, index).common === undefined))) return [];
  const ofCommons = poles.flatMap(({ common }, index) => {
    const usually = itemAt(usual, index).common;
    return common === undefined || usually === undefined ? [] : [[common, usually] as const];
  });
  const fitThrows = (
    choose: (one: Connected, at: number, throws: readonly Connection[]) => Connection,
  ): PracticeMatch<PolesPattern> =>
    fit(pattern, [
      ...ofCommons,
      ...poles.flatMap(({ throws }, index) =>
        throws.map((one, at) => [one, choose(one, at, itemAt(usual, index).throws)] as const),
      ),
    ]);
  if (large) return usual.every(({ throws }) => throws.length > 2) ? [fitThrows((one, _, throws) => nearestOf(one, throws))] : [];
  const count = poles[0]?.throws.length ?? 0;
  if (poles.some(({ throws }, index) => throws.length !== count || itemAt(usual, index).throws.length !== count)) return [];
  const inOrder = Array.from({ length: count }, (_, index) => index);
  return choices(inOrder, count).map((order) => {
    const match = fitThrows((_, at, throws) => itemAt(throws, itemAt(order, at)));
    // The order of the pattern, or its reverse, is likelier than another.
    const isMixed = order.some((from, at) => from !== at) && order.some((from, at) => from !== count - 1 - at);
    return isMixed ? { ...match, loose: match.loose + 1 } : match;
  });
}

/** Of several connections the one that a lug is most like. */
function nearestOf(one: Connected, several: readonly Connection[]): Connection {
  return several.find((usually) => usually === one.is) ?? several.find((usually) => isAlike(one.is, usually)) ?? firstOf(several);
}

/** Every way to take so many of the items, in every order. */
function choices<T>(items: readonly T[], count: number): readonly (readonly T[])[] {
  if (count === 0) return [[]];
  return items.flatMap((item) =>
    choices(
      items.filter((other) => other !== item),
      count - 1,
    ).map((rest) => [item, ...rest]),
  );
}
