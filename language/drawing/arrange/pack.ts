/** Units of one level put nearer to each other and into a page's shape: what a layout in columns makes too wide. Cavities with a channel between them end up facing. */
import { bandWidth, facing } from '../channels.js';
import type { Diagram } from '../diagram/diagram.js';
import { pairwise, valueFor } from '../../collections.js';
import { type Box, crosses, grid, joinBoxes, overlaps, type Point, snap } from '../geometry.js';
import type { LayoutResult } from '../layout.js';
import { cavityDistances } from './graph.js';
import type { Passages } from './passage.js';
import { middleOf } from '../placed.js';
import type { Unit } from './unit.js';

/** In grid steps of wire: a likely crossing; a step of the picture's size on a page; a step against the reading order; a channel that cannot run straight. */
const prices = { crossing: 10, size: 1.2, order: 2, bentChannel: 150 } as const;
const pageShape = 4 / 3;
/** Room between units, and between cavities for what is written on their channel. */
const gaps = { unit: 4 * grid, group: 5 * grid, channel: 7 * grid } as const;
const rounds = 6;
/** Places that are looked at closely for a unit in a round. */
const shortlist = 24;

interface Wire {
  readonly from: Unit;
  readonly to: Unit;
  /** From the corners of the two units. */
  readonly start: Point;
  readonly end: Point;
  /** The channels on its route. */
  readonly channels: readonly string[];
}

export function pack(diagram: Diagram, units: readonly Unit[], start: LayoutResult, passages: Passages): LayoutResult {
  const packing = new Packing(diagram, units, start, passages);
  for (let round = 0; round < rounds; round++) if (!packing.improve()) break;
  return packing.places();
}

interface PackedChannel {
  readonly id: string;
  readonly from: Unit;
  readonly to: Unit;
  readonly width: number;
}

class Packing {
  readonly #units: readonly Unit[];
  readonly #wires: readonly Wire[];
  readonly #channels: readonly PackedChannel[];
  /** How many channels lie between a cavity and the jack's. */
  readonly #far: ReadonlyMap<string, number>;
  readonly #places: Map<Unit, Point>;

