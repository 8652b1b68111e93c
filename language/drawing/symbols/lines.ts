/** Lines of lugs on a switch: poles side by side, lug names and contacts between the lines, wires outside. */
import { itemAt } from '../../collections.js';
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
export function addLines(builder: SymbolBuilder, part: DiagramPart, lines: Lines, place: LinePlace): LinesExtent {
  const nameReach = lugNameReach(builder, part, lines, place.alongY);
  const spaced = spacedLines(part, lines, nameReach);
  const breadth = (spaced.at(-1)?.across ?? 0) - (spaced[0]?.across ?? 0);
  const count = Math.max(...lines.map((line) => line.length), 0);
  const length = (count - 1) * pitch;
  const point = (along: number, across: number): Point =>
    place.alongY ? { x: place.x + across, y: place.y + along } : { x: place.x + along, y: place.y + across };
  for (const [index, { across: from }] of spaced.entries()) {
    if (index % 2 === 0) addWafer(builder, point, { length, from, to: spaced[index + 1]?.across }, nameReach, place.alongY);
  }
  addContacts(builder, part, point, addLugs(builder, part, point, spaced, place.alongY));
  const second = spaced[1] === undefined ? nameOffset + nameReach : spaced[1].across + breadth / 2;
  return { length, breadth, middle: (second - breadth) / 2 };
}

type Lines = readonly (readonly (number | null)[])[];
/** From a place along the lines and across them to a point of the unturned part. */
type PointOf = (along: number, across: number) => Point;

/** A line with its distance from the middle of all. */
interface SpacedLine {
  readonly line: Lines[number];
  readonly across: number;
}

function spacedLines(part: DiagramPart, lines: Lines, nameReach: number): readonly SpacedLine[] {
  // Twice a multiple of the grid, so that a line lies on the grid when the lines are centred.
  const inside = 2 * snapUp(lines.length === 1 ? 0 : nameOffset + nameReach + 3);
  let offset = 0;
  let before: Lines[number] | undefined;
  const spaced = lines.map((line, index) => {
    if (before !== undefined) offset += index % 2 === 1 ? inside : aisle(part, [...before, ...line]);
    before = line;
    return { line, offset };
  });
  return spaced.map((one) => ({ line: one.line, across: one.offset - offset / 2 }));
}

/** The wafer under a pair of lines, or under a last one alone. */
function addWafer(
  builder: SymbolBuilder,
  point: PointOf,
  { length, from, to }: { readonly length: number; readonly from: number; readonly to: number | undefined },
  nameReach: number,
  alongY: boolean,
): void {
  const end = to ?? from + nameOffset + nameReach;
  const centre = point(length / 2, (from + end) / 2);
  const size = (along: number, across: number): { readonly width: number; readonly height: number } =>
    alongY ? { width: across, height: along } : { width: along, height: across };
  builder.box('wafer', { ...centre, ...size(length + 26, end - from + (to === undefined ? 10 : 0)), radius: 5 });
  const kept = size(length + 20, end - from - 2 * 10);
  builder.cover(centre.x, centre.y, kept.width, kept.height);
}

/** Where a lug stands, and on which side of it its contact is shown. */
interface Stop {
  readonly along: number;
  readonly across: number;
  readonly inward: 1 | -1;
}

function addLugs(
  builder: SymbolBuilder,
  part: DiagramPart,
  point: PointOf,
  spaced: readonly SpacedLine[],
  alongY: boolean,
): ReadonlyMap<number, Stop> {
  const headingOf = (isOutwardBefore: boolean): Heading =>
    alongY ? (isOutwardBefore ? west : east) : isOutwardBefore ? north : south;
  const stops = new Map<number, Stop>();
  for (const [index, { line, across }] of spaced.entries()) {
    const isFirstOfPair = index % 2 === 0;
    for (const [slot, lugIndex] of line.entries()) {
      const lug = lugIndex === null ? undefined : part.lugs[lugIndex];
      if (!lug || lugIndex === null) continue;
      const along = slot * pitch;
      stops.set(lugIndex, { along, across, inward: isFirstOfPair ? 1 : -1 });
      const { x, y } = point(along, across);
      builder.lug(lug, x, y, headingOf(isFirstOfPair));
      builder.beside(lug.name, x, y, headingOf(!isFirstOfPair), nameOffset);
    }
  }
  return stops;
}

/** A bar for each contact, with a tick to each of its lugs. */
function addContacts(builder: SymbolBuilder, part: DiagramPart, point: PointOf, where: ReadonlyMap<number, Stop>): void {
  for (const contact of part.contacts) {
    const stops = contact.lugs
      .flatMap((lug) => where.get(lug) ?? [])
      .map((stop) => ({ ...stop, bar: stop.across + stop.inward * barOffset }));
    if (stops.length < 2) continue;
    const ticks = stops.map(({ along, across, bar }) => [point(along, across), point(along, bar)]);
    const sorted = [...stops].sort((a, b) => a.along - b.along || a.bar - b.bar);
    const spine: Point[] = [];
    sorted.forEach((stop, index) => {
      const before = sorted[index - 1];
      if (before && before.bar !== stop.bar) spine.push(point(before.along, stop.bar));
      spine.push(point(stop.along, stop.bar));
    });
    builder.contact(contact.id, [spine, ...ticks]);
  }
}

/** Room between two pairs of lines, for as many wires as end there. */
function aisle(part: DiagramPart, lugs: readonly (number | null)[]): number {
  const ends = lugs.reduce<number>((sum, lug) => sum + (lug === null ? 0 : itemAt(part.lugs, lug).ends), 0);
  return 2 * Math.ceil((3 + Math.min(8, ends)) / 2) * grid;
}

function lugNameReach(builder: SymbolBuilder, part: DiagramPart, lines: Lines, alongY: boolean): number {
  const isAcrossLevel = (builder.turn % 2 === 0) === alongY;
  if (!isAcrossLevel) return lugStyle.size;
  return Math.max(0, ...lines.flat().map((lug) => (lug === null ? 0 : lugNameWidth(itemAt(part.lugs, lug).name))));
}
