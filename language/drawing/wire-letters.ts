/** The letters of a wire's colour: in a gap of the wire itself, where nothing crosses, so that it is plain whose they are. */
import { type Box, type Point } from './geometry.js';
import type { Label } from './shape.js';
import { textHeight, textWidth } from './text-measure.js';

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

/**
 * Letters for one line; `crossings` are the points where it meets others, `taken` the boxes that its letters must not touch, `wires`
 * those of all stretches of wire, which matter where the letters find no gap and stand beside their wire.
 */
export function letterLine(line: Line, crossings: readonly Point[], taken: readonly Box[], wires: readonly Box[]): LetteredLine {
  if (line.letters === '') return { pieces: [line.points], labels: [] };
  const total = lengthOf(line.points);
  const wanted = total > longWire ? [0.18 * total, 0.82 * total] : [0.5 * total];
  const spots: Spot[] = [];
  for (const along of wanted) {
    const best = freeSpots(line, crossings, taken)
      .filter((spot) => spots.every((other) => Math.abs(other.middle - spot.middle) > 60))
      .sort((a, b) => Math.abs(a.middle - along) - Math.abs(b.middle - along) || a.middle - b.middle)[0];
    if (best) spots.push(best);
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
  const stretches = points.slice(1).map((b, index) => ({ a: points[index]!, b }));
  const length = ({ a, b }: (typeof stretches)[number]): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
  stretches.sort((p, q) => length(q) - length(p));
  for (const gap of [4, 8, 14]) {
    for (const { a, b } of stretches) {
      for (const share of [0.5, 0.3, 0.7, 0.1, 0.9]) {
        const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
        for (const side of [1, -1]) {
          const centre =
            a.x === b.x ? { x: at.x + side * (gap + width / 2), y: at.y } : { x: at.x, y: at.y - side * (gap + height / 2) };
          const box = { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
          if (!taken.some((other) => touches(other, box))) return letterLabel(letters, box, false);
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

function freeSpots({ points, letters }: Line, crossings: readonly Point[], taken: readonly Box[]): Spot[] {
  const width = textWidth(letters, style);
  const height = textHeight(letters, style);
  const half = width / 2 + clear.letters;
  const spots: Spot[] = [];
  let start = 0;
  points.slice(1).forEach((b, index) => {
    const a = points[index]!;
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const isLevel = a.y === b.y;
    const isStraight = isLevel || a.x === b.x;
    const at = (distance: number): Point => ({
      x: a.x + ((b.x - a.x) * distance) / length,
      y: a.y + ((b.y - a.y) * distance) / length,
    });
    if (isStraight && length > 0) {
      const begin = index === 0 ? clear.lug : clear.end;
      const end = length - (index === points.length - 2 ? clear.lug : clear.end);
      const on = crossings.filter((point) =>
        isLevel ? point.y === a.y && between(point.x, a.x, b.x) : point.x === a.x && between(point.y, a.y, b.y),
      );
      for (let middle = begin + half; middle <= end - half + 1e-9; middle += 2) {
        if (on.some((point) => Math.abs(Math.hypot(point.x - a.x, point.y - a.y) - middle) < half + clear.crossing)) continue;
        const centre = at(middle);
        const box = isLevel
          ? { x: centre.x - width / 2, y: centre.y - height / 2, width, height }
          : { x: centre.x - height / 2, y: centre.y - width / 2, width: height, height: width };
        if (taken.some((other) => touches(other, box))) continue;
        spots.push({
          middle: start + middle,
          half,
          label: letterLabel(letters, box, !isLevel),
        });
      }
    }
    start += length;
  });
  return spots;
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
  points.slice(1).forEach((b, index) => {
    const a = points[index]!;
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const at = (distance: number): Point =>
      length === 0 ? a : { x: round(a.x + ((b.x - a.x) * distance) / length), y: round(a.y + ((b.y - a.y) * distance) / length) };
    const [first, last] = [Math.max(from, start), Math.min(to, start + length)];
    if (first < last || (length === 0 && first === last)) {
      if (result.length === 0) result.push(at(first - start));
      result.push(at(last - start));
    }
    start += length;
  });
  return result;
}

function lengthOf(points: readonly Point[]): number {
  return points.slice(1).reduce((sum, b, index) => sum + Math.hypot(b.x - points[index]!.x, b.y - points[index]!.y), 0);
}

function touches(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function between(value: number, a: number, b: number): boolean {
  return value >= Math.min(a, b) && value <= Math.max(a, b);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