  constructor(diagram: Diagram, units: readonly Unit[], start: LayoutResult, passages: Passages) {
    const byId = new Map(units.map((unit) => [unit.id, unit]));
    this.#units = units;
    this.#wires = wiresBetween(diagram, units, passages);
    this.#channels = diagram.channels.flatMap((channel) => {
      const [from, to] = [byId.get(channel.from), byId.get(channel.to)];
      return from && to ? [{ id: channel.id, from, to, width: bandWidth(passages.loads.get(channel.id) ?? 0) }] : [];
    });
    this.#far = cavityDistances(diagram, units);
    this.#places = new Map(units.map((unit) => [unit, valueFor(start, unit.id)]));
  }

  places(): LayoutResult {
    return new Map([...this.#places].map(([unit, place]) => [unit.id, place]));
  }

  /** Moves one unit after the other to its cheapest place; false where none has moved. */
  improve(): boolean {
    let isChanged = false;
    for (const unit of this.#units) {
      const now = valueFor(this.#places, unit);
      const best = this.#bestPlace(unit, now);
      this.#places.set(unit, best);
      isChanged ||= best !== now;
    }
    return isChanged;
  }

  #bestPlace(unit: Unit, now: Point): Point {
    const isFree = this.#clearance(unit);
    const candidates = candidatesFor(unit, this.#units, this.#boxOf, this.#gapOf)
      .filter(isFree)
      .map((place) => {
        this.#places.set(unit, place);
        return { place, cost: this.#roughCost(unit) };
      });
    this.#places.set(unit, now);
    const stay = isFree(now) ? this.#roughCost(unit) + prices.crossing * this.#crossings(unit) - 1 : Infinity;
    let best = { place: now, cost: stay };
    candidates.sort((a, b) => a.cost - b.cost || a.place.x - b.place.x || a.place.y - b.place.y);
    for (const { place, cost } of candidates.slice(0, shortlist)) {
      this.#places.set(unit, place);
      const whole = cost + prices.crossing * this.#crossings(unit);
      if (whole < best.cost) best = { place, cost: whole };
    }
    return best.place;
  }

  /** What hangs on one unit's place, but for crossings. */
  #roughCost(unit: Unit): number {
    let cost = 0;
    const bores = new Map(
      this.#channels.map(({ id, from, to, width }) => {
        const [a, b] = [this.#boxOf(from), this.#boxOf(to)];
        return [id, middle(boreOf(a, b, width) ?? joinBoxes([a, b]))];
      }),
    );
    for (const wire of this.#wires) {
      if (wire.channels.length === 0 && wire.from !== unit && wire.to !== unit) continue;
      const stops = [
        this.#at(wire.from, wire.start),
        ...wire.channels.flatMap((id) => bores.get(id) ?? []),
        this.#at(wire.to, wire.end),
      ];
      for (const [a, b] of pairwise(stops)) cost += (Math.abs(a.x - b.x) + Math.abs(a.y - b.y)) / grid;
    }
    const sheet = joinBoxes(this.#units.map(this.#boxOf));
    cost +=
      (prices.size * (Math.max(sheet.width / pageShape, sheet.height) * 2 + sheet.width / pageShape + sheet.height)) / 4 / grid;
    const [order, box] = [this.#orderOf(unit), this.#boxOf(unit)];
    for (const other of this.#units)
      cost += (prices.order * againstOrder(order - this.#orderOf(other), box, this.#boxOf(other))) / grid;
    for (const { from, to, width } of this.#channels) cost += channelCost(this.#units, this.#boxOf, from, to, width);
    return cost;
  }

  #crossings(unit: Unit): number {
    const lines = this.#wires.map((wire) => ({
      wire,
      a: this.#at(wire.from, wire.start),
      b: this.#at(wire.to, wire.end),
    }));
    let count = 0;
    for (const { wire, a, b } of lines) {
      if (wire.from !== unit && wire.to !== unit) continue;
      for (const other of lines) if (other.wire !== wire && crosses(a, b, other.a, other.b)) count += 1;
    }
    return count;
  }

  /** Whether a unit may stand at a place, while the others stay where they are. */
  #clearance(unit: Unit): (place: Point) => boolean {
    const others = this.#units
      .filter((other) => other !== unit)
      .map((other) => {
        const [{ x, y, width, height }, gap] = [this.#boxOf(other), this.#gapOf(unit, other)];
        return { left: x - gap - unit.width, right: x + width + gap, top: y - gap - unit.height, bottom: y + height + gap };
      });
    return ({ x, y }) => others.every((box) => x <= box.left || x >= box.right || y <= box.top || y >= box.bottom);
  }

  #orderOf(unit: Unit): number {
    const channelsAway = this.#far.get(unit.id);
    return channelsAway === undefined ? rankOf(unit) : 2 - channelsAway;
  }

  readonly #boxOf = (unit: Unit): Box => ({ ...valueFor(this.#places, unit), width: unit.width, height: unit.height });

  readonly #gapOf = (a: Unit, b: Unit): number => {
    if (this.#channels.some(({ from, to }) => (from === a && to === b) || (from === b && to === a))) return gaps.channel;
    return a.isGroup || b.isGroup ? gaps.group : gaps.unit;
  };

  #at(unit: Unit, point: Point): Point {
    const { x, y } = valueFor(this.#places, unit);
    return { x: x + point.x, y: y + point.y };
  }
}

function wiresBetween(diagram: Diagram, units: readonly Unit[], passages: Passages): readonly Wire[] {
  const unitOf = new Map(units.flatMap((unit) => [...unit.pads.keys()].map((lug) => [lug, unit] as const)));
  return diagram.runs.flatMap((run): Wire[] => {
    const [from, to] = [unitOf.get(run.from), unitOf.get(run.to)];
    if (!from || !to || from === to) return [];
    const [start, end] = [middleOf(valueFor(from.pads, run.from)), middleOf(valueFor(to.pads, run.to))];
    return [{ from, to, start, end, channels: passages.bound.get(run.id) ?? [] }];
  });
}

/** Places beside every other unit: at each of its four sides, in line with one of its edges or its middle, or with the edge of a third. */
function candidatesFor(
  unit: Unit,
  units: readonly Unit[],
  boxOf: (unit: Unit) => Box,
  gapOf: (a: Unit, b: Unit) => number,
): Point[] {
  const others = units.filter((other) => other !== unit);
  const inLine = (start: number, length: number, own: number): number[] => [
    start,
    snap(start + (length - own) / 2),
    start + length - own,
  ];
  const xs = others.flatMap((other) => inLine(boxOf(other).x, other.width, unit.width));
  const ys = others.flatMap((other) => inLine(boxOf(other).y, other.height, unit.height));
  const found = new Map<string, Point>();
  const add = (x: number, y: number): void => void found.set(`${x} ${y}`, { x, y });
  for (const other of others) {
    const [box, gap] = [boxOf(other), gapOf(unit, other)];
    for (const y of ys) for (const x of [box.x - gap - unit.width, box.x + box.width + gap]) add(x, y);
    for (const x of xs) for (const y of [box.y - gap - unit.height, box.y + box.height + gap]) add(x, y);
  }
  return [...found.values()];
}

/** By how far two boxes stand against the order of reading, which is from left to right or from above downwards. */
function againstOrder(difference: number, a: Box, b: Box): number {
  if (difference === 0) return 0;
  const [first, second] = difference < 0 ? [middle(a), middle(b)] : [middle(b), middle(a)];
  return Math.max(0, -Math.max(second.x - first.x, second.y - first.y));
}

function middle(box: Box): Point {
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** What lies under the strings first, the jack last. */
export function rankOf({ kinds }: { readonly kinds: ReadonlySet<string> }): number {
  if (kinds.has('jack')) return 2;
  return ['pickup', 'humbucker', 'bridge'].some((kind) => kinds.has(kind)) ? 0 : 1;
}

/** A channel costs its length, and much where it has to bend or would run through what lies between. */
function channelCost(units: readonly Unit[], boxOf: (unit: Unit) => Box, from: Unit, to: Unit, width: number): number {
  const [a, b] = [boxOf(from), boxOf(to)];
  const bore = boreOf(a, b, width);
  if (!bore) return prices.bentChannel + (Math.abs(a.x - b.x) + Math.abs(a.y - b.y)) / grid;
  const isBlocked = units.some((unit) => unit !== from && unit !== to && overlaps(bore, boxOf(unit)));
  return (isBlocked ? prices.bentChannel : 0) + (2 * Math.min(bore.width, bore.height)) / grid;
}

/** The straight band between two boxes that face each other by its width. */
function boreOf(a: Box, b: Box, width: number): Box | undefined {
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  const [upper, lower] = a.y <= b.y ? [a, b] : [b, a];
  const y = facing([a.y + grid, a.y + a.height - grid], [b.y + grid, b.y + b.height - grid], width);
  if (y !== undefined && left.x + left.width <= right.x)
    return { x: left.x + left.width, y: y - width / 2, width: right.x - left.x - left.width, height: width };
  const x = facing([a.x + grid, a.x + a.width - grid], [b.x + grid, b.x + b.width - grid], width);
  if (x !== undefined && upper.y + upper.height <= lower.y)
    return { x: x - width / 2, y: upper.y + upper.height, width, height: lower.y - upper.y - upper.height };
  return undefined;
}
