/** The letters of a wire's colour: in a gap of the wire itself, where nothing crosses, so that it is plain whose they are. */
import { pairwise } from '../../collections.js';
import { overlaps, type Box, type Point } from '../geometry.js';
import type { Label } from '../shape.js';
import { textHeight, textWidth } from '../text-measure.js';

export interface Line {
  readonly points: readonly Point[];
  readonly letters: string;
}

export interface LetteredLine {
  readonly pieces: readonly (readonly Point[])[];
  readonly labels: readonly Label[];
}

const style = { size: 9, bold: true } as const;
/** Wire left free beside the letters, beside a crossing, and at a bend or a lug. */
const clear = { letters: 3, crossing: 7, end: 4, lug: 8 } as const;
/** Wires longer than this bear their letters near both ends. */
const longWire = 420;
/** Two groups of letters on one wire are farther apart than this. */
const apart = 60;

/**
 * Letters for one line; `crossings` are the points where it meets others, `taken` the boxes that its letters must not touch, `wires`
 * those of all stretches of wire, which matter where the letters find no gap and stand beside their wire.
 */
export function letterLine(line: Line, crossings: readonly Point[], taken: readonly Box[], wires: readonly Box[]): LetteredLine {
  if (line.letters === '') return { pieces: [line.points], labels: [] };
  const total = lengthOf(line.points);
  const wanted = total > longWire ? [0.18 * total, 0.82 * total] : [0.5 * total];
  const half = textWidth(line.letters, style) / 2 + clear.letters;
  const slots = slotsOf(line, crossings, half);
  const spots: Spot[] = [];
  for (const along of wanted) {
    const spot = nearestSpot(line.letters, slots, half, along, (middle, label) => isFree(middle, label, spots, taken));
    if (spot) spots.push(spot);
  }
  if (spots.length === 0) {
    const beside = besideLine(line, [...taken, ...wires]);
    return { pieces: [line.points], labels: beside ? [beside] : [] };
  }
  spots.sort((a, b) => a.middle - b.middle);
  return { pieces: cut(line.points, spots), labels: spots.map((spot) => spot.label) };
}

