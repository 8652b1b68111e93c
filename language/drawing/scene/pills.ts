/** The label of a wire: its number and the letters of its colour in a small pill on the wire itself, where it covers nothing else. */
import { pairwise } from '../../collections.js';
import { BoxIndex, boxesAlong, indexOf } from '../box-index.js';
import { type Box, boxAround, crosses, grow, holds, meets, overlaps, type Point } from '../geometry.js';
import type { RoutedWire } from '../router/wires.js';
import { pillBox, type Label } from '../shape.js';
import { textHeight, textWidth } from '../text-measure.js';
import { flattened } from '../wire-path.js';

export interface Pills {
  /** By id of wire. */
  readonly labels: ReadonlyMap<string, readonly Label[]>;
  /** By id of wire, a line from a pill that stands apart to the wire that it names. */
  readonly leaders: ReadonlyMap<string, readonly [Point, Point]>;
  /** Wires for which there was no room. */
  readonly missing: readonly string[];
}

const style = { size: 11, bold: true } as const;
/** A longer wire, or one through a channel, bears a pill near each end. */
const longWire = 500;
const fromEnd = 90;
/** From one place that is tried to the next, along the wire. */
const step = 4;
/** From a wire's middle line to the edge of what is painted, its casing too. */
const halfWire = 4;
/** So much wider on each side is a run of solder. */
const solderMore = 1.8;
/** The same without the casing, for a pill that finds no other room. */
const tightest = 2.4;
/** How far from its wire a pill may stand. */
const farthest = 160;
/** As much longer may a leader be that passes over one wire less. */
const perCrossing = 20;

/**
 * A pill for each wire that has a number or a colour, the shortest wire first, since it has the least choice. `taken` is what no pill
 * may touch, `outlines` what it touches only where there is no other room: lines around groups, small bodies.
 */
export function placePills(
  wires: readonly RoutedWire[],
  isLong: (wire: RoutedWire) => boolean,
  taken: readonly Box[],
  outlines: readonly Box[],
): Pills {
  const lines = wires.map((wire) => {
    const points = flattened(wire.points);
    return { wire, points, length: lengthOf(points) };
  });
  const obstacles = { kept: indexOf(taken), outlines: indexOf(outlines), strokes: strokesOf(lines) };
  const labels = new Map<string, readonly Label[]>();
  const leaders = new Map<string, readonly [Point, Point]>();
  const missing: string[] = [];
  const order = [...lines].sort((a, b) => a.length - b.length || (a.wire.run.id < b.wire.run.id ? -1 : 1));
  for (const line of order) {
    const text = pillText(line.wire);
    if (text === '') continue;
    const isTwice = line.length > longWire || isLong(line.wire);
    const wanted = isTwice
      ? [Math.min(fromEnd, line.length / 4), Math.max(line.length - fromEnd, 0.75 * line.length)]
      : [line.length / 2];
    const own: Label[] = [];
    for (const along of wanted) {
      const label = nearestSpot(text, line, along, { ...obstacles, apart: own.map((pill) => grow<Box>(pillBox(pill), 40)) });
      if (label !== undefined) own.push(label);
    }
    if (own.length === 0) {
      const apart = spotApart(text, line, obstacles);
      if (apart === undefined) missing.push(line.wire.run.id);
      else {
        own.push(apart.label);
        leaders.set(line.wire.run.id, apart.leader);
      }
    }
    labels.set(line.wire.run.id, own);
    for (const box of own.map((label) => grow<Box>(pillBox(label), 1))) obstacles.kept.add(box, box);
  }
  return { labels, leaders, missing };
}

/** `W5 BK`; nothing for what is soldered in place without a wire. */
function pillText({ run }: RoutedWire): string {
  return run.kind === 'wire' ? [run.number ?? '', run.letters].filter((text) => text !== '').join(' ') : '';
}

interface Obstacles {
  readonly kept: BoxIndex<Box>;
  readonly outlines: BoxIndex<Box>;
  readonly strokes: BoxIndex<Stroke>;
  /** Around the wire's own pills. */
  readonly apart: readonly Box[];
}

interface Stroke {
  readonly line: Line;
  readonly a: Point;
  readonly b: Point;
  readonly box: Box;
  /** So much further from it a pill stands than from a wire. */
  readonly more: number;
}

/** Whether a stroke meets a box that is grown for a wire. */
function isUnder({ a, b, box, more }: Stroke, grown: Box): boolean {
  return overlaps(box, grown) && meets(a, b, grown, more);
}

function strokesOf(lines: readonly Line[]): BoxIndex<Stroke> {
  const strokes = new BoxIndex<Stroke>();
  for (const line of lines) {
    const more = line.wire.run.kind === 'solder' ? solderMore : 0;
    for (const [a, b] of pairwise(line.points)) {
      const stroke = { line, a, b, box: grow(boxAround([a, b]), 1 + more), more };
      for (const box of boxesAlong(a, b, 1 + more)) strokes.add(stroke, box);
    }
  }
  return strokes;
}

interface Line {
  readonly wire: RoutedWire;
  readonly points: readonly Point[];
  readonly length: number;
}

