/** A badge on or beside a line, in the free spot that is nearest to the line's middle. */
import { itemAt, pairwise } from '../../collections.js';
import { type Box, overlaps, type Point, strokeBoxes, textWidth } from '../../drawing/index.js';

export interface Badge extends Box {
  /** From what is marked to the badge, where it does not lie on it. */
  readonly leader?: readonly [Point, Point];
}

/** Where a badge belongs. */
export interface Line {
  readonly points: readonly Point[];
  /** A badge may lie on an old route or an outline, not on a wire. */
  readonly isWire: boolean;
}

export interface Obstacles {
  /** What neither a badge nor its leader may touch. */
  readonly solid: readonly Box[];
  /** What a badge may not touch, and a leader had better not cross. */
  readonly lines: readonly Box[];
  /** What a badge had better not touch. */
  readonly bodies: readonly Box[];
}

export const badgeStyle = { size: 11, bold: true } as const;
/** From a line to the edge of its badge: the least, the most and from one try to the next. */
const gaps = { least: 8, most: 120, step: 4 } as const;
/** What is given for a shorter way: to the middle of the line, across another line, over a body. */
const prices = { aside: 0.12, crossing: 24, body: 18 } as const;

/** Undefined where all is taken as far as a leader may reach, upright or level or, failing that, slanting. */
export function placeBadge(line: Line, text: string, obstacles: Obstacles, room: Box): Badge | undefined {
  const size = { width: textWidth(text, badgeStyle) + 8, height: 16 };
  return besideLine(line, size, obstacles, room) ?? atSlant(line, size, obstacles, room);
}

function besideLine(line: Line, size: Size, obstacles: Obstacles, room: Box): Badge | undefined {
  let best: { readonly badge: Badge; readonly cost: number } | undefined;
  const isTooDear = (cost: number): boolean => best !== undefined && cost >= best.cost;
  for (const anchor of anchorsOf(line.points)) {
    if (isTooDear(anchor.cost)) break;
    const { width, height } = size;
    const reach = anchor.isLevel ? { x: width / 2, y: gaps.most + height } : { x: gaps.most + width, y: height / 2 };
    const near = nearTo(anchor, reach, obstacles);
    const consider = (gap: number, cost: number): void => {
      const badge = badgeAt(anchor, gap, size);
      const price = priceOf(badge, near);
      if (price !== undefined && holds(room, badge) && !isTooDear(cost + price)) best = { badge, cost: cost + price };
    };
    if (!line.isWire) consider(0, anchor.cost);
    for (let gap: number = gaps.least; gap <= gaps.most && !isTooDear(anchor.cost + gap); gap += gaps.step)
      for (const side of [-1, 1]) consider(side * gap, anchor.cost + gap);
  }
  return best?.badge;
}

/** A short wire among lugs and letters has no free spot straight beside it: the badge that lies nearest in any direction. */
function atSlant({ points }: Line, size: Size, obstacles: Obstacles, room: Box): Badge | undefined {
  const reach = gaps.most + size.width;
  const anchors = anchorsOf(points);
  const directions = Array.from({ length: 24 }, (_, step) => (step * Math.PI) / 12);
  const near = anchors.map((anchor) => nearTo(anchor, { x: reach, y: reach }, obstacles));
  for (let gap: number = gaps.least; gap <= gaps.most; gap += gaps.step) {
    let best: { readonly badge: Badge; readonly cost: number } | undefined;
    for (const [index, anchor] of anchors.entries())
      for (const angle of directions) {
        const badge = slantingBadge(anchor, { x: anchor.x + gap * Math.cos(angle), y: anchor.y + gap * Math.sin(angle) }, size);
        const price = holds(room, badge) ? priceOf(badge, itemAt(near, index)) : undefined;
        const cost = price === undefined ? Infinity : anchor.cost + price;
        if (cost < (best?.cost ?? Infinity)) best = { badge, cost };
      }
    if (best !== undefined) return best.badge;
  }
  return undefined;
}

/** At the end of a leader, touching it with the corner or the middle of the edge that is nearest. */
function slantingBadge({ x, y }: Point, end: Point, { width, height }: Size): Badge {
  const along = (from: number, to: number, size: number): number =>
    to - (1 - Math.max(-1, Math.min(1, (to - from) / 8))) * (size / 2);
  return { x: along(x, end.x, width), y: along(y, end.y, height), width, height, leader: [{ x, y }, end] };
}

type Size = Pick<Box, 'width' | 'height'>;

/** What lies so far around a point, to either side and up and down. */
function nearTo({ x, y }: Point, reach: Point, { solid, lines, bodies }: Obstacles): Obstacles {
  const strip = { x: x - reach.x, y: y - reach.y, width: 2 * reach.x, height: 2 * reach.y };
  const near = (boxes: readonly Box[]): readonly Box[] => boxes.filter((box) => overlaps(box, strip));
  return { solid: near(solid), lines: near(lines), bodies: near(bodies) };
}

/** Undefined where it would cover something. */
function priceOf(badge: Badge, { solid, lines, bodies }: Obstacles): number | undefined {
  const leader = leaderBoxes(badge);
  const isOver = (other: Box): boolean => leader.some((box) => overlaps(box, other));
  if (isOn(badge, solid) || isOn(badge, lines) || solid.some(isOver)) return undefined;
  const crossed = lines.filter(isOver).length;
  return prices.crossing * crossed + (isOn(badge, bodies) ? prices.body : 0);
}

/** What a leader covers. */
export function leaderBoxes({ leader }: Badge): readonly Box[] {
  return leader === undefined ? [] : strokeBoxes(leader, 0.8);
}

interface Anchor extends Point {
  /** True where the line is level there, so that a badge stands above or below it. */
  readonly isLevel: boolean;
  readonly cost: number;
}

/** Points along a line, from its middle outwards. */
function anchorsOf(line: readonly Point[]): readonly Anchor[] {
  const lengths = pairwise(line).map(([a, b]) => Math.hypot(b.x - a.x, b.y - a.y));
  const middle = lengths.reduce((sum, length) => sum + length, 0) / 2;
  let start = 0;
  const anchors = pairwise(line).flatMap(([a, b], index) => {
    const length = lengths[index] ?? 0;
    const isLevel = Math.abs(b.x - a.x) >= Math.abs(b.y - a.y);
    const own = Array.from({ length: Math.floor(length / gaps.step) + 1 }, (_, step): Anchor => {
      const share = length === 0 ? 0 : (step * gaps.step) / length;
      const cost = Math.abs(start + step * gaps.step - middle) * prices.aside;
      return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, isLevel, cost };
    });
    start += length;
    return own;
  });
  return anchors.sort((one, other) => one.cost - other.cost);
}

/** With a gap between the line and the badge, to the right or below where it is positive; on the line without one. */
function badgeAt({ x, y, isLevel }: Anchor, gap: number, { width, height }: Size): Badge {
  const offset = gap + (Math.sign(gap) * (isLevel ? height : width)) / 2;
  const [centreX, centreY] = isLevel ? [x, y + offset] : [x + offset, y];
  const box = { x: centreX - width / 2, y: centreY - height / 2, width, height };
  if (gap === 0) return box;
  return { ...box, leader: [{ x, y }, isLevel ? { x, y: y + gap } : { x: x + gap, y }] };
}

function isOn(box: Box, others: readonly Box[]): boolean {
  return others.some((other) => overlaps(box, other));
}

function holds(room: Box, { x, y, width, height }: Box): boolean {
  return x >= room.x && y >= room.y && x + width <= room.x + room.width && y + height <= room.y + room.height;
}
