/** Lines of lugs on a switch: poles side by side, lug names and contacts between the lines, wires outside. */
import type { DiagramPart } from '../diagram/diagram.js';
import { east, grid, type Heading, north, type Point, snapUp, south, west } from '../geometry.js';
import { lugNameWidth, lugStyle, type SymbolBuilder } from './symbol.js';

const pitch = 3 * grid;
/** From a lug to the bar that shows its contact closed, and on to its name. */
const barOffset = 15;
const nameOffset = 21;

export interface LinePlace extends Point {
  /** True where a line runs down the page of the unturned part, false where it runs across. */
  readonly alongY: boolean;
}

export interface LinesExtent {
  /** Ends of the lines, first and last lug. */
  readonly length: number;
  /** Distance from the first to the last line. */
  readonly breadth: number;
  /** Middle of the first wafer, across the lines. */
  readonly middle: number;
}

/** Draws the lines beginning at `place`, centred across it. A pair of lines shares the space between; pairs stand apart so that wires come in. */
export function addLines(
  builder: SymbolBuilder,
  part: DiagramPart,
  lines: readonly (readonly (number | null)[])[],
  place: LinePlace,
): LinesExtent {
  const nameReach = lugNameReach(builder, part, lines, place.alongY);
  // Twice a multiple of the grid, so that a line lies on the grid when the lines are centred.
  const inside = 2 * snapUp(lines.length === 1 ? 0 : nameOffset + nameReach + 3);
  const offsets: number[] = [];
  lines.forEach((_, index) => {
    const last = offsets.at(-1);
    offsets.push(last === undefined ? 0 : last + (index % 2 === 1 ? inside : aisle(part, lines, index)));
  });
  const breadth = offsets.at(-1) ?? 0;
  const count = Math.max(...lines.map((line) => line.length), 0);
  const point = (along: number, across: number): Point =>
    place.alongY ? { x: place.x + across, y: place.y + along } : { x: place.x + along, y: place.y + across };
  const headingOf = (isOutwardBefore: boolean): Heading =>
    place.alongY ? (isOutwardBefore ? west : east) : isOutwardBefore ? north : south;
  const length = (count - 1) * pitch;

  for (let first = 0; first < lines.length; first += 2) {
    const from = offsets[first]! - breadth / 2;
    const to = (offsets[first + 1] ?? offsets[first]! + nameOffset + nameReach) - breadth / 2;
    const centre = point(length / 2, (from + to) / 2);
    const across = to - from + (lines[first + 1] ? 0 : 10);
    builder.box(
      'wafer',
      centre.x,
      centre.y,
      ...(place.alongY ? ([across, length + 26] as const) : ([length + 26, across] as const)),
      5,
    );
    const between = to - from - 2 * 10;
    builder.keepOut(
      centre.x,
      centre.y,
      ...(place.alongY ? ([between, length + 20] as const) : ([length + 20, between] as const)),
    );
  }

  const where = new Map<number, { readonly along: number; readonly across: number; readonly inward: 1 | -1 }>();
  lines.forEach((line, index) => {
    const isFirstOfPair = index % 2 === 0;
    const across = offsets[index]! - breadth / 2;
    line.forEach((lugIndex, slot) => {
      const lug = lugIndex === null ? undefined : part.lugs[lugIndex];
      if (!lug || lugIndex === null) return;
      const along = slot * pitch;
      where.set(lugIndex, { along, across, inward: isFirstOfPair ? 1 : -1 });
      const { x, y } = point(along, across);
      const outward = headingOf(isFirstOfPair);
      builder.lug(lug, x, y, outward);
      builder.beside(lug.name, x, y, headingOf(!isFirstOfPair), nameOffset);
    });
  });

  for (const contact of part.contacts) {
    const stops = contact.lugs.flatMap((lug) => where.get(lug) ?? []);
    if (stops.length < 2) continue;
    const bars = stops.map((stop) => stop.across + stop.inward * barOffset);
    const ticks = stops.map((stop, index) => [point(stop.along, stop.across), point(stop.along, bars[index]!)]);
    const sorted = stops
      .map((stop, index) => ({ along: stop.along, bar: bars[index]! }))
      .sort((a, b) => a.along - b.along || a.bar - b.bar);
    const spine: Point[] = [];
    sorted.forEach((stop, index) => {
      const before = sorted[index - 1];
      if (before && before.bar !== stop.bar) spine.push(point(before.along, stop.bar));
      spine.push(point(stop.along, stop.bar));
    });
    builder.contact(contact.id, [spine, ...ticks]);
  }
  return { length, breadth, middle: ((offsets[1] ?? nameOffset + nameReach) - breadth) / 2 };
}

/** Room between two pairs of lines, for as many wires as end there. */
function aisle(part: DiagramPart, lines: readonly (readonly (number | null)[])[], index: number): number {
  const ends = [...lines[index - 1]!, ...lines[index]!].reduce<number>(
    (sum, lug) => sum + (lug === null ? 0 : part.lugs[lug]!.ends),
    0,
  );
  return 2 * Math.ceil((3 + Math.min(8, ends)) / 2) * grid;
}

function lugNameReach(
  builder: SymbolBuilder,
  part: DiagramPart,
  lines: readonly (readonly (number | null)[])[],
  alongY: boolean,
): number {
  const isAcrossLevel = (builder.turn % 2 === 0) === alongY;
  if (!isAcrossLevel) return lugStyle.size;
  return Math.max(0, ...lines.flat().map((lug) => (lug === null ? 0 : lugNameWidth(part.lugs[lug]!.name))));
}