/** On the wire as near as possible to a distance along it; then across an outline; then beside the wire, touching it. */
function nearestSpot(text: string, line: Line, wanted: number, obstacles: Obstacles): Label | undefined {
  const places = placesOn(line, wanted);
  const size = { width: textWidth(text, style), height: textHeight(text, style) };
  const { width, height } = pillBox({ x: 0, y: 0, ...size });
  const isFree = ({ x, y }: Point, isOnOutlines: boolean, clearance: number): boolean => {
    const box = { x: x - width / 2, y: y - height / 2, width, height };
    const grown = grow(box, clearance);
    const isOver = (other: Box): boolean => overlaps(other, box);
    return !(
      obstacles.apart.some(isOver) ||
      obstacles.kept.some(box, isOver) ||
      (!isOnOutlines && obstacles.outlines.some(box, isOver)) ||
      obstacles.strokes.some(grown, (other) => other.line !== line && isUnder(other, grown))
    );
  };
  for (const isOnOutlines of [false, true])
    for (const { at } of places) if (isFree(at, isOnOutlines, halfWire)) return labelAt(text, at, size);
  // The pill's edge lies on the wire's own; of a wire no longer than the pill it may stand off a little.
  const tries = [halfWire, tightest, ...(line.length < 1.6 * width ? [tightest + 5, tightest + 9] : [])];
  for (const clearance of tries) {
    const gap = 1 + Math.max(0, clearance - halfWire);
    for (const { at, along } of places) {
      const reach = Math.abs(along.y) * (width / 2) + Math.abs(along.x) * (height / 2) + gap;
      const slide = 0.4 * (Math.abs(along.x) * width + Math.abs(along.y) * height);
      for (const on of [0, slide, -slide]) {
        for (const side of [reach, -reach]) {
          const beside = { x: at.x + on * along.x - side * along.y, y: at.y + on * along.y + side * along.x };
          if (isFree(beside, true, Math.min(clearance, halfWire))) return labelAt(text, beside, size);
        }
      }
    }
  }
  return undefined;
}

/** Apart from its wire, at a free place with a line to the wire that is short, passes over few wires and crosses no other label. */
function spotApart(
  text: string,
  line: Line,
  { kept, strokes }: Omit<Obstacles, 'apart'>,
): { readonly label: Label; readonly leader: readonly [Point, Point] } | undefined {
  const size = { width: textWidth(text, style), height: textHeight(text, style) };
  const pill = grow(pillBox(labelAt(text, { x: 0, y: 0 }, size)), tightest);
  const ends = placesOn(line, line.length / 2).filter((_, index) => index % 3 === 0);
  let best: { readonly cost: number; readonly middle: Point; readonly at: Point } | undefined;
  for (let far = 20; far <= farthest && far < (best?.cost ?? Infinity); far += 10) {
    for (const { at } of ends) {
      for (const turn of turns) {
        const middle = { x: at.x + far * turn.x, y: at.y + far * turn.y };
        const box = { x: middle.x + pill.x, y: middle.y + pill.y, width: pill.width, height: pill.height };
        const isCovered =
          kept.some(box, (other) => overlaps(other, box)) ||
          strokes.some(box, (other) => other.line !== line && isUnder(other, box)) ||
          kept.some(boxAround([middle, at]), (other) => meets(middle, at, other) && !holds(other, at));
        if (isCovered) continue;
        const cost = far + perCrossing * crossed(middle, at, line, strokes);
        if (cost < (best?.cost ?? Infinity)) best = { cost, middle, at };
      }
    }
  }
  return best && { label: labelAt(text, best.middle, size), leader: [best.middle, best.at] };
}

/** How many other wires a leader passes over. */
function crossed(from: Point, to: Point, own: Line, strokes: BoxIndex<Stroke>): number {
  const near = [...strokes.near(boxAround([from, to]))];
  return new Set(near.filter(({ line, a, b }) => line !== own && crosses(from, to, a, b)).map(({ line }) => line)).size;
}

/** Sixteen directions all round, each of length one. */
const turns = Array.from({ length: 16 }, (_, index): Point => {
  const turn = (index * Math.PI) / 8;
  return { x: Math.cos(turn), y: Math.sin(turn) };
});

interface Place {
  readonly at: Point;
  /** Direction of the wire there, of length one. */
  readonly along: Point;
}

/** Points along a line in small steps, those nearest to a wanted distance first. */
function placesOn({ points }: Line, wanted: number): Place[] {
  const found: (Place & { readonly distance: number })[] = [];
  let start = 0;
  for (const [a, b] of pairwise(points)) {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (length === 0) continue;
    const along = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
    for (let on = Math.ceil(start / step) * step - start; on < length; on += step)
      found.push({ at: { x: a.x + along.x * on, y: a.y + along.y * on }, along, distance: Math.abs(start + on - wanted) });
    start += length;
  }
  return found.sort((a, b) => a.distance - b.distance);
}

function labelAt(text: string, at: Point, { width, height }: Pick<Box, 'width' | 'height'>): Label {
  const corner = { x: at.x - width / 2, y: at.y - height / 2 };
  return { ...corner, width, height, text, size: style.size, bold: true, role: 'letters', upright: false };
}

function lengthOf(points: readonly Point[]): number {
  return pairwise(points).reduce((sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0);
}
