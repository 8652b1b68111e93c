/** Clusters: a part with the two-lead parts that lie between its own lugs, put where their leads are shortest. */
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { firstOf, itemAt, valueFor } from '../../collections.js';
import { boxAround, grid, grow, overlaps, snap } from '../geometry.js';
import { hangingKinds, leadedKinds } from '../diagram/part-kind.js';
import type { Symbol } from '../symbols/symbol.js';
import { symbolsOf } from '../symbols/index.js';
import { linkCost, placedPads, boundsOf, type PlacedSymbol } from '../placed.js';

export interface Cluster {
  /** Id of the part that carries the others. */
  readonly id: string;
  readonly group?: string;
  readonly at?: { readonly x: number; readonly y: number };
  readonly orientations: readonly (readonly PlacedSymbol[])[];
}

/** Room kept between a part and one that hangs on it, so that a wire passes. */
const gap = 2 * grid;
/** Orders of leads that are tried where each needs the small parts placed anew. */
const mostOrientations = 8;

export function createClusters(diagram: Diagram, parts: readonly DiagramPart[]): Cluster[] {
  const partOf = new Map(diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part] as const)));
  const hangsOn = new Map<string, string>();
  for (const part of parts) {
    if (!hangingKinds.has(part.kind) || part.at !== undefined) continue;
    const own = new Set(part.lugs.map((lug) => lug.id));
    const others = diagram.runs
      .filter((run) => own.has(run.from) !== own.has(run.to))
      .map((run) => partOf.get(own.has(run.from) ? run.to : run.from));
    const [host] = others;
    if (!host || others.some((other) => other !== host) || (leadedKinds.has(host.kind) && part.kind !== 'mark')) continue;
    if (parts.includes(host) && host.kind !== 'terminal') hangsOn.set(part.id, host.id);
  }
  return parts
    .filter((part) => !hangsOn.has(part.id))
    .map((part) => {
      const hanging = parts.filter((other) => hangsOn.get(other.id) === part.id);
      return {
        id: part.id,
        orientations: sample(sameShape(symbolsOf(part)), hanging.length === 0 ? Infinity : mostOrientations).map((symbol) =>
          hangOn(diagram, { part, symbol, x: 0, y: 0 }, hanging),
        ),
        ...(part.group === undefined ? {} : { group: part.group }),
        ...(part.at === undefined ? {} : { at: part.at }),
      };
    });
}

/** The orientations that need the same room as the first, so that a part may be turned after the layout. */
function sameShape(symbols: readonly Symbol[]): Symbol[] {
  const isUpright = (symbol: Symbol): boolean => symbol.height > symbol.width;
  const first = firstOf(symbols);
  return symbols.filter((symbol) => isUpright(symbol) === isUpright(first) && Math.abs(symbol.width - first.width) <= 2 * grid);
}

function hangOn(diagram: Diagram, host: PlacedSymbol, hanging: readonly DiagramPart[]): PlacedSymbol[] {
  const placed = [host];
  for (const part of hanging) placed.push(bestPlace(diagram, part, placed, placed, 8));
  return placed;
}

/** The place around what is placed already where the part's leads are shortest, touching nothing of what takes up room. */
export function bestPlace(
  diagram: Diagram,
  part: DiagramPart,
  placed: readonly PlacedSymbol[],
  taken: readonly PlacedSymbol[],
  reach: number,
): PlacedSymbol {
  const around = boundsOf(taken);
  const room = taken.map(({ x, y, symbol }) => grow({ x, y, width: symbol.width, height: symbol.height }, gap));
  const pads = new Map(placed.flatMap((other) => placedPads(other).map((pad) => [pad.lug, pad] as const)));
  const own = new Set(part.lugs.map((lug) => lug.id));
  const links = diagram.runs.flatMap((run) => {
    const [mine, other] = own.has(run.from) ? [run.from, run.to] : [run.to, run.from];
    const pad = pads.get(other);
    return own.has(mine) && pad !== undefined && !own.has(other) ? [{ mine, pad }] : [];
  });
  // Near its leads' other ends first; the whole neighbourhood only where there is no room.
  const ends = boxAround(links.map(({ pad }) => pad));
  const near = links.length === 0 ? around : grow(ends, reach * grid);
  const symbols = symbolsOf(part);
  for (const area of [near, around, grow(around, 40 * grid)]) {
    let best: { readonly cost: number; readonly orientation: PlacedSymbol } | undefined;
    for (const symbol of symbols) {
      const accesses = new Map(symbol.pads.map((pad) => [pad.lug, pad.accesses]));
      for (let x = snap(area.x - symbol.width) - reach * grid; x <= area.x + area.width + reach * grid; x += grid) {
        for (let y = snap(area.y - symbol.height) - reach * grid; y <= area.y + area.height + reach * grid; y += grid) {
          const box = { x, y, width: symbol.width, height: symbol.height };
          let cost =
            (beyond(around.x, around.width, x, symbol.width) + beyond(around.y, around.height, y, symbol.height)) / grid / 4;
          const most = best === undefined ? Infinity : best.cost - 1e-9;
          for (const { mine, pad } of links) if (cost < most) cost += linkCost(valueFor(accesses, mine), pad.accesses, box);
          if (cost < most && !room.some((other) => overlaps(other, box))) best = { cost, orientation: { part, symbol, x, y } };
        }
      }
    }
    if (best) return best.orientation;
  }
  throw new Error(`no room for ${part.id}`);
}

/** By how much a span would have to grow to hold another. */
function beyond(start: number, length: number, otherStart: number, otherLength: number): number {
  return Math.max(0, start - otherStart) + Math.max(0, otherStart + otherLength - start - length);
}

/** At most so many, evenly spread. */
function sample<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, index) => itemAt(items, Math.floor((index * items.length) / most)));
}
