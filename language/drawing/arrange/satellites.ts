/** Small parts that are soldered in place: each lies between the two lugs that its statement names, as near to both as there is room. */
import { valueFor } from '../../collections.js';
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { leadedKinds } from '../diagram/part-kind.js';
import { type Box, boxAround, grid, grow, joinBoxes, overlaps, snap, type Point } from '../geometry.js';
import { linkCost, placedPads, type PlacedSymbol } from '../placed.js';
import { symbolsOf } from '../symbols/index.js';
import type { Pad } from '../symbols/symbol.js';
import { isCalledAfter } from './stations.js';

/** The other lugs to which a part's own leads are soldered by its own statement, by the ids of its lugs. */
export type Anchors = ReadonlyMap<string, string>;

export function anchorsOf(diagram: Diagram): ReadonlyMap<DiagramPart, Anchors> {
  const owner = new Map(diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part] as const)));
  const anchors = new Map<DiagramPart, Map<string, string>>();
  for (const { kind, from, to } of diagram.runs) {
    if (kind !== 'lead' && kind !== 'ground') continue;
    for (const [own, other] of [
      [from, to],
      [to, from],
    ] as const) {
      const part = owner.get(own);
      if (part === undefined || owner.get(other) === part) continue;
      if (part.kind !== 'mark' && !(part.inPlace && leadedKinds.has(part.kind))) continue;
      const known = anchors.get(part) ?? new Map<string, string>();
      anchors.set(part, known);
      known.set(own, other);
    }
  }
  return anchors;
}

/** By small parts, the part at which they lie: both leads end there, or they bear its name and are wired like any part. */
export function hostsOf(diagram: Diagram, anchors: ReadonlyMap<DiagramPart, Anchors>): ReadonlyMap<DiagramPart, DiagramPart> {
  const owner = new Map(diagram.parts.flatMap((part) => part.lugs.map((lug) => [lug.id, part] as const)));
  const hosts = new Map<DiagramPart, DiagramPart>();
  for (const part of diagram.parts) {
    if (!leadedKinds.has(part.kind) || part.at !== undefined) continue;
    const ends = new Set([...(anchors.get(part)?.values() ?? [])].map((lug) => valueFor(owner, lug)));
    const [end] = ends;
    const host =
      ends.size === 1
        ? end
        : ends.size === 0
          ? diagram.parts
              .filter(
                (other) => other.group === part.group && !leadedKinds.has(other.kind) && isCalledAfter(part.name, other.name),
              )
              .sort((a, b) => b.name.length - a.name.length)[0]
          : undefined;
    if (host !== undefined && host.group === part.group && !leadedKinds.has(host.kind) && host.kind !== 'terminal')
      hosts.set(part, host);
  }
  return hosts;
}

/** Room kept between a small part and others, so that a wire passes. */
const gap = 1.5 * grid;

/** What stands already: its symbols, and whatever else must stay free. */
export interface Standing {
  readonly symbols: readonly PlacedSymbol[];
  readonly taken: readonly Box[];
}

/** The place among what stands where the leads are shortest; near the middle of what stands, or of `within`, where it has none. Of several, the one farthest up and to the left. */
export function placeBetween(part: DiagramPart, anchors: Anchors, standing: Standing, within?: Box): PlacedSymbol {
  const pads = new Map(standing.symbols.flatMap((placed) => placedPads(placed).map((pad) => [pad.lug, pad] as const)));
  const links = [...anchors].flatMap(([own, other]) => {
    const pad = pads.get(other);
    return pad === undefined ? [] : [{ own, pad }];
  });
  const room = standing.taken.map((box) => grow(box, part.kind === 'mark' ? grid / 2 : gap));
  const around = within ?? joinBoxes(standing.taken);
  const ends = links.length === 0 ? around : boxAround(links.map(({ pad }) => pad));
  for (let reach = 6; ; reach *= 2) {
    const best = bestIn(part, links, room, grow(ends, reach * grid));
    if (best !== undefined) return best;
  }
}

interface Link {
  readonly own: string;
  readonly pad: Pad;
}

function bestIn(part: DiagramPart, links: readonly Link[], room: readonly Box[], area: Box): PlacedSymbol | undefined {
  let best: { readonly cost: number; readonly place: PlacedSymbol } | undefined;
  const near = room.filter((box) => overlaps(box, grow(area, 12 * grid)));
  const middle: Point = { x: area.x + area.width / 2, y: area.y + area.height / 2 };
  for (const symbol of symbolsOf(part)) {
    const accesses = new Map(symbol.pads.map((pad) => [pad.lug, pad.accesses]));
    const [left, top] = [snap(area.x - symbol.width / 2), snap(area.y - symbol.height / 2)];
    for (let y = top; y <= top + area.height; y += grid) {
      for (let x = left; x <= left + area.width; x += grid) {
        const box = { x, y, width: symbol.width, height: symbol.height };
        const away = Math.abs(x + symbol.width / 2 - middle.x) + Math.abs(y + symbol.height / 2 - middle.y);
        let cost = (links.length === 0 ? 1 : 0.05) * (away / grid);
        for (const { own, pad } of links) cost += linkCost(valueFor(accesses, own), pad.accesses, box);
        if (best !== undefined && cost >= best.cost - 1e-9) continue;
        if (!near.some((other) => overlaps(other, box))) best = { cost, place: { part, symbol, x, y } };
      }
    }
  }
  return best?.place;
}

/** What symbols cover, labels too. */
export function boxesOf(symbols: readonly PlacedSymbol[]): Box[] {
  return symbols.map(({ x, y, symbol }) => ({ x, y, width: symbol.width, height: symbol.height }));
}