/** The nearest free place next to the line, from its longest stretch on. */
function besideLine({ points, letters }: Line, taken: readonly Box[]): Label | undefined {
  const width = textWidth(letters, style);
  const height = textHeight(letters, style);
  const length = ([a, b]: readonly [Point, Point]): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
  const stretches = pairwise(points).sort((p, q) => length(q) - length(p));
  for (const gap of [4, 8, 14]) {
    for (const [a, b] of stretches) {
      for (const share of [0.5, 0.3, 0.7, 0.1, 0.9]) {
        const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
        for (const side of [1, -1]) {
          const centre =
            a.x === b.x ? { x: at.x + side * (gap + width / 2), y: at.y } : { x: at.x, y: at.y - side * (gap + height / 2) };
          const box = { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
          if (!taken.some((other) => overlaps(other, box))) return letterLabel(letters, box, false);
        }
      }
    }
  }
  return undefined;
}

function letterLabel(text: string, box: Box, upright: boolean): Label {
  return { ...box, text, size: style.size, bold: true, role: 'letters', upright };
}

interface Spot {
  /** Distance along the line of the gap's middle, and half of its length. */
  readonly middle: number;
  readonly half: number;
  readonly label: Label;
}

/** A straight stretch on which letters may stand: distances along the line between which their middle may lie. */
interface Slot {
  readonly a: Point;
  readonly b: Point;
  readonly start: number;
  readonly from: number;
  readonly to: number;
  /** Distances along the line of the crossings on it. */
  readonly crossings: readonly number[];
}

function slotsOf({ points }: Line, crossings: readonly Point[], half: number): Slot[] {
  const slots: Slot[] = [];
  let start = 0;
  pairwise(points).forEach(([a, b], index) => {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const isLevel = a.y === b.y;
    const from = start + (index === 0 ? clear.lug : clear.end) + half;
    const to = start + length - (index === points.length - 2 ? clear.lug : clear.end) - half;
    if ((isLevel || a.x === b.x) && from <= to) {
      const on = crossings.filter((point) =>
        isLevel ? point.y === a.y && between(point.x, a.x, b.x) : point.x === a.x && between(point.y, a.y, b.y),
      );
      slots.push({ a, b, start, from, to, crossings: on.map((point) => start + Math.hypot(point.x - a.x, point.y - a.y)) });
    }
    start += length;
  });
  return slots;
}

/** Whether letters may stand here: not near those of the same line, and on nothing that is drawn. */
function isFree(middle: number, label: Label, before: readonly Spot[], taken: readonly Box[]): boolean {
  return !before.some((other) => Math.abs(other.middle - middle) <= apart) && !taken.some((other) => overlaps(other, label));
}

/** The free spot nearest to a wanted distance along the line. */
function nearestSpot(
  letters: string,
  slots: readonly Slot[],
  half: number,
  wanted: number,
  isFree: (middle: number, label: Label) => boolean,
): Spot | undefined {
  let best: Spot | undefined;
  for (const slot of slots) {
    for (const middle of outwards(slot.from, slot.to, wanted)) {
      if (best && Math.abs(middle - wanted) >= Math.abs(best.middle - wanted)) break;
      if (slot.crossings.some((crossing) => Math.abs(crossing - middle) < half + clear.crossing)) continue;
      const label = labelAt(letters, slot, middle);
      if (isFree(middle, label)) best = { middle, half, label };
    }
  }
  return best;
}

/** Distances between two ends in small steps, those nearest to the wanted one first. */
function* outwards(from: number, to: number, wanted: number): Generator<number> {
  const start = Math.min(to, Math.max(from, wanted));
  yield start;
  for (let step = 2; start - step >= from || start + step <= to; step += 2) {
    if (start - step >= from) yield start - step;
    if (start + step <= to) yield start + step;
  }
}

function labelAt(letters: string, { a, b, start }: Slot, middle: number): Label {
  const isLevel = a.y === b.y;
  const width = textWidth(letters, style);
  const height = textHeight(letters, style);
  const sign = isLevel ? Math.sign(b.x - a.x) : Math.sign(b.y - a.y);
  const along = sign * (middle - start);
  const centre = isLevel ? { x: a.x + along, y: a.y } : { x: a.x, y: a.y + along };
  const [across, down] = isLevel ? [width, height] : [height, width];
  return letterLabel(letters, { x: centre.x - across / 2, y: centre.y - down / 2, width: across, height: down }, !isLevel);
}

/** The line without its gaps. */
function cut(points: readonly Point[], spots: readonly Spot[]): Point[][] {
  const pieces: Point[][] = [];
  let from = 0;
  for (const { middle, half } of spots) {
    pieces.push(stretch(points, from, middle - half));
    from = middle + half;
  }
  pieces.push(stretch(points, from, lengthOf(points)));
  return pieces;
}

/** The part of a line between two distances along it. */
function stretch(points: readonly Point[], from: number, to: number): Point[] {
  const result: Point[] = [];
  let start = 0;
  for (const [a, b] of pairwise(points)) {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const at = (distance: number): Point =>
      length === 0 ? a : { x: round(a.x + ((b.x - a.x) * distance) / length), y: round(a.y + ((b.y - a.y) * distance) / length) };
    const [first, last] = [Math.max(from, start), Math.min(to, start + length)];
    if (first < last || (length === 0 && first === last)) {
      if (result.length === 0) result.push(at(first - start));
      result.push(at(last - start));
    }
    start += length;
  }
  return result;
}

function lengthOf(points: readonly Point[]): number {
  return pairwise(points).reduce((sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0);
}

function between(value: number, a: number, b: number): boolean {
  return value >= Math.min(a, b) && value <= Math.max(a, b);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
