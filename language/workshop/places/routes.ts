/** The shortest way of a wire through plates, cavities and channels, piece by piece, so that each can be listed and corrected. */
import type { Channel, LugId } from '../../circuit/model.js';
import type { Area } from './areas.js';
import type { Places } from './places.js';

/** One stretch of a way. `assumed` where the text gives no measure and a setting stands in. */
export interface Piece {
  readonly what: string;
  readonly metres: number;
  readonly assumed: boolean;
}

/** A way from lug to lug, or why none can be reckoned. */
export type Route =
  | { readonly known: true; readonly pieces: readonly Piece[]; readonly metres: number; readonly channels: readonly Channel[] }
  | { readonly known: false; readonly why: string; readonly channels: readonly Channel[] };

/**
 * The shortest way between two lugs. Wires are dressed square to the plate's edges, so a stretch on one plate is the sum of both
 * differences. From a plate a wire goes down by the depth of its cavity; from a place to a channel's mouth, or between two places of a cavity
 * that are not both measured in it, it counts the cavity's crossing. Channels are taken so that the whole is shortest.
 */
export function routeBetween(places: Places, a: LugId, b: LugId): Route {
  const [from, to] = [places.areaOf(a), places.areaOf(b)];
  const [start, end] = [places.hostOf(places.lug(a).part), places.hostOf(places.lug(b).part)];
  if (start.id === end.id) return known([{ what: `on ${start.name}`, metres: 0, assumed: false }], []);
  if (from.cavity === undefined) return unknown(`the text does not say where ${start.name} is`);
  if (to.cavity === undefined) return unknown(`the text does not say where ${end.name} is`);
  if (from.key === to.key) {
    if (start.at !== undefined && end.at !== undefined) {
      const metres = Math.abs(start.at.x - end.at.x) + Math.abs(start.at.y - end.at.y);
      return known([{ what: `across ${from.name}`, metres, assumed: false }], []);
    }
    return from.kind === 'plate'
      ? unknown(`the text does not say where ${start.at === undefined ? start.name : end.name} is on ${from.name}`)
      : known([crossing(places, from.cavity)], []);
  }
  const route = shortestRoute(places, from.cavity, to.cavity);
  if (route === undefined) {
    const loose = places.channels.find((channel) => channel.length === undefined);
    return unknown(
      loose === undefined
        ? `no channel leads from ${from.cavity} to ${to.cavity}`
        : `the channel from ${loose.from} to ${loose.to} has no length`,
    );
  }
  const pieces: Piece[] = [...down(places, from)];
  let at = from.cavity;
  for (const { channel, metres } of route) {
    pieces.push(crossing(places, at));
    pieces.push({ what: `channel ${channel.from} to ${channel.to}`, metres, assumed: false });
    at = otherEnd(channel, at);
  }
  pieces.push(crossing(places, at), ...down(places, to));
  return known(
    pieces,
    route.map(({ channel }) => channel),
  );
}

/** How far each cavity lies from another along the channels, in metres; absent where no way leads. */
export function distancesFrom(places: Places, cavity: string): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const { name } of places.cavities) {
    const route = shortestRoute(places, cavity, name, true);
    if (route !== undefined) found.set(name, lengthOf(places, cavity, route));
  }
  return found;
}

function crossing({ widthOf }: Places, cavity: string): Piece {
  return { what: `across ${cavity}`, metres: widthOf(cavity), assumed: true };
}

function down({ settings, depthOf }: Places, area: Area): Piece[] {
  if (area.kind !== 'plate') return [];
  const depth = depthOf(area.cavity);
  return [{ what: `from ${area.name} down`, metres: depth ?? settings.depth, assumed: depth === undefined }];
}

function known(pieces: readonly Piece[], channels: readonly Channel[]): Route {
  return { known: true, pieces, metres: pieces.reduce((sum, piece) => sum + piece.metres, 0), channels };
}

function unknown(why: string): Route {
  return { known: false, why, channels: [] };
}

function lengthOf(places: Places, from: string, route: readonly Passage[]): number {
  let at = from;
  let sum = 0;
  for (const { channel, metres } of route) {
    sum += crossing(places, at).metres + metres;
    at = otherEnd(channel, at);
  }
  return sum;
}

function otherEnd({ from, to }: Channel, cavity: string): string {
  return from === cavity ? to : from;
}

/** A channel of a route with the length that is counted for it: the shop's crossing where it declares none. */
interface Passage {
  readonly channel: Channel;
  readonly metres: number;
}

/** Dijkstra over cavities: E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959. `any` takes channels without a length, too. */
function shortestRoute(places: Places, from: string, to: string, any = false): readonly Passage[] | undefined {
  interface Reached {
    readonly cavity: string;
    readonly metres: number;
    readonly route: readonly Passage[];
  }
  const best = new Map<string, Reached>([[from, { cavity: from, metres: 0, route: [] }]]);
  const done = new Set<string>();
  for (;;) {
    let here: Reached | undefined;
    for (const reached of best.values())
      if (!done.has(reached.cavity) && (here === undefined || reached.metres < here.metres)) here = reached;
    if (here === undefined) return undefined;
    const { cavity, metres, route } = here;
    if (cavity === to) return route;
    done.add(cavity);
    const step = crossing(places, cavity).metres;
    for (const channel of places.channelsAt(cavity)) {
      if (channel.length === undefined && !any) continue;
      const next = otherEnd(channel, cavity);
      const length = channel.length ?? places.settings.crossing;
      const total = metres + step + length;
      if (total < (best.get(next)?.metres ?? Infinity))
        best.set(next, { cavity: next, metres: total, route: [...route, { channel, metres: length }] });
    }
  }
}
