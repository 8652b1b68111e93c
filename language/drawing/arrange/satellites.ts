/** Small parts that are soldered in place: each lies between the two lugs that its statement names, as near to both as there is room. */
import { firstOf, valueFor } from '../../collections.js';
import type { Diagram, DiagramPart } from '../diagram/diagram.js';
import { leadedKinds } from '../diagram/part-kind.js';
import { type Box, boxAround, grid, grow, joinBoxes, snap, type Point } from '../geometry.js';
import type { PlacedSymbol } from '../placed.js';
import { rolesNamed, tokensOf } from '../../roles/index.js';
import { symbolsOf } from '../symbols/index.js';
import { movePad, type Pad, type Symbol } from '../symbols/symbol.js';
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
          ? namedHost(
              part,
              diagram.parts.filter((other) => other.group === part.group && !leadedKinds.has(other.kind)),
            )
          : undefined;
    if (host !== undefined && host.group === part.group && !leadedKinds.has(host.kind) && host.kind !== 'terminal')
      hosts.set(part, host);
  }
  return hosts;
}

/** The part that bears the longest part of a small one's name; for a bleed the volume of the same words, or the only one. */
function namedHost(part: DiagramPart, others: readonly DiagramPart[]): DiagramPart | undefined {
  const longest = others.filter(({ name }) => isCalledAfter(part.name, name)).sort((a, b) => b.name.length - a.name.length)[0];
  if (longest !== undefined || !rolesNamed('passive', part.name).includes('bleed')) return longest;
  const volumes = others.filter(({ kind, name }) => kind.startsWith('pot') && rolesNamed('pot', name)[0] === 'volume');
  const words = tokensOf(part.name).filter((word) => word !== 'bleed');
  const own = words.length === 0 ? volumes : volumes.filter(({ name }) => words.every((word) => tokensOf(name).includes(word)));
  return own.length === 1 ? own[0] : undefined;
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
  const links = [...anchors].flatMap(([own, other]) => {
    const pad = padOf(other, standing.symbols);
    return pad === undefined ? [] : [{ own, ends: pad.look === 'spot' ? pad.accesses.map(({ landing }) => landing) : [pad] }];
  });
  const room = standing.taken.map((box) => grow(box, part.kind === 'mark' ? grid / 2 : gap));
  const symbols = symbolsOf(part);
  const around = within === undefined ? joinBoxes(standing.taken) : middlesWithin(within, firstOf(symbols));
  const ends = links.length === 0 ? around : boxAround(links.flatMap((link) => link.ends));
  for (let reach = within === undefined ? 6 : 0; ; reach = Math.max(6, reach * 2)) {
    const best = bestIn(symbols, links, room, grow(ends, reach * grid));
    if (best !== undefined) return { part, symbol: best.symbol, x: best.x, y: best.y };
  }
}

/** Where a lug lies; undefined where its part has no place yet. */
function padOf(lug: string, symbols: readonly PlacedSymbol[]): Pad | undefined {
  for (const placed of symbols) {
    const pad = placed.symbol.pads.find((one) => one.lug === lug);
    if (pad !== undefined) return movePad(pad, placed);
  }
  return undefined;
}

/** Where the middle of a symbol may lie so that all of it lies in a box. */
function middlesWithin(box: Box, { width, height }: Symbol): Box {
  return {
    x: box.x + width / 2,
    y: box.y + height / 2,
    width: Math.max(0, box.width - width),
    height: Math.max(0, box.height - height),
  };
}

interface Link {
  readonly own: string;
  /** Where the lead may end: at the lug, or anywhere round a larger piece of metal. */
  readonly ends: readonly Point[];
}

function bestIn(symbols: readonly Symbol[], links: readonly Link[], room: readonly Box[], area: Box): Found | undefined {
  let best: Found | undefined;
  const middle: Point = { x: area.x + area.width / 2, y: area.y + area.height / 2 };
  const pull = links.length === 0 ? 1 : 0.05;
  for (const symbol of symbols) {
    const { width, height } = symbol;
    const leads = links.flatMap(({ own, ends }) => symbol.pads.filter(({ lug }) => lug === own).map((pad) => ({ pad, ends })));
    const [left, top] = [snap(area.x - width / 2), snap(area.y - height / 2)];
    const isFree = freeAmong(room, { x: left, y: top, width: area.width + width, height: area.height + height });
    for (let y = top; y <= top + area.height; y += grid) {
      for (let x = left; x <= left + area.width; x += grid) {
        let cost = pull * (Math.abs(x + width / 2 - middle.x) + Math.abs(y + height / 2 - middle.y));
        const most = best === undefined ? Infinity : best.cost - 1e-9;
        if (cost >= most || !isFree(x, y, symbol)) continue;
        for (const { pad, ends } of leads) cost += nearest(x + pad.x, y + pad.y, ends);
        if (cost < most) best = { symbol, x, y, cost };
      }
    }
  }
  return best;
}

interface Found extends Point {
  readonly symbol: Symbol;
  readonly cost: number;
}

/** How far the nearest of some points is. */
function nearest(x: number, y: number, points: readonly Point[]): number {
  let least = Infinity;
  for (const point of points) least = Math.min(least, (point.x - x) ** 2 + (point.y - y) ** 2);
  return Math.sqrt(least);
}

/** Whether a symbol with its corner on a grid point of an area touches none of the boxes; looked up in sums over the area, whatever their number. */
function freeAmong(boxes: readonly Box[], area: Box): (x: number, y: number, size: Size) => boolean {
  const [columns, rows] = [Math.ceil(area.width / grid) + 2, Math.ceil(area.height / grid) + 2];
  const sums = new Int32Array((columns + 1) * (rows + 1));
  const clip = (value: number, most: number): number => Math.min(most, Math.max(0, value));
  const at = (column: number, row: number): number => sums[row * (columns + 1) + column] ?? 0;
  for (const box of boxes) {
    const [from, to] = [
      clip(Math.floor((box.x - area.x) / grid), columns),
      clip(Math.ceil((box.x + box.width - area.x) / grid), columns),
    ];
    const [top, bottom] = [
      clip(Math.floor((box.y - area.y) / grid), rows),
      clip(Math.ceil((box.y + box.height - area.y) / grid), rows),
    ];
    for (let row = top; row < bottom; row++)
      for (let column = from; column < to; column++) sums[(row + 1) * (columns + 1) + column + 1] = 1;
  }
  for (let row = 1; row <= rows; row++) {
    for (let column = 1; column <= columns; column++) {
      const sum = at(column, row) + at(column - 1, row) + at(column, row - 1) - at(column - 1, row - 1);
      sums[row * (columns + 1) + column] = sum;
    }
  }
  return (x, y, { width, height }) => {
    const left = Math.round((x - area.x) / grid);
    const top = Math.round((y - area.y) / grid);
    const right = clip(left + Math.ceil(width / grid), columns);
    const bottom = clip(top + Math.ceil(height / grid), rows);
    return at(right, bottom) - at(left, bottom) - at(right, top) + at(left, top) === 0;
  };
}

type Size = Pick<Box, 'width' | 'height'>;

/** What symbols cover, labels too. */
export function boxesOf(symbols: readonly PlacedSymbol[]): Box[] {
  return symbols.map(({ x, y, symbol }) => ({ x, y, width: symbol.width, height: symbol.height }));
}
